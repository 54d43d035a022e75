package draft

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
)

// A cap that is eased in is longer than its armhole all along alike: each of its notches lies as far along its
// half, by share, as a notch of the armhole does along that, counted from the underarm; the back has two.
func TestCapNotchesLieOnThoseOfTheArmhole(t *testing.T) {
	body := lanternBlock()
	made, err := body.Draft()
	if err != nil {
		t.Fatal(err)
	}
	sleeve := lanternSleeve(t, StraightSleeve)
	drawn, err := sleeve.Draft()
	if err != nil {
		t.Fatal(err)
	}
	join, err := ArmholeJoin(made, drawn)
	if err != nil {
		t.Fatal(err)
	}
	for _, half := range []struct {
		edge    string
		armhole float64
		notches int
	}{{"front cap", sleeve.FrontArmhole, 1}, {"back cap", sleeve.BackArmhole, 2}} {
		var shares []float64
		e, _ := drawn.Pieces[0].Edge(half.edge)
		for _, n := range drawn.Pieces[0].Notches {
			if n.Edge == half.edge {
				d := fromStart(e, n.At)
				if half.edge == "front cap" { // it runs from the crown
					d = e.Length() - d
				}
				shares = append(shares, d/e.Length()*half.armhole)
			}
		}
		if len(shares) != half.notches {
			t.Fatalf("%d notches on the %s", len(shares), half.edge)
		}
		for _, at := range shares {
			if half.edge == "back cap" {
				at = sleeve.FrontArmhole + sleeve.BackArmhole - at
			}
			if !slices.ContainsFunc(join.Notches, func(m float64) bool { return math.Abs(m-at) < .1 }) {
				t.Errorf("%s: a notch meets the armhole at %.1f of its seam, which has them at %.1f",
					half.edge, at, join.Notches)
			}
		}
	}
}

// Each pleat of a cap has two placement lines with its outer fold halfway between, all three square to the cap and
// named.
func TestPleatsOfACapAreNamed(t *testing.T) {
	s := lanternSleeve(t, PuffSleeve)
	s.Pleats = 3
	d, err := s.Draft()
	if err != nil {
		t.Fatal(err)
	}
	p := d.Pieces[0]
	if len(p.Names) != 3*2*s.Pleats {
		t.Fatalf("%d lines are named of %d pleats in each half", len(p.Names), s.Pleats)
	}
	for i := 0; i+2 < len(p.Names); i += 3 {
		var at [3]orb.Point
		for k, want := range []string{placement, outerFold, placement} {
			n := p.Names[i+k]
			line := p.Inside[n.Line]
			if at[k] = line[0]; n.Name != want || math.Abs(planar.Distance(line[0], line[1])-capPleatMark) > 1e-6 {
				t.Errorf("line %d, %v, is called %q, want %q", n.Line, line, n.Name, want)
			}
		}
		if a, b := planar.Distance(at[0], at[1]), planar.Distance(at[1], at[2]); math.Abs(a-b) > .5 {
			t.Errorf("the outer fold lies %.2f and %.2f from the lines that it is between", a, b)
		}
	}
}

// A buttonhole is as long as asked for and square to the centre line, which a stroke of 4 mm shows; it begins so
// far beyond that as the shank of a button needs.
func TestButtonholesLieAcrossTheCentre(t *testing.T) {
	b := lanternBlock()
	b.FrontOnFold, b.BackOnFold = false, true
	plain, err := b.Draft()
	if err != nil {
		t.Fatal(err)
	}
	c := standed("centre front", 22, 60)
	c.Stand.Hole = 17
	d, err := c.Of(plain)
	if err != nil {
		t.Fatal(err)
	}
	holes := 0
	for _, p := range d.Pieces {
		for _, l := range p.Inside {
			if len(l) != 6 {
				continue
			}
			holes++
			near(t, "buttonhole", planar.Distance(l[0], l[5]), c.Stand.Hole, 1e-6)
			near(t, "beyond the centre", planar.Distance(l[0], l[1]), beyondCentre, 1e-6)
			near(t, "stroke", planar.Distance(l[2], l[3]), 4, 1e-6)
			along, across := orb.Point{l[5][0] - l[0][0], l[5][1] - l[0][1]}, orb.Point{l[3][0] - l[2][0],
				l[3][1] - l[2][1]}
			near(t, "square to the centre line", along[0]*across[0]+along[1]*across[1], 0, 1e-6)
			near(t, "the stroke's middle", planar.Distance(l[2:4].Bound().Center(), l[1]), 0, 1e-6)
			if l[1] != l[4] || math.Abs(across[1]) > 1e-6 { // the centre runs along the grain
				t.Errorf("a buttonhole is drawn %v", l)
			}
		}
	}
	if holes < 5 {
		t.Errorf("%d buttonholes on %.0f mm", holes, b.BackLength)
	}
}

// A facing may be as wide as the seams at its ends are long, less what is sewn beyond it, and no wider.
func TestFacingsFitTheirSeams(t *testing.T) {
	block := lanternBlock()
	made, err := block.Draft()
	if err != nil {
		t.Fatal(err)
	}
	e, _ := made.Pieces[0].Edge("shoulder")
	for share, ok := range map[float64]bool{.3: true, .7: true, 1: false, 1.2: false} {
		_, err := Facing{Of: block, At: AtNeck, Width: share * e.Length(), Seam: 12}.Draft()
		if ok != (err == nil) {
			t.Errorf("a neck facing of %g of the shoulder: %v", share, err)
		}
	}
}

// What a wrap leaves open is said with its waist, and the rest is sewn, from the front round to the back.
func TestWrapsLeaveTheirGapOpen(t *testing.T) {
	for gap, want := range map[float64]float64{0: 0, 150: 150} {
		o := workedOverskirt()
		o.Gap = gap
		d, err := o.Draft()
		if err != nil {
			t.Fatal(err)
		}
		_, long, err := d.Waist.Measure(d.Pieces)
		if err != nil || d.Waist.Open != want || !d.Waist.FromFront || len(d.Neck.Edges) > 0 {
			t.Errorf("%g mm open: %+v, %v", gap, d.Waist, err)
		}
		near(t, "waist", long+gap, o.Waist, .3)
	}
	d, err := fittedCape().Draft()
	if err != nil || len(d.Waist.Edges) > 0 || !strings.Contains(d.Neck.String(), "neck") {
		t.Errorf("a cape is sewn on by %v, %v", d.Neck, err)
	}
	for _, p := range d.Pieces {
		for _, e := range p.Edges {
			if e.Kind == shapes.Waist {
				t.Errorf("a cape has a waist, %s", e.Name)
			}
		}
	}
}
