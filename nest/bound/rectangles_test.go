package bound_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"yardlay/nest/bound"
	"yardlay/shapes/plane"
)

// Rectangles that may not turn: at least the classical bound of strip packing, the
// heights weighed by a function of the widths that no row of rectangles can sum to
// more than 1: w > W - p counts 1, w < p nothing, between w/W, for every p up to
// W/2. Sources: S. Martello and P. Toth, Lower bounds and reduction procedures for
// the bin packing problem, Discrete Applied Mathematics 28 (1990) 59-70 (there for
// bins); as dual-feasible functions, S. P. Fekete and J. Schepers, Mathematical
// Programming 91 (2001) 11-31.
func TestAtLeastTheClassicalBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const width = 100
		p := bound.Problem{Width: width}
		type rectangle struct{ long, wide float64 }
		var all []rectangle
		stacked := 0.0 // a marker: one behind another
		for i := range rapid.IntRange(1, 8).Draw(t, "rectangles") {
			r := rectangle{float64(rapid.IntRange(1, 60).Draw(t, "long")),
				float64(rapid.IntRange(1, width).Draw(t, "wide"))}
			all = append(all, r)
			stacked += r.long
			p.Pieces = append(p.Pieces,
				turned(fmt.Sprint("rectangle ", i), 1, ring(0, 0, r.long, 0, r.long, r.wide, 0, r.wide), 0))
		}
		classical := 0.0
		for limit := 1.0; limit <= width/2; limit++ {
			sum := 0.0
			for _, r := range all {
				switch {
				case r.wide > width-limit:
					sum += r.long
				case r.wide >= limit:
					sum += r.long * r.wide / width
				}
			}
			classical = max(classical, sum)
		}
		b := best(p)
		check(t, p, b)
		if b.Length < classical-plane.Lattice || b.Length > stacked {
			t.Fatalf("bound %v by %s, classical bound %v, one behind another %v", b.Length, b.Kind, classical, stacked)
		}
	})
}

// Three in five of the cloth's width do not fit side by side, nor two of them and
// a narrow one: 3 x 50 one behind another, and the narrow ones beside them.
func TestWideRectangles(t *testing.T) {
	p := bound.Problem{Width: 100, Pieces: []bound.Piece{
		turned("wide", 3, ring(0, 0, 50, 0, 50, 60, 0, 60), 0, 180),
		turned("narrow", 3, ring(0, 0, 50, 0, 50, 40, 0, 40), 0, 180),
	}}
	if b := best(p); b.Length != 150 {
		t.Errorf("bound %v by %s, want 150", b.Length, b.Kind)
	}
}
