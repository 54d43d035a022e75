package bound_test

import (
	"fmt"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/nest/bound"
)

// Rows by penalties, of few kinds, are confirmed by the search that knows of no penalties, and
// are seldom much shorter than those in which copies are told apart.
func TestPenalisedRowsChecked(t *testing.T) {
	problems := smallProblems(func(t *rapid.T) orb.Ring { return dented(t, 51, 100, 20, 90) })
	found, near, open := 0, 0, 0
	for _, seed := range often.Seeds([]int{0, 6, 8}, often.Jobs(5, 400)) {
		p := problems.Example(seed)
		exact := 0.0
		for _, b := range rowsOf(p) {
			exact = max(exact, b.Length)
		}
		for _, b := range bound.Penalised(t.Context(), p, 1<<23) {
			switch checkRow(t, p, b, 2e6) {
			case refuted:
				t.Errorf("%d: a row of %v is refuted: %+v", seed, b.Length, p)
			case undecided:
				open++
			}
			if found++; b.Length > 0.9*exact {
				near++
			}
		}
	}
	if found < often.Jobs(3, 200) || near < found/2 || open > found/4 {
		t.Errorf("%d rows, %d of them near the best, %d undecided", found, near, open)
	}
}

// Bars of many lengths that all cross the middle: no penalties are needed to know how long
// their row is, as each is told apart from all others by its length alone.
func TestRowOfManyKinds(t *testing.T) {
	p := bound.Problem{Width: 1000, Gap: 3}
	want := -p.Gap
	for i := range 6 {
		long := 300 + 17*float64(i)
		bar := ring(0, 0, long, 0, long, 600, 0, 600)
		p.Pieces = append(p.Pieces, turned(fmt.Sprint("bar ", i), 2, bar, 0))
		want += 2 * (long + p.Gap)
	}
	longest := 0.0
	for _, b := range bound.Penalised(t.Context(), p, 1<<25) {
		longest = max(longest, b.Length)
	}
	if longest > want || longest < 0.99*want {
		t.Errorf("a row of %v, should be nearly %v", longest, want)
	}
}

// A row of many kinds is given up at any moment.
func TestPenaltiesAreCancelled(t *testing.T) {
	p := bound.Problem{Width: 1100}
	for i := range 5 {
		gore := ring(0, -50-float64(i), 900+10*float64(i), -300, 1000, 0, 900, 300, 0, 50)
		p.Pieces = append(p.Pieces, turned(fmt.Sprint("gore ", i), 4, gore, 0))
	}
	for n := range 12 {
		ctx := &countdown{Context: t.Context(), left: n * n}
		for _, b := range bound.Penalised(ctx, p, 1<<22) {
			if b.Length > 20*1000 {
				t.Errorf("cancelled at look %d: a row of %v", n*n, b.Length)
			}
		}
	}
}
