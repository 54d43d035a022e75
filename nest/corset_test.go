package nest_test

import (
	"fmt"
	"math"
	"testing"

	"yardlay/nest"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// corsetTwice is a body of twelve panels, cut twice, on 45 in cloth with selvedges
// of 1/2 in, seams of 1/2 in and a hem of 1 in.
func corsetTwice(t *testing.T) nest.Problem {
	c := shapes.Corset{
		Figure: shapes.Figure{
			OverBust: 34 * inch, Bust: 36 * inch, UnderBust: 31 * inch, Waist: 28 * inch, HighHip: 34 * inch,
			OverBustUp: 9 * inch, BustUp: 6.75 * inch, UnderBustUp: 3.5 * inch, HighHipDown: 3.5 * inch,
		},
		Panels: 12, Reduction: 2 * inch, LacingGap: 2 * inch,
		Allowance: shapes.Allowance{Seam: inch / 2, Waist: inch / 2, Hem: inch},
	}
	pieces, err := c.Draft()
	if err != nil {
		t.Fatal(err)
	}
	p := nest.Problem{Strip: nest.Strip{Width: 44 * inch}, Gap: plane.SnapDown(inch / 8)}
	for _, piece := range pieces {
		laid := nest.Piece{Name: piece.Name, Outline: piece.Cut, Count: 2 * piece.Count, Turns: []float64{0, 180}}
		if piece.Pair {
			laid.Mirror = nest.Paired
		}
		p.Pieces = append(p.Pieces, laid)
	}
	return p
}

// TestColumnsComeApart: the panels stand in three full columns, 42 1/4 in, which no
// search may leave that shortens by 2 % at most (two of these seeds stay). Nested head to
// tail they take less than 33 in, with every seed; the search ends there, as
// cloth that is sold by that much lets it. Both lengths are those of our own searches.
func TestColumnsComeApart(t *testing.T) {
	const most = 33 * inch
	bought := func(used float64) float64 { return math.Ceil(used/most) * most }
	p := corsetTwice(t)
	for seed := range uint64(8) {
		t.Run(fmt.Sprintf("seed %d", seed+1), func(t *testing.T) {
			if r := solve(t, p, nest.Options{Seed: seed + 1, Bought: bought}); r.Layout.Length > most {
				t.Errorf("%.3f in after %d evaluations, want at most 33", r.Layout.Length/inch, r.Stats.Evaluations)
			}
		})
	}
}
