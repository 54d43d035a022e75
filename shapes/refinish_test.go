package shapes

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// A piece refinished and refinished back is as it was; between the two its seam line, its
// notches and its lines inside lie to each other as before, and the allowance of the edge
// that was changed adds its length times what it grew by, the corners apart.
func TestRefinishedAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := panelOf(t, "panel", rapid.Bool().Draw(t, "fold"))
		e, _ := p.Edge("hem")
		if err := p.AddNotch("hem", e.Length()/3); err != nil {
			t.Fatal(err)
		}
		p.Inside = append(p.Inside, orb.LineString{p.Seam[0], p.Seam[2]})
		to := func(kind EdgeKind, mm float64) func(Edge) Edge {
			return func(e Edge) Edge {
				if e.Name == "hem" {
					e.Kind, e.Allowance = kind, mm
				}
				return e
			}
		}
		faced, err := p.Refinish(to(Seam, 8))
		if err != nil {
			t.Skip(err)
		}
		if got, _ := faced.Edge("hem"); got.Kind != Seam || got.Allowance != 8 || got.Finish() != Joined {
			t.Fatalf("%+v", got)
		}
		near(t, "area within the seam line", plane.Area(faced.Seam), plane.Area(p.Seam), 1e-6*plane.Area(p.Seam))
		for i, v := range []orb.Point{faced.Notches[0].At, faced.Inside[0][0], faced.Inside[0][1]} {
			was := []orb.Point{p.Notches[0].At, p.Inside[0][0], p.Inside[0][1]}[i]
			for k := range p.Seam {
				near(t, "distance", planar.Distance(v, faced.Seam[k]), planar.Distance(was, p.Seam[k]), 1e-6)
			}
		}
		back, err := faced.Refinish(to(e.Kind, e.Allowance))
		if err != nil {
			t.Fatal(err)
		}
		// A corner in a straight side may come or go by rounding.
		near(t, "area back", plane.Area(back.Cut), plane.Area(p.Cut), 1e-6*plane.Area(p.Cut))
		for _, lines := range [][2]orb.Ring{{back.Cut, p.Cut}, {p.Cut, back.Cut}} {
			for _, v := range lines[0] {
				near(t, "from one cut line to the other", planar.DistanceFrom(orb.LineString(lines[1]), v), 0, 1e-3)
			}
		}
	})
}

// Between seams that lean in by an angle a hem of h below a line of 1000 is a trapezium:
// cut straight on it gets wider by h / tan at both ends, h (1000 + h / tan) in all; mirrored
// it gets as much narrower (plain geometry).
func TestStraightAndMirroredHems(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle := rapid.Float64Range(50, 130).Draw(t, "degrees") * math.Pi / 180
		h := rapid.Float64Range(5, 60).Draw(t, "hem")
		x := 400 / math.Tan(angle)
		edges := []Edge{
			{Name: "hem", Kind: Hem, Line: orb.LineString{{0, 0}, {1000, 0}}, Allowance: h},
			{Name: "right", Line: orb.LineString{{1000, 0}, {1000 - x, 400}}},
			{Name: "upper", Line: orb.LineString{{1000 - x, 400}, {x, 400}}},
			{Name: "left", Line: orb.LineString{{x, 400}, {0, 0}}},
		}
		p, err := NewPiece("panel", edges)
		if err != nil {
			t.Fatal(err)
		}
		straight, err := p.Refinish(func(e Edge) Edge { e.Straight = e.Kind == Hem; return e })
		if err != nil {
			t.Fatal(err)
		}
		seam := plane.Area(p.Seam)
		near(t, "straight", straight.Area()-seam, h*(1000+h/math.Tan(angle)), 1.5)
		if math.Abs(angle-math.Pi/2) > 2.1*math.Pi/180 {
			near(t, "mirrored", p.Area()-seam, h*(1000-h/math.Tan(angle)), 1.5)
		}
	})
}
