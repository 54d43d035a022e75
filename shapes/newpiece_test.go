package shapes

import (
	"errors"
	"math"
	"strings"
	"testing"
	"yardlay/shapes/plane"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/paulmach/orb"
)

func TestNewPieceRefuses(t *testing.T) {
	for want, spoil := range map[string]func(e []Edge) []Edge{
		"panel: no edges":                     func([]Edge) []Edge { return nil },
		`two edges are named "lower"`:         func(e []Edge) []Edge { e[2].Name = "lower"; return e },
		`edge "hem" has 1 points`:             func(e []Edge) []Edge { e[1].Line = e[1].Line[:1]; return e },
		`edge "hem": allowance is -1 mm`:      func(e []Edge) []Edge { e[1].Allowance = -1; return e },
		`edge "hem": allowance is NaN mm`:     func(e []Edge) []Edge { e[1].Allowance = math.NaN(); return e },
		`edge "upper": point (NaN mm, 40 mm)`: func(e []Edge) []Edge { e[2].Line[0][0] = math.NaN(); return e },
		`out of range (60000 mm)`: func(e []Edge) []Edge {
			e[1].Line[1][0], e[2].Line[0][0] = 60001,
				60001
			return e
		},
		`edge "lower" ends at (100.000 mm, 0.000 mm)`: func(e []Edge) []Edge { e[1].Line[0][1] = 3; return e },
		`lies on a fold and cannot have an allow`:     func(e []Edge) []Edge { e[0].Kind = Fold; return e },
		`must be one straight line along the gra`: func(e []Edge) []Edge {
			e[1].Kind, e[1].Allowance = Fold,
				0
			return e
		},
		"cut line spans 80100 mm by": func(e []Edge) []Edge {
			e[1].Allowance, e[3].Allowance = 40000,
				40000
			return e
		},
		"seam line: ring runs clockwise": func(e []Edge) []Edge {
			for i := range e {
				e[i].Line.Reverse()
			}
			return []Edge{e[3], e[2], e[1], e[0]}
		},
		"seam line: ring crosses or touches itself at (50.000 mm, 0.000 mm)": func(e []Edge) []Edge {
			e[0].Line = orb.LineString{{0, 0}, {50, 0}, {100, 0}}
			e[2].Line = orb.LineString{{100, 40}, {50, 0}, {0, 40}}
			return e
		},
		`"left fold" is a second fold`: func(e []Edge) []Edge {
			e[0].Kind, e[0].Allowance = Fold, 0
			e[2].Kind, e[2].Allowance, e[2].Name = Fold, 0, "left fold"
			return e
		},
		"cut line reaches over the fold": func(e []Edge) []Edge {
			e[0].Kind, e[0].Allowance = Fold, 0
			e[1].Line = orb.LineString{{100, 0}, {120, -0.1}, {120, 40}, {100, 40}}
			return e
		},
		`edge "hem" bends inwards too tightly for its allowance of 5.0 mm`: func(e []Edge) []Edge {
			return []Edge{e[0], {Name: "a", Line: orb.LineString{{100, 0}, {100, 18}}, Allowance: 30},
				{Name: "hem", Line: orb.LineString{{100, 18}, {90, 18}, {90, 22}, {100, 22}}, Allowance: 5},
				{Name: "b", Line: orb.LineString{{100, 22}, {100, 40}}, Allowance: 30}, e[2], e[3]}
		},
	} {
		edges := spoil(box(100, 40, 10, 5, 25))
		if _, err := NewPiece("panel", edges); err == nil || !strings.Contains(err.Error(), want) ||
			!strings.HasPrefix(err.Error(), "panel: ") {
			t.Errorf("got %v, want %q", err, want)
		}
	}
}

// The caller's edges are left as they are.
func TestNewPieceCopies(t *testing.T) {
	edges, same := box(100, 40, 10, 5, 25), box(100, 40, 10, 5, 25)
	p, err := NewPiece("panel", edges)
	if err != nil {
		t.Fatal(err)
	}
	p.Edges[0].Line[0][0] = 7
	if d := cmp.Diff(same, edges); d != "" {
		t.Error(d)
	}
}

func TestAddNotch(t *testing.T) {
	p, err := NewPiece("panel", box(100, 40, 10, 5, 25))
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range []float64{0, 30, 100} {
		if err := p.AddNotch("lower", at); err != nil {
			t.Error(err)
		}
	}
	want := []Notch{
		{At: orb.Point{5, 10}, Outward: orb.Point{0, -1}, Edge: "lower"},
		{At: orb.Point{35, 10}, Outward: orb.Point{0, -1}, Edge: "lower"},
		{At: orb.Point{105, 10}, Outward: orb.Point{0, -1}, Edge: "lower"},
	}
	if d := cmp.Diff(want, p.Notches, cmpopts.EquateApprox(0, 1e-9)); d != "" {
		t.Error(d)
	}
	for _, at := range []float64{-1, 101, math.NaN()} {
		if p.AddNotch("lower", at) == nil {
			t.Errorf("notch at %g was taken", at)
		}
	}
	if err := p.AddNotch("neck", 1); err == nil || !strings.Contains(err.Error(), `no edge "neck"`) {
		t.Errorf("got %v", err)
	}
}

// Notches and grain are unfolded with their half, and edges across the fold grow together.
func TestUnfoldMarks(t *testing.T) {
	edges := box(100, 40, 10, 5, 25)
	edges[0].Kind, edges[0].Allowance, edges[0].Name = Fold, 0, "fold"
	half, err := NewPiece("front", edges)
	if err != nil {
		t.Fatal(err)
	}
	for _, edge := range []string{"hem", "upper"} {
		if err := half.AddNotch(edge, 30); err != nil {
			t.Fatal(err)
		}
	}
	whole := half.Unfold()
	if err := errors.Join(plane.CheckSimple(whole.Cut), plane.CheckSimple(whole.Seam)); err != nil {
		t.Error(err)
	}
	lengths := map[string]float64{}
	for _, e := range whole.Edges {
		lengths[e.Name] = e.Length()
	}
	if d := cmp.Diff(map[string]float64{"hem": 80, "upper": 100, "waist": 80, "upper mirrored": 100},
		lengths); d != "" {
		t.Error(d)
	}
	// The fold lies 40 + 10 from the corner; a mark on the hem 30 from it stands 30 to each side.
	want := []Notch{
		{At: orb.Point{105, 80}, Outward: orb.Point{1, 0}, Edge: "hem"},
		{At: orb.Point{75, 90}, Outward: orb.Point{0, 1}, Edge: "upper"},
		{At: orb.Point{105, 20}, Outward: orb.Point{1, 0}, Edge: "hem"},
		{At: orb.Point{75, 10}, Outward: orb.Point{0, -1}, Edge: "upper mirrored"},
	}
	if d := cmp.Diff(want, whole.Notches, cmpopts.EquateApprox(0, 1e-9)); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff(whole, whole.Unfold()); d != "" {
		t.Errorf("a whole piece unfolds to itself: %s", d)
	}
}
