package bound_test

import (
	"context"
	"testing"

	"yardlay/benchmarks/often"
	"yardlay/nest/bound"
)

// Certificates that count a gap: of gores, rectangles, and outlines that are not
// convex.
func TestGapsChecked(t *testing.T) {
	kinds := make(map[bound.Kind]int)
	all := []bound.Problem{
		{Width: 55 * inch, Pieces: []bound.Piece{turned("gore", 12, straightGore(), 0, 180)}},
		{Width: 55 * inch, Pieces: []bound.Piece{turned("gore", 12, straightGore(), 0)}},
		{Width: 100, Pieces: []bound.Piece{turned("panel", 5, ring(0, 0, 50, 0, 50, 30, 0, 30), 0),
			turned("wedge", 4, ring(0, 0, 70, 0, 20, 40), 0, 180)}},
		{Width: 100, Pieces: []bound.Piece{turned("panel", 7, ring(0, 0, 50, 0, 50, 30, 0, 30), 0)}},
		{Width: 100, Pieces: []bound.Piece{turned("corner", 5, ring(0, 0, 60, 0, 60, 20, 25, 20, 25, 45, 0, 45), 0,
			180)}},
	}
	for _, p := range often.Jobs(all[1:4], all) {
		p.Gap = inch / 8
		for _, b := range bound.Lower(context.Background(), p) {
			kinds[b.Kind]++
			check(t, p, b)
		}
	}
	if kinds[bound.Chords] == 0 || kinds[bound.Prices] == 0 || kinds[bound.OneWay] == 0 {
		t.Errorf("kinds that did not come up: %v", kinds)
	}
}
