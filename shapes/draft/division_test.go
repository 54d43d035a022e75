package draft_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes/draft"
	"yardlay/shapes/plane"
)

// What is said to lie flat does: every two pieces beside each other cut in one are as much cloth, finished, with as
// long a hem, and their seams are gone.
func TestPairsCutInOneAreTheSameGarment(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		n := 4 * rapid.IntRange(1, 2).Draw(r, "a quarter of the pieces") // a cape with a back seam has an even number
		length := rapid.Float64Range(300, 900).Draw(r, "length")
		fraction := rapid.Float64Range(0.3, 0.9).Draw(r, "fraction")
		d := rapid.SampledFrom([]draft.Divided{
			draft.CircleSkirt{Fraction: fraction, Gores: n, Waist: 700, Length: length, Opening: true},
			draft.Cape{Fraction: fraction, Sections: n, Neck: 400, Length: length, BackSeam: true},
			draft.Peplum{Fraction: fraction, Sections: n, Waist: 700, Length: length},
			draft.Flounce{Sections: n, Top: 1000, Bottom: 1000 + 2*length, Depth: length},
		}).Draw(r, "draft")
		if !d.Division().Flat || d.Division().Pieces != n {
			r.Fatalf("%T: %+v", d, d.Division())
		}
		apart, inOne := sewnOf(r, d), sewnOf(r, d.Divide(n/2))
		if 2*inOne.pieces != apart.pieces || math.Abs(inOne.area/apart.area-1) > 1e-3 ||
			math.Abs(inOne.hem/apart.hem-1) > 1e-3 || inOne.seam >= apart.seam {
			r.Errorf("%T in %d: %+v; in %d: %+v", d, n, apart, n/2, inOne)
		}
	})
	for _, d := range []draft.Divided{
		draft.GoredSkirt{Gores: 6}, draft.CircleSkirt{Gores: 6, FrontOnFold: true},
		draft.Train{Skirt: draft.CircleSkirt{Gores: 6}},
	} {
		if d.Division().Flat {
			t.Errorf("%T: two pieces are said to lie flat", d)
		}
	}
}

// sewn is what all pieces of a draft come to, finished, mm and mm2.
type sewn struct {
	pieces          int
	area, hem, seam float64
}

func sewnOf(t rapid.TB, d draft.Draft) (s sewn) {
	made, err := d.Draft()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range made.Pieces {
		n, p := float64(p.Count), p.Unfold()
		s.pieces += int(n)
		s.area += n * plane.Area(p.Seam)
		for _, e := range p.Edges {
			if e.Name == "hem" {
				s.hem += n * e.Length()
			} else if e.Name != "waist" && e.Name != "neck" {
				s.seam += n * e.Length()
			}
		}
	}
	return s
}
