package bound

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/benchmarks/often"
	"yardlay/shapes/plane"
)

// manyRectangles is so many pieces of so many sizes, from least to most of the cloth's width.
func manyRectangles(kinds, copies int, least, most float64) Problem {
	r := rand.New(rand.NewPCG(uint64(kinds), uint64(copies)))
	p := Problem{Width: 1400, Gap: 3.1748046875}
	for k := range kinds {
		a, b := plane.Snap(100+700*r.Float64()), plane.Snap(1400*(least+(most-least)*r.Float64()))
		p.Pieces = append(p.Pieces, Piece{Name: fmt.Sprint("tier ", k), Count: copies,
			Ways: []orb.Ring{{{0, 0}, {a, 0}, {a, b}, {0, b}, {0, 0}}}})
	}
	return p
}

// A thousand pieces of sixty sizes, five hundred sizes, narrow ones and wide: each in a moment, and within the work
// that is allowed.
func TestManyRectanglesInAMoment(t *testing.T) {
	for name, p := range map[string]Problem{
		"sixty sizes":         manyRectangles(60, 17, 0.05, 0.95),
		"narrow":              manyRectangles(60, 17, 0.01, 0.1),
		"five hundred sizes":  manyRectangles(500, 2, 0.05, 0.95),
		"wide":                manyRectangles(40, 25, 0.3, 0.7),
		"three of some sizes": manyRectangles(12, 3, 0.2, 0.8),
		"thousands":           manyRectangles(3, 1333, 0.1, 0.5),
		"more than looked at": manyRectangles(3, 100_000, 0.1, 0.5),
	} {
		if often.ByHand() && (name == "sixty sizes" || name == "wide" || name == "three of some sizes") {
			continue // narrow ones and thousands take as much work
		}
		t.Run(name, func(t *testing.T) {
			inAMoment(t, func() {
				if work := RectangleWork(p); work > rectanglesWork*11/10 {
					t.Errorf("work of %d", work)
				}
			})
		})
	}
}

// Searches for rectangles end soon once they are to.
func TestRectanglesAreCancelled(t *testing.T) {
	p := manyRectangles(12, 3, 0.2, 0.8)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	f := newFinder(ctx)
	f.simple(p.settings()[0])
	f.rectangles(p.settings()[0])
	if used := rectanglesWork - f.rectangleWork; len(f.found) != 2 || used > 0 {
		t.Errorf("%d bounds, work of %d", len(f.found), used)
	}
}
