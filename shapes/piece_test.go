package shapes

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
)

func box(w, h, seam, waist, hem float64) []Edge {
	a, b, c, d := orb.Point{0, 0}, orb.Point{w, 0}, orb.Point{w, h}, orb.Point{0, h}
	return []Edge{
		{Name: "lower", Kind: Seam, Line: orb.LineString{a, b}, Allowance: seam},
		{Name: "hem", Kind: Hem, Line: orb.LineString{b, c}, Allowance: hem},
		{Name: "upper", Kind: Seam, Line: orb.LineString{c, d}, Allowance: seam},
		{Name: "waist", Kind: Waist, Line: orb.LineString{d, a}, Allowance: waist},
	}
}

// Each side moves by its own allowance and right corners stay right.
func TestNewPieceBox(t *testing.T) {
	p, err := NewPiece("box", box(100, 40, 10, 5, 25))
	if err != nil {
		t.Fatal(err)
	}
	want := orb.Ring{{0, 0}, {130, 0}, {130, 60}, {0, 60}, {0, 0}}
	if d := cmp.Diff(orb.Polygon{want}.Bound(), orb.Polygon{p.Cut}.Bound()); d != "" {
		t.Error(d)
	}
	if got := p.Area(); got != 130*60 {
		t.Errorf("area %g", got)
	}
	if along, across := p.Finished(); along != 100 || across != 40 {
		t.Errorf("finished %g x %g", along, across)
	}
}

// A half on the fold unfolds to the whole drawn at once.
func TestUnfoldBox(t *testing.T) {
	half := box(100, 40, 10, 5, 25)
	half[0] = Edge{Name: "fold", Kind: Fold, Line: half[0].Line}
	p, err := NewPiece("half", half)
	if err != nil {
		t.Fatal(err)
	}
	if !p.OnFold || p.Area() != 130*50 {
		t.Errorf("half: on fold %v, area %g", p.OnFold, p.Area())
	}
	whole, err := NewPiece("half", box(100, 80, 10, 5, 25))
	if err != nil {
		t.Fatal(err)
	}
	got := p.Unfold()
	if d := cmp.Diff(orb.Polygon{whole.Cut}.Bound(), orb.Polygon{got.Cut}.Bound()); d != "" {
		t.Error(d)
	}
	if got.OnFold || got.Area() != whole.Area() {
		t.Errorf("unfolded area %g, want %g", got.Area(), whole.Area())
	}
}

// A tip that closes up before its end has no outline there: at the ends of the piece
// or within its bounding box, it is refused rather than cut short.
func TestTipsTooThinAreRefused(t *testing.T) {
	within := func(wide float64) error {
		corners := []orb.Point{{0, 0}, {100, 0}, {100, 50}, {90, 50}, {90, 10}, {50, 10}, {50, 30}, {50 - wide, 10},
			{0, 10}, {0, 0}}
		_, err := NewPiece("comb", []Edge{{Name: "edge", Kind: Seam, Line: corners}})
		return err
	}
	if err := within(1e-9); err == nil || !strings.Contains(err.Error(), "too thin to cut") {
		t.Errorf("within the box: %v, want a refusal", err)
	}
	if err := within(1); err != nil {
		t.Errorf("a tip a millimetre wide: %v", err)
	}
}
