package bound_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
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

// The least rectangles that hold squares of 1, 2, ... n, each turned or not alike: on a strip as wide as one of their
// sides the squares need the other. Source: R. E. Korf, Optimal rectangle packing: initial results, ICAPS 2003;
// figures from memory.
func TestConsecutiveSquares(t *testing.T) {
	reached := 0
	sides := map[int][2]float64{4: {5, 7}, 5: {5, 12}, 6: {9, 11}, 7: {7, 22}, 8: {14, 15}, 9: {15, 20}, 10: {15, 27},
		11: {19, 27}, 12: {23, 29}, 13: {22, 38}, 14: {23, 45}, 15: {23, 55}}
	if often.ByHand() {
		delete(sides, 15) // half of the work of all
	}
	for n, side := range sides {
		for k, width := range side {
			p := bound.Problem{Width: width}
			for i := range n {
				p.Pieces = append(p.Pieces, box(fmt.Sprint("square ", i+1), 1, float64(i+1), float64(i+1)))
			}
			b := best(p)
			if b.Length > side[1-k] {
				t.Errorf("%d squares on %v: %v by %s, and %v are known to be enough", n, width, b.Length, b.Kind, side[1-k])
			}
			if b.Length > side[1-k]-1 {
				reached++ // squares may all be moved to whole places
			}
		}
	}
	if reached < 2*len(sides) {
		t.Errorf("%d of %d known lengths proved", reached, 2*len(sides))
	}
}

// Net layers for three alike, on 54 in: 27 strips as wide as the cloth, each by itself; the three widest parts of
// strips, beside which only the narrowest go; and three that lie two abreast, not three, so that they need two rows.
// That is a layout too.
func TestNetLayers(t *testing.T) {
	const width, gap = 53 * inch, 3251 * plane.Lattice
	p := bound.Problem{Width: plane.Floor(width), Gap: gap}
	long := map[float64]float64{}
	for _, layer := range []struct {
		long, part    float64 // in
		strips, parts int
	}{{19.04, 20.08, 12, 3}, {25.22, 24.956, 9, 3}, {31.4, 29.832, 6, 3}} {
		long[layer.long] = plane.Floor(layer.long * inch)
		p.Pieces = append(p.Pieces,
			box("layer strip", layer.strips, long[layer.long], p.Width),
			box("layer part strip", layer.parts, long[layer.long], plane.Floor(layer.part*inch)))
	}
	want := 12*long[19.04] + (9+2)*long[25.22] + (6+3)*long[31.4] + (12+11+9-1)*gap
	b := best(p)
	if b.Length != want || b.Kind != bound.Rectangles {
		t.Errorf("%v mm by %s, want %v", b.Length, b.Kind, want)
	}
	in := func(mm float64) string { return fmt.Sprintf("%.1f in", mm/inch) }
	for _, text := range []string{b.Reason(in), b.Brief()} {
		if !strings.Contains(text, "begin along") {
			t.Error(text)
		}
	}
}

// Cancelled at any moment, bounds of rectangles are none that a layout passes, and never longer than those found in
// full.
func TestRectanglesCancelledAtAnyMoment(t *testing.T) {
	p := bound.Problem{Width: 107, Gap: 0.125}
	for i, part := range []float64{12.33, 16.08, 8.58, 71.2, 74.96, 67.46, 24.08, 27.83, 20.33} {
		p.Pieces = append(p.Pieces, box(fmt.Sprint("part ", i), 2, []float64{19.04, 25.22, 31.4}[i/3], part))
	}
	whole := best(p)
	if whole.Kind != bound.Rectangles {
		t.Errorf("%v by %s", whole.Length, whole.Kind)
	}
	for n := range often.Full(12, 24) {
		ctx := &countdown{Context: t.Context(), left: n * n}
		for _, b := range bound.Lower(ctx, p) {
			if b.Length > whole.Length {
				t.Errorf("cancelled at look %d: %v by %s, in full %v", n*n, b.Length, b.Kind, whole.Length)
			}
		}
	}
}
