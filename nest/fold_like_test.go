package nest

import (
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
)

// Whatever is laid on folded cloth lies on wider cloth of the same lay as well, once
// the pieces are shared out as there, and opens out to all copies on it.
func TestMarkersOfNarrowerClothLieOnWider(t *testing.T) {
	moved, other := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		lay := rapid.SampledFrom(lays[1:]).Draw(t, "lay")
		wide := foldable(t, lay)
		wide.Strip.Forbidden, wide.Strip.MaxLength = nil, 0 // flaws lie elsewhere once the fold does
		narrow := wide
		narrow.Strip.Width *= rapid.Float64Range(0.4, 0.99).Draw(t, "narrower")
		selvedge := rapid.SampledFrom([]float64{0, 3.3}).Draw(t, "selvedge")
		from, err := Fold(narrow, lay, selvedge)
		if err != nil {
			return
		}
		to, err := FoldBy(wide, lay, selvedge, ShareOf(from, len(wide.Pieces)))
		if err != nil {
			t.Fatal(err)
		}
		if len(to) != len(from) {
			t.Fatalf("%d stretches, %d on the narrower cloth", len(to), len(from))
		}
		if free, err := Fold(wide, lay, selvedge); err != nil || len(free) != len(to) ||
			len(free[0].Problem.Pieces) != len(to[0].Problem.Pieces) {
			other++
		}
		var layouts []Layout
		for i, s := range from {
			l := s.Onto(to[i], rows(t, s.Problem))
			if err := Verify(to[i].Problem, l); err != nil {
				t.Fatalf("%v: %v", s.Lay, err)
			}
			layouts = append(layouts, l)
		}
		if err := Verify(wide, Unfold(wide, to, layouts)); err != nil {
			t.Fatal(err)
		}
		if lay == DoubleFold {
			moved++
		}
	})
	if min(moved, other) < often.Enough(1) {
		t.Errorf("%d double folds were moved, and %d wider cloths would be shared out otherwise", moved, other)
	}
}
