package draft

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// What is cut in one has its waist as a hole inside: the cut line a waist allowance within the waist, strokes over
// that allowance at the quarters, and a slit from the hole down, 203.2 mm (8 in) below the waist or half way where
// the skirt is shorter. The arrow lies beside the hole.
func TestHolesAndSlitsByHand(t *testing.T) {
	a := shapes.Allowance{Seam: 12, Waist: 10, Hem: 25}
	for _, length := range []float64{300, 700} {
		circle := CircleSkirt{Fraction: 1, Gores: 1, Waist: 700, Length: length, Opening: true, Allowance: a}
		square := Handkerchief{Waist: 700, Length: length, Panels: 1, Opening: true, Allowance: a}
		for name, d := range map[string]Draft{"circle": circle, "square": square} {
			made, err := d.Draft()
			if err != nil {
				t.Fatal(err)
			}
			p, radius := made.Pieces[0], 700/(2*math.Pi)
			box := plane.Bounds(p.Cut)
			centre := orb.Point{(box.Min[0] + box.Max[0]) / 2, (box.Min[1] + box.Max[1]) / 2}
			for _, v := range p.Inside[0] {
				near(t, name+": hole", planar.Distance(centre, v), radius-10, .1)
			}
			if len(p.Inside) != 6 {
				t.Fatalf("%s: %d lines inside", name, len(p.Inside))
			}
			for i, l := range p.Inside[1:5] {
				near(t, name+": stroke from", planar.Distance(centre, l[0]), radius-10, .1)
				near(t, name+": stroke to", planar.Distance(centre, l[1]), radius, .1)
				turn := math.Atan2(l[1][1]-centre[1], l[1][0]-centre[0]) * 180 / math.Pi
				near(t, name+": quarter", math.Abs(math.Remainder(turn-90*float64(i), 360)), 0, .1)
			}
			slit := p.Inside[5]
			near(t, name+": slit from", centre[0]-slit[0][0], radius-10, .1)
			near(t, name+": slit to", centre[0]-slit[1][0], radius+min(8*inch, length/2), .1)
			near(t, name+": slit along the grain", slit[1][1], centre[1], .01)
			near(t, name+": arrow", p.Grain[0][1]-centre[1], radius+length/2, .1)
			if ring := made.Rings[len(made.Rings)-1]; ring.Name != "girth at the end of the slit" ||
				math.Abs(ring.Girth-700-2*math.Pi*min(8*inch, length/2)) > 1e-6 {
				t.Errorf("%s: %+v", name, ring)
			}
			reach := math.Abs(p.Grain[1][0] - centre[0])
			want := .7 * (radius + length)
			if name == "circle" {
				want = .7 * math.Sqrt(math.Pow(radius+length, 2)-math.Pow(radius+length/2, 2))
			}
			near(t, name+": arrow's reach", reach, want, .1)
		}
	}
	scarf := workedHandkerchief(4)
	scarf.Opening, scarf.Waist = false, 44*inch
	made, err := scarf.Draft()
	if err != nil || len(made.Rings) != 1 || made.Rings[0].Name != "waist" || made.Joins[0].Times != 4 {
		t.Fatalf("%v, %+v", err, made.Rings)
	}
	if n := notchesOn(made.Pieces[0], "waist"); len(n) != 0 { // the quarters are the seams
		t.Errorf("notches at the waist at %v", n)
	}
	scarf.Panels = 2
	made = must(t, scarf)
	half, _ := made.Pieces[0].Edge("waist")
	if n := notchesOn(made.Pieces[0], "waist"); !alike(n, []float64{half.Length() / 2,
		half.Length() / 2}) { // of each copy
		t.Errorf("halves: notches at the waist %v", n)
	}
}

// Gathered in its middle alone, the upper edge of a veil is hemmed at both ends, all of one allowance; gathered all
// along it takes that of a seam, and has no ends.
func TestUpperEdgesOfVeils(t *testing.T) {
	v := workedVeil()
	v.Allowance = shapes.Allowance{Seam: 8, Hem: 5}
	for gathered, want := range map[float64]string{0: "hem hem 5, gathered edge top 8",
		72 * inch: "hem hem 5, gathered edge top 8",
		30 * inch: "hem hem 5, upper end hem 5, gathered edge top 5, lower end hem 5"} {
		v.Gathered = gathered
		p := draftOne(t, v)
		var got []string
		for _, e := range p.Edges {
			got = append(got, fmt.Sprintf("%s %v %g", e.Name, e.Kind, e.Allowance))
		}
		if s := strings.Join(got, ", "); s != want {
			t.Errorf("gathered %g: %s, want %s", gathered, s, want)
		}
		held, _ := p.Edge("gathered edge")
		near(t, "held", held.Length(), min(v.gathered(), 72*inch), 1e-3)
	}
	v.Shape, v.Length, v.Blusher, v.Width, v.Gathered = OvalVeil, 72*inch, 30*inch, 60*inch, 30*inch
	made, err := v.Draft()
	if err != nil {
		t.Fatal(err)
	}
	line := lineOf(t, made.Pieces[0], "gathering line")
	near(t, "folded from its end", line[0][0], 30*inch+5, .01)
	if want := "Gather along the marked line, 762 mm long, to the comb of 101.6 " +
		"mm: 7.5 to 1."; made.Notes[0].String() != want {
		t.Errorf("%s", made.Notes[0])
	}
	if e := made.Pieces[0].Edges[0].Line; e[0] != e[len(e)-1] {
		t.Errorf("the rim does not close: %v, %v", e[0], e[len(e)-1])
	}
}

// The crown of a hood is notched at its thirds, on both sides and on the strip between them; the arrow lies a quarter
// of the depth from the front, a fifth to seven tenths down.
func TestHoodsByHand(t *testing.T) {
	for _, strip := range []float64{0, 90} {
		h := workedHood()
		h.Strip, h.HemRaise = strip, 12
		d, err := h.Draft()
		if err != nil {
			t.Fatal(err)
		}
		side := d.Pieces[0]
		crown, _ := side.Edge("crown")
		length := crown.Length()
		if got, want := side.Name, map[bool]string{false: "hood half", true: "hood side"}[strip > 0]; got != want {
			t.Errorf("called %q", got)
		}
		if n := notchesOn(side, "crown"); !alike(n, []float64{length / 3, 2 * length / 3}) {
			t.Errorf("notches at %v of %g", n, length)
		}
		corner := side.Edges[0].Line[0]
		want := orb.LineString{{corner[0] + 70, corner[1] + 62}, {corner[0] + 245, corner[1] + 62}}
		if planar.Distance(side.Grain[0], want[0])+planar.Distance(side.Grain[1], want[1]) > 1e-6 {
			t.Errorf("arrow %v, want %v", side.Grain, want)
		}
		if strip == 0 {
			continue
		}
		along, across := d.Pieces[1].Finished()
		near(t, "strip", along, length, .01)
		near(t, "its width", across, 90, .01)
		for _, edge := range []string{"lower edge", "upper edge"} {
			if n := notchesOn(d.Pieces[1], edge); !alike(n, []float64{length / 3, 2 * length / 3}) {
				t.Errorf("notches of the strip's %s at %v", edge, n)
			}
		}
		if len(d.Joins) != 2 || d.Joins[0].Name != "left side to strip" || d.Joins[1].Name != "right side to strip" {
			t.Errorf("%+v", d.Joins)
		}
	}
}
