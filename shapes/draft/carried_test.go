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

// Whatever the family: edges have names of their own, and allowances but on folds; lines inside lie within the cut
// line, and what is named is one of them; what is cut more than once as a pair says which is left; grain lies along
// x; rings say what has to pass them and what would help.
func TestWhatPiecesOfEveryFamilyCarry(t *testing.T) {
	names, _, made := families(t)
	for _, name := range names {
		for _, p := range made[name].Pieces {
			called := map[string]bool{}
			for _, e := range p.Edges {
				if e.Name == "" || called[e.Name] {
					t.Errorf("%s: %s has an edge %q twice, or of no name", name, p.Name, e.Name)
				}
				called[e.Name] = true
				if folded := e.Kind == shapes.Fold; folded != (e.Allowance == 0) && !slices.Contains(bare, name) {
					t.Errorf("%s: %s, a %v of %s, has an allowance of %g", name, e.Name, e.Kind, p.Name, e.Allowance)
				}
			}
			for _, l := range p.Names {
				if l.Name == "" || l.Line < 0 || l.Line >= len(p.Inside) {
					t.Errorf("%s: %s names line %d of %d %q", name, p.Name, l.Line, len(p.Inside), l.Name)
				}
			}
			for i, l := range p.Inside {
				for _, v := range l {
					if !planar.RingContains(p.Cut, v) && planar.DistanceFrom(orb.LineString(p.Cut), v) > 1e-3 {
						t.Errorf("%s: line %d of %s leaves it at %v", name, i, p.Name, v)
					}
				}
			}
			for _, n := range p.Notches {
				if e, ok := p.Edge(n.Edge); !ok || planar.DistanceFrom(e.Line, n.At) > 1e-3 {
					t.Errorf("%s: a notch of %s is on no edge %q", name, p.Name, n.Edge)
				}
			}
			if sides := strings.Join(p.Labels, " "); p.Pair && len(p.Labels) > 0 &&
				(!strings.Contains(sides, "left") || !strings.Contains(sides, "right")) {
				t.Errorf("%s: a pair of %s is labelled %q", name, p.Name, sides)
			}
		}
		for _, r := range made[name].Rings {
			if r.Name == "" || !(r.Girth > 0) || r.Hint.String() == "" {
				t.Errorf("%s: a ring %+v", name, r)
			}
		}
		for _, j := range made[name].Joins {
			if j.Name == "" {
				t.Errorf("%s: a seam without a name", name)
			}
		}
	}
}

// bare are the worked examples of which some edges have no allowance.
var bare = []string{"binding", "straight binding", "flounce", "loops", "net", "veil"}

// lineOf is a line inside a piece by its name.
func lineOf(t *testing.T, p shapes.Piece, name string) orb.LineString {
	t.Helper()
	for _, l := range p.Names {
		if l.Name == name {
			return p.Inside[l.Line]
		}
	}
	t.Fatalf("%s has no line %q: %v", p.Name, name, p.Names)
	return nil
}

// By hand, allowances of 12: the cuff of a slit sleeve is folded at 50 of its 100, its two buttons lie 12.5 and 37.5
// up, in the middle of the underlap of 25; buttonholes lie as far beyond its other end, 220 on, and reach over it by
// 6. The strip of the slit of 70 is folded at 12 of its 24. Arrows lie in a quarter of the width, off the folds.
func TestMarksOfACuffByHand(t *testing.T) {
	d, err := slitted(t).Draft()
	if err != nil {
		t.Fatal(err)
	}
	cuff, strip := d.Pieces[1], d.Pieces[2]
	for _, c := range []struct {
		what string
		got  orb.LineString
		want orb.LineString
	}{
		{"fold of the cuff", cuff.Inside[0], orb.LineString{{12, 62}, {257, 62}}},
		{"grain of the cuff", cuff.Grain, orb.LineString{{12 + .15*220, 37}, {12 + .85*220, 37}}},
		{"fold of the strip", strip.Inside[0], orb.LineString{{12, 24}, {152, 24}}},
		{"grain of the strip", strip.Grain, orb.LineString{{12 + .3*70, 18}, {12 + 1.7*70, 18}}},
		{"first buttonhole", cuff.Inside[1], orb.LineString{{12 + 12.5 - beyondCentre, 24.5}, {12 + 25 - beyondCentre,
			24.5}}},
		{"first button", cuff.Inside[2], orb.LineString{{12 + 220 + 12.5 - 3, 24.5}, {12 + 220 + 12.5 + 3, 24.5}}},
		{"second buttonhole", cuff.Inside[3], orb.LineString{{12 + 12.5 - beyondCentre, 49.5},
			{12 + 25 - beyondCentre, 49.5}}},
		{"second button", cuff.Inside[4], orb.LineString{{12 + 220 + 12.5 - 3, 49.5}, {12 + 220 + 12.5 + 3, 49.5}}},
	} {
		for i, v := range c.want {
			if len(c.got) != len(c.want) || planar.Distance(c.got[i], v) > 2*plane.Lattice {
				t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
				break
			}
		}
	}
	want := Closed{At: "cuff", From: "outer edge", By: Buttons, Opening: 50, Length: 50, Times: 2, Places: 2,
		Pitch: 25, First: 12.5,
		Stand: 25}
	if d.Closed[0] != want {
		t.Errorf("%+v, want %+v", d.Closed[0], want)
	}
	if n := notchesOn(cuff, "outer edge"); !alike(n, []float64{55, 110, 165, 220}) {
		t.Errorf("the cuff has notches at %v", n)
	}
}

// notchesOn are those of an edge, from its start, mm.
func notchesOn(p shapes.Piece, edge string) (at []float64) {
	e, _ := p.Edge(edge)
	for _, n := range p.Notches {
		if n.Edge == edge {
			at = append(at, fromStart(e, n.At))
		}
	}
	slices.Sort(at)
	return at
}

func alike(got, want []float64) bool {
	return slices.EqualFunc(got, want, func(a, b float64) bool { return math.Abs(a-b) < 1e-2 })
}

// By hand, allowances of 6: the band of a ruff is a neck of 355.6 long and folded at 12.7 of its 25.4, its arrow in
// the middle of one half; the strips of 56 pleats on cloth of 914.4 take 21 of 44.45 - 6.35 each, all but the last.
func TestRuffByHand(t *testing.T) {
	d, err := workedCollar(RuffCollar).Draft()
	if err != nil {
		t.Fatal(err)
	}
	band := d.Pieces[len(d.Pieces)-1]
	fold := lineOf(t, band, "fold")
	near(t, "fold from the ruff's edge", fold[0][1], 6+12.7, 1e-3)
	near(t, "its length", plane.Length(fold), 355.6, 1e-3)
	near(t, "grain of the band", band.Grain[0][1], 6+6.35, 1e-2)
	repeat := 14*inch/56 + 2*.75*inch
	most := int((36*inch - 12) / repeat)
	pleats, strips := 0, 0
	for _, p := range d.Pieces[:len(d.Pieces)-1] {
		_, across := p.Finished()
		n := int(math.Round(across / repeat))
		if n > most || p.Name != "ruff last strip" && n != most {
			t.Errorf("%s takes %d pleats of %d", p.Name, n, most)
		}
		pleats, strips = pleats+n*p.Count, strips+p.Count
	}
	if pleats != 56 || strips != (56+most-1)/most {
		t.Errorf("%d pleats on %d strips", pleats, strips)
	}
	if d.EndsAt != "centre front" || *d.Ends != (Ends{6}) {
		t.Errorf("ends at %q, %+v", d.EndsAt, d.Ends)
	}
}

// By hand: with flounces each line lies one and a half channels above its hoop, along the cloth; with a casing
// nothing is sewn at the waist, the casing's tape is as long as the top, and the top has to pass the hip.
func TestHoopsAreMarkedAndDrawnUp(t *testing.T) {
	h := workedHoops()
	h.Casing, h.FlounceFullness, h.FlounceOver = 30, 2, 20
	d, err := h.Draft()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range d.Pieces[:3] {
		radius := func(name string) float64 { // from the centre of the cone
			waist := edgeOfKind(p, shapes.Top).Line
			top := h.top() / (2 * math.Pi * h.cone().Fraction)
			return top + planar.DistanceFrom(waist, lineOf(t, p, name)[0])
		}
		top := h.top() / (2 * math.Pi * h.cone().Fraction)
		near(t, "casing", radius("casing")-top, 30, .2)
		for i := range h.Hoops {
			down, _ := h.Level(i)
			hoop := fmt.Sprintf("hoop %d", i+1)
			near(t, hoop, radius(hoop)-top, down*h.slant()-h.Channel/2, .2)
			near(t, "flounce above "+hoop, radius(hoop)-radius(fmt.Sprintf("flounce %d", i+1)), h.Channel, .2)
		}
	}
	var tapes []string
	for _, tape := range d.Tapes {
		tapes = append(tapes, fmt.Sprintf("%s %d x %.1f, %.1f", tape.Name, tape.Count, tape.Length, tape.Width))
	}
	if want := "casing 1 x 1016.0, 30.0"; tapes[0] != want || len(tapes) != 5 {
		t.Errorf("%q, want %s first", tapes, want)
	}
	if len(d.Waist.Edges) != 0 || !d.Gathered || len(d.Rings) != 2 || d.Rings[1].Girth != 1016 || len(d.Notes) == 0 {
		t.Errorf("waist %+v, gathered %v, rings %+v", d.Waist, d.Gathered, d.Rings)
	}
	for i, tier := range d.Tables.Tiers {
		if tier.Tier != i+1 {
			t.Errorf("flounce %d is number %d", i+1, tier.Tier)
		}
	}
	if _, err := WaistOf(d); err == nil {
		t.Error("it is drawn up, and sewn at the waist")
	}
	h.Casing = 0
	sewn, err := h.Draft()
	if err != nil || len(sewn.Waist.Edges) == 0 || len(sewn.Rings) != 1 || len(sewn.Tapes) != 4 {
		t.Errorf("sewn to a band: %v, %d edges, %d rings", err, len(sewn.Waist.Edges), len(sewn.Rings))
	}
}

func edgeOfKind(p shapes.Piece, kind shapes.EdgeKind) shapes.Edge {
	i := slices.IndexFunc(p.Edges, func(e shapes.Edge) bool { return e.Kind == kind })
	return p.Edges[i]
}
