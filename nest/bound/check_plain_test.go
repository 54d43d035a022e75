package bound_test

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/nest/bound"
	"yardlay/shapes/plane"
)

// checkPlain confirms the bounds of the area and of the longest piece in whole
// steps of the lattice: snapped, the ways of a piece differ in area and in length
// by a little, and the least of those that fit on the cloth is all a piece needs.
func checkPlain(t rapid.TB, p bound.Problem, b bound.Bound) {
	t.Helper()
	area, longest := int64(0), int64(0) // half steps squared, steps
	for _, piece := range p.Pieces {
		least, shortest := int64(math.MaxInt64), int64(math.MaxInt64)
		for _, way := range piece.Ways {
			twice, long, wide := stepsOf(way)
			if float64(wide)*plane.Lattice > p.Width || p.MaxLength > 0 && float64(long)*plane.Lattice > p.MaxLength {
				continue
			}
			least, shortest = min(least, twice), min(shortest, long)
		}
		if least == math.MaxInt64 {
			continue // fits in no way
		}
		area += least * int64(piece.Count)
		if longest < shortest {
			longest = shortest
		}
	}
	covers := float64(area) / 2 * plane.Lattice * plane.Lattice
	switch c := b.Certificate; {
	case b.Kind == bound.Area && c.Length*p.Width >= covers:
		t.Errorf("area: the pieces cover %v mm2, and %v by %v mm is said to be too little", covers, c.Length, p.Width)
	case b.Kind == bound.LongestPiece && c.Length >= float64(longest)*plane.Lattice:
		t.Errorf("longest piece: %v mm, and %v is said to be too short", float64(longest)*plane.Lattice, c.Length)
	}
}

// stepsOf returns twice the area of a ring, and how long and wide it is, in steps
// of the lattice, exactly.
func stepsOf(r orb.Ring) (twice, long, wide int64) {
	step := func(v float64) int64 { return int64(v / plane.Lattice) }
	low, high := [2]int64{math.MaxInt64, math.MaxInt64}, [2]int64{math.MinInt64, math.MinInt64}
	for i := 1; i < len(r); i++ {
		a, b := r[i-1], r[i]
		twice += step(a[0])*step(b[1]) - step(b[0])*step(a[1])
		for axis := range 2 {
			low[axis], high[axis] = min(low[axis], step(b[axis])), max(high[axis], step(b[axis]))
		}
	}
	return twice, high[0] - low[0], high[1] - low[1]
}

// Pieces that may lie at any angles, snapped: every bound is confirmed.
func TestFreeTurnsChecked(t *testing.T) {
	problems := rapid.Custom(func(t *rapid.T) bound.Problem {
		p := bound.Problem{Width: 260, Gap: rapid.SampledFrom([]float64{0, 0, 3}).Draw(t, "gap")}
		for i := range rapid.IntRange(1, 3).Draw(t, "kinds") {
			turns := rapid.SliceOfN(rapid.Float64Range(0, 360), 2, 4).Draw(t, "turns")
			p.Pieces = append(p.Pieces, turned(fmt.Sprint("piece ", i), rapid.IntRange(1, 3).Draw(t, "count"),
				figure(t), turns...))
		}
		return p
	})
	for seed := range often.Full(freeTurned/2, freeTurned) {
		p := problems.Example(seed)
		for _, b := range bound.Lower(context.Background(), p) {
			check(t, p, b)
			if b.Kind == bound.Row || b.Kind == bound.Column {
				if v := checkRow(t, p, b, 1e5); v == refuted {
					t.Errorf("problem %d: %s of %v, length %v: there is a shorter row", seed, b.Kind, b.Pieces,
						b.Length)
				}
			}
		}
	}
}

// freeTurned is the number of problems checked.
const freeTurned = 6
