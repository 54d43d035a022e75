package nest_test

import (
	"context"
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/nest"
)

// What a search shows while it runs holds before the judge, becomes shorter and never less proved, and
// changes nothing of what it finds.
func TestBetterShown(t *testing.T) {
	problems := rapid.Custom(randomProblem)
	for seed := range often.Jobs(often.Full(3, 5), 100) {
		p := problems.Example(seed)
		o := nest.Options{Work: 1 << (10 + seed%8), Workers: 1 + seed%2}
		want, wrong := nest.Solve(context.Background(), p, o)
		var shown []nest.Result
		o.Better = func(r nest.Result) { shown = append(shown, r) }
		got, err := nest.Solve(context.Background(), p, o)
		if (err == nil) != (wrong == nil) {
			t.Fatalf("problem %d: watched %v, else %v", seed, err, wrong)
		}
		if err != nil {
			continue
		}
		if diff := cmp.Diff(want.Layout, got.Layout); diff != "" {
			t.Fatalf("problem %d: a search that is watched finds another layout:\n%s", seed, diff)
		}
		if len(shown) == 0 {
			t.Fatalf("problem %d: nothing was shown", seed)
		}
		length, bound := math.Inf(1), 0.0
		for i, r := range shown {
			if err := nest.Verify(p, r.Layout); err != nil {
				t.Fatalf("problem %d, shown %d: %v", seed, i, err)
			}
			if r.Layout.Length > length || r.Bound.Length < bound || r.Bound.Length > got.Layout.Length {
				t.Fatalf("problem %d, shown %d: %v with a bound of %v, after %v with %v", seed, i,
					r.Layout.Length, r.Bound.Length, length, bound)
			}
			length, bound = r.Layout.Length, r.Bound.Length
		}
		if length < got.Layout.Length {
			t.Fatalf("problem %d: %v was shown, and %v found", seed, length, got.Layout.Length)
		}
	}
}

// A search of some seconds shows what it finds meanwhile, and not more than a few a second.
func TestBetterNowAndThen(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 45 * inch}, Pieces: []nest.Piece{
		{Name: "gore", Outline: gore(5*inch, 12*inch, 40*inch), Count: 9, Turns: []float64{0, 180}},
		{Name: "panel", Outline: gore(9*inch, 14*inch, 21*inch), Count: 11, Turns: []float64{0, 180}},
	}}
	began, shown := time.Now(), 0
	var last time.Duration
	solve(t, p, nest.Options{Effort: unproved, Work: often.Full[int64](1<<20, 1<<22), Workers: 1,
		Better: func(nest.Result) { shown, last = shown+1, time.Since(began) }})
	if most := 3 + int(last/(250*time.Millisecond)); shown < 2 || shown > most {
		t.Errorf("%d layouts shown within %v, want 2 to %d", shown, last, most)
	}
}
