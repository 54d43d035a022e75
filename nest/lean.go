package nest

import (
	"math"
	"slices"
)

// A piece that may be tilted a little off its grain has turns close together. The
// search lays it straight to begin with: a lean is worth trying only where a piece
// lies snug already, and there are several to each turn.
const (
	leanApart = 5 // degrees from one turn to the next, at most
	mostLeans = 5 // turns in such a cluster, at most: straight, and two either way
)

// straightOf returns, for each allowed turn as drawn, the turn that it leans off:
// the middle one of a cluster of three to five, itself for any other.
func (piece Piece) straightOf() map[float64]float64 {
	around := func(t float64) float64 { return math.Mod(math.Mod(t, 360)+360, 360) }
	turns := slices.Clone(piece.turns())
	slices.SortFunc(turns, func(a, b float64) int {
		if d := around(a) - around(b); d != 0 {
			return int(math.Copysign(1, d))
		}
		return 0
	})
	n := len(turns)
	near := func(k int) bool { // turn k is close to the one before it
		gap := around(turns[k%n]) - around(turns[(k+n-1)%n])
		return math.Mod(gap+360, 360) <= leanApart
	}
	out := map[float64]float64{}
	for _, t := range turns {
		out[t] = t
	}
	first := 0
	for first < n && near(first) {
		first++
	}
	for k := first; first < n && k < first+n; {
		size := 1
		for k+size < first+n && near(k+size) {
			size++
		}
		if size >= 3 && size <= mostLeans && size%2 == 1 {
			for m := range size {
				out[turns[(k+m)%n]] = turns[(k+size/2)%n]
			}
		}
		k += size
	}
	return out
}

// lean returns how far a way leans off the straight turn of its family, and that
// turn, degrees, both as drawn.
func lean(pl Placed, straight map[float64]float64) (off, from float64) {
	turn := pl.Turn
	if pl.Mirrored {
		turn = 0 - turn
	}
	for t, s := range straight {
		if sameTurn(t, turn) {
			return math.Round(math.Remainder(t-s, 360)/turnTolerance) * turnTolerance, s
		}
	}
	return 0, turn
}
