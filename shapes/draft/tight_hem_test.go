package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes"
)

// A flounce from 600 to 3000 mm over a depth of 200 has its hem on a radius of 3000
// x 200 / 2400 = 250 mm: the raw edge of a hem of 30 mm, 280 mm from the centre, is 60/220
// = 27 % too long for the line 220 mm from it; one of 250 x 0.08/2.08 = 9.6 mm 8 %.
func TestATightHemIsFound(t *testing.T) {
	f := Flounce{Top: 600, Bottom: 3000, Depth: 200, Allowance: shapes.Allowance{Seam: 15, Waist: 15, Hem: 30}}
	pieces, err := piecesOf(f)
	if err != nil {
		t.Fatal(err)
	}
	tight := pieces[0].TightHems()
	if len(tight) != 1 {
		t.Fatalf("%+v", tight)
	}
	if h := tight[0]; math.Abs(h.Excess-60./220) > 0.002 || math.Abs(h.Radius-250) > 1 || math.Abs(h.Widest-9.615) > 0.05 {
		t.Errorf("%+v, want 27 %% on a radius of 250 mm, at most 9.6 mm", h)
	}
	f.Allowance.Hem = 9.4
	if pieces, err = piecesOf(f); err != nil || len(pieces[0].TightHems()) != 0 {
		t.Errorf("9.4 mm: %+v, %v", pieces[0].TightHems(), err)
	}
}

// The tip of a petal bends more tightly than its sides.
func TestThePetalTipIsTight(t *testing.T) {
	p := Petals{Waist: 700, Length: 600, Side: 200, Count: 6, Overlap: 40, Fraction: 0.5,
		Allowance: shapes.Allowance{Seam: 15, Waist: 15, Hem: 30}}
	pieces, err := piecesOf(p)
	if err != nil {
		t.Fatal(err)
	}
	if tight := pieces[0].TightHems(); len(tight) != 1 || !(tight[0].Excess > shapes.MostHemEase) {
		t.Errorf("%+v", tight)
	}
}

// On a sector of any size what is found is by how much the circle of the raw edge is
// longer than the one it is sewn to, and a hem of the width that is said to work does.
func TestTightHemsOfSectors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.Float64Range(60, 2000).Draw(t, "radius")
		h := rapid.Float64Range(1, 50).Draw(t, "hem")
		draft := func(h float64) []shapes.TightHem {
			p, err := shapes.NewPiece("sector", sector{r / 2, r, -0.8, 0.8, 0.1}.edges(
				side{"lower", shapes.Seam, 10}, side{"hem", shapes.Hem, h}, side{"upper", shapes.Seam, 10}, side{"top",
					shapes.Top, 10}))
			if err != nil {
				t.Fatal(err)
			}
			return p.TightHems()
		}
		tight := draft(h)
		want := (r+h)/(r-h) - 1
		switch {
		case math.Abs(want-shapes.MostHemEase) < 2e-4:
		case (want > shapes.MostHemEase) != (len(tight) == 1):
			t.Fatalf("%g of %g mm: %+v", h, r, tight)
		case len(tight) == 1:
			if got := tight[0].Excess; math.Abs(got-want) > 0.02*want {
				t.Fatalf("%g, want %g", got, want)
			}
			if again := draft(0.999 * tight[0].Widest); len(again) != 0 {
				t.Fatalf("%+v", again)
			}
		}
	})
}
