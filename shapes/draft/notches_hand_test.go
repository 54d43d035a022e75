package draft

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// Seams in front have one notch at each mark, those behind two, 10 mm apart (common practice); every second one from
// the side has three at its first, so that no panel goes in the wrong way round.
func TestNotchesTellSeamsApart(t *testing.T) {
	for seam, want := range map[int][]float64{0: {50, 60, 70, 200, 210}, 1: {50, 60, 200, 210}, 2: {50, 200}, 3: {50,
		60, 70, 200},
		4: {50, 200}, 5: {50, 60, 70, 200}} {
		if got := seamNotches(seam, 2, 50, 200); !alike(got, want) {
			t.Errorf("seam %d: %v, want %v", seam, got, want)
		}
	}
	// From the centre back of eight gores: two behind, the side, and two in front.
	d := must(t, CircleSkirt{Fraction: .5, Gores: 8, Waist: 720, Length: 900, Opening: true,
		Allowance: shapes.Allowance{Seam: 12, Waist: 12, Hem: 20}})
	var numbers []int
	for _, j := range d.Joins {
		numbers = append(numbers, len(j.Notches))
	}
	if want := []int{3, 2, 1, 3, 1}; !slices.Equal(numbers, want) {
		t.Errorf("%v notches, want %v", numbers, want)
	}
	for _, p := range d.Pieces {
		for _, e := range p.Edges {
			if e.Kind == shapes.Hem || e.Kind == shapes.Waist {
				continue
			}
			n := notchesOn(p, e.Name)
			if first := n[0]; math.Abs(first-450) > .1 && math.Abs(n[len(n)-1]-450) > .1 {
				t.Errorf("%s, %s: notches at %v, want the first half way down", p.Name, e.Name, n)
			}
		}
	}
}

// The seams of a train are notched besides where the hem of the skirt would be.
func TestTrainsAreNotchedAtTheSkirt(t *testing.T) {
	for name, skirt := range trainSkirts() {
		d := must(t, Train{Skirt: skirt, Behind: 600, BackGores: 1})
		plain := must(t, skirt)
		length := 0.
		if c, ok := skirt.(CircleSkirt); ok {
			length = c.Length
		}
		if g, ok := skirt.(GoredSkirt); ok {
			length = g.Length
		}
		if n := d.Joins[0].Notches; math.Abs(n[len(n)-1]-length) > 1e-6 || len(n) != len(plain.Joins[0].Notches)+1 {
			t.Errorf("%s: notches at %v, the skirt is %g long", name, n, length)
		}
		for i := range d.Joins[1:] {
			if len(d.Joins[i+1].Notches) != len(plain.Joins[i+1].Notches) {
				t.Errorf("%s: %s is notched at %v", name, d.Joins[i+1].Name, d.Joins[i+1].Notches)
			}
		}
	}
}

// Tubes are notched half way along their seam, and their arrow lies in a quarter of the width, off the fold: from 15
// to 85 hundredths of the shorter side.
func TestTubesByHand(t *testing.T) {
	for _, slant := range []float64{0, 60} {
		p := draftOne(t, Ties{Length: 400, Width: 20, Slant: slant, Count: 2, Allowance: shapes.Allowance{Seam: 10}})
		for _, edge := range []string{"lower edge", "upper edge"} {
			if n := notchesOn(p, edge); !alike(n, []float64{(400 - slant) / 2}) {
				t.Errorf("slant %g: notches of its %s at %v", slant, edge, n)
			}
		}
		fold := p.Inside[0]
		want := orb.LineString{{fold[0][0] + .15*(400-slant), fold[0][1] - 10}, {fold[0][0] + .85*(400-slant),
			fold[0][1] - 10}}
		if planar.Distance(p.Grain[0], want[0])+planar.Distance(p.Grain[1], want[1]) > 1e-6 {
			t.Errorf("slant %g: arrow %v, want %v", slant, p.Grain, want)
		}
	}
}

// Strips that do not go round end free, in hems as wide as is asked for; whole ones have no ends.
func TestEndsOfStrips(t *testing.T) {
	s := Strip{Name: "ruffle", Edge: 1000, Fullness: 2, Depth: 120, ClothWidth: 1400, Join: 10, EndHem: 7,
		Allowance: shapes.Allowance{Seam: 10, Hem: 12}}
	for closed, want := range map[bool]*Ends{true: nil, false: {Allowance: 7}} {
		s.Closed = closed
		d := must(t, s)
		if (d.Ends == nil) != (want == nil) || want != nil && *d.Ends != *want || !d.Gathered {
			t.Errorf("closed %v: ends %+v", closed, d.Ends)
		}
		hems := 0
		for _, p := range d.Pieces {
			for _, e := range p.Edges {
				if e.Kind == shapes.Hem && e.Allowance == 7 {
					hems += p.Count
				}
			}
		}
		if hems != map[bool]int{true: 0, false: 2}[closed] {
			t.Errorf("closed %v: %d ends are hemmed", closed, hems)
		}
	}
}

// Each pleat of a cap is marked by three named lines of 40 mm, square in from its edge: both placement lines and the
// outer fold half way between them.
func TestLinesOfCapPleats(t *testing.T) {
	d := must(t, lanternSleeve(t, LegOfMuttonSleeve))
	p := d.Pieces[0]
	front, _ := p.Edge("front cap")
	back, _ := p.Edge("back cap")
	lines := 0
	for i, n := range p.Names {
		want := []string{placement, outerFold, placement}[i%3]
		l := p.Inside[n.Line]
		near(t, "its length", plane.Length(l), 40, 1e-6)
		e := front
		if planar.DistanceFrom(back.Line, l[0]) < planar.DistanceFrom(front.Line, l[0]) {
			e = back
		}
		at, ok := e.Along(l[0])
		_, out := e.At(at)
		way := sub2(l[1], l[0])
		if !ok || n.Name != want || n.Line != i || math.Abs(way[0]+40*out[0])+math.Abs(way[1]+40*out[1]) > 1e-3 {
			t.Errorf("line %d, %q on %s: %v from %v", i, n.Name, e.Name, way, l[0])
		}
		lines++
	}
	if lines != 2*4*3 {
		t.Errorf("%d lines", lines)
	}
}

// The facing of a stand ends in a free edge, a hem, and is cut as often and for the same sides as what it faces;
// fused, all its edges are plain and of one allowance.
func TestEdgesOfStandFacings(t *testing.T) {
	b := lanternBlock()
	b.FrontOnFold, b.BackOnFold = false, true
	for fused, want := range map[bool]string{false: "hem", true: "seam"} {
		d, err := StandFacing{Of: b, Closing: standed("centre front", 20, 60), Fused: fused, Bare: 4}.Draft()
		if err != nil {
			t.Fatal(err)
		}
		p := d.Pieces[0]
		free, ok := p.Edge(freeEdge)
		if !ok || fmt.Sprint(free.Kind) != want || p.Count != 2 || !p.Pair || !slices.Equal(p.Labels, []string{"left",
			"right"}) ||
			strings.HasSuffix(p.Name, ", interfacing") != fused || (len(d.Faced.A.Edges) == 0) != fused {
			t.Errorf("fused %v: %s, %d cut, pair %v %v, its free edge a %v", fused, p.Name, p.Count, p.Pair, p.Labels,
				free.Kind)
		}
		for _, e := range p.Edges {
			if fused && (e.Allowance != 4 || e.Kind != shapes.Seam) {
				t.Errorf("fused: its %s is a %v of %g", e.Name, e.Kind, e.Allowance)
			}
		}
	}
}

// A straight lower edge runs straight from centre front to the side and on to centre back, on a body whose panels
// meet there.
func TestStraightLowerEdges(t *testing.T) {
	c := lanternCorset()
	c.Lower, c.FrontPoint, c.SideRise, c.BackRise = StraightDown, 0, 40, 10
	b, err := c.body()
	if err != nil {
		t.Fatal(err)
	}
	for at, want := range map[float64]float64{0: 0, .125: 10, .25: 20, .375: 30, .5: 40, .75: 25, 1: 10} {
		near(t, fmt.Sprintf("rise at %g", at), b.bottom.at(0)-b.bottom.at(at), want, 1e-6)
	}
	c.Lower = CurvedLower
	if b, err = c.body(); err != nil || math.Abs(b.bottom.at(0)-b.bottom.at(.125)-10) < 1 {
		t.Errorf("curved it rises by %g a quarter of the way, %v", b.bottom.at(0)-b.bottom.at(.125), err)
	}
}
