package shelf

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/nest"
	"yardlay/shapes/plane"
)

// Strips filled one after the other hold every copy once, each within its strip and over
// no other; no more strips are used than there are, and each is the first in the order that
// takes any of what was left.
func TestOneAfterOther(t *testing.T) {
	none, filledUp := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p := nest.Problem{Strip: nest.Strip{Width: 6}}
		for i := range rapid.IntRange(1, 5).Draw(t, "pieces") {
			p.Pieces = append(p.Pieces, oblong(fmt.Sprint(i), float64(rapid.IntRange(1, 4).Draw(t, "along")),
				float64(rapid.IntRange(1, 4).Draw(t, "across")), 1))
		}
		var strips []Length
		var stock []int
		for i := range rapid.IntRange(1, 3).Draw(t, "strips") {
			strips = append(strips, leftover(fmt.Sprint(i), float64(rapid.IntRange(2, 5).Draw(t, "length")),
				float64(rapid.IntRange(2, 4).Draw(t, "width"))))
			stock = append(stock, rapid.IntRange(0, 2).Draw(t, "stock"))
		}
		order := rapid.Permutation(numbered(len(strips))).Draw(t, "order")
		most := rapid.IntRange(1, 5).Draw(t, "most")
		f, err := NewFiller(p, strips, Options{solve: exactly})
		if err != nil {
			t.Fatal(err)
		}
		plan, filled := f.OneAfterOther(t.Context(), order, stock, most)
		if filled == nil {
			none++
			if canFill(f, order, stock) && most >= len(p.Pieces) {
				t.Fatal("every piece fits on a strip of which there are enough, and nothing was filled")
			}
			return
		}
		filledUp++
		if len(filled) > most || len(filled) != len(plan.on) || !plan.Complete() {
			t.Fatalf("%d strips of %d, %d left over", len(filled), most, plan.rest.total())
		}
		left, taken := slices.Clone(f.all), make([]int, len(strips))
		for n, i := range filled {
			for _, before := range order[:slices.Index(order, i)] {
				if (stock[before] == 0 || taken[before] < stock[before]) && takesAny(f, before, left) {
					t.Fatalf("strip %d is filled with %v left, though %d comes before it", i, left, before)
				}
			}
			if taken[i]++; stock[i] > 0 && taken[i] > stock[i] {
				t.Fatalf("strip %d is filled %d times, of %d", i, taken[i], stock[i])
			}
			left = left.plus(plan.on[n].counts, -1)
			lieApart(t, p, strips[i].Strip, plan.on[n].places)
		}
		if left.total() != 0 || slices.Min(left) < 0 {
			t.Fatalf("%v is left", left)
		}
	})
	if none < often.Enough(1) || filledUp < often.Enough(20) {
		t.Errorf("%d filled, %d not", filledUp, none)
	}
}

// takesAny says whether one of what is left fits on a strip.
func takesAny(f *Filler, strip int, left counts) bool {
	for b, n := range left {
		if n > 0 && f.fits[strip][b] {
			return true
		}
	}
	return false
}

// canFill says whether every bundle fits on a strip of which there is no end.
func canFill(f *Filler, order, stock []int) bool {
	for b := range f.all {
		if !slices.ContainsFunc(order, func(i int) bool { return stock[i] == 0 && f.fits[i][b] }) {
			return false
		}
	}
	return true
}

// lieApart checks boxes of pieces on a strip, which are the pieces.
func lieApart(t *rapid.T, p nest.Problem, on nest.Strip, places []placedKind) {
	for i, a := range places {
		box := plane.Bounds(p.Outline(a.at))
		if box.Min[0] < 0 || box.Min[1] < 0 || box.Max[0] > on.MaxLength || box.Max[1] > on.Width {
			t.Fatalf("%+v lies off a strip of %v x %v", a.at, on.MaxLength, on.Width)
		}
		for _, b := range places[:i] {
			other := plane.Bounds(p.Outline(b.at))
			if math.Min(box.Max[0], other.Max[0]) > math.Max(box.Min[0], other.Min[0]) &&
				math.Min(box.Max[1], other.Max[1]) > math.Max(box.Min[1], other.Min[1]) {
				t.Fatalf("%+v lies over %+v", a.at, b.at)
			}
		}
	}
}
