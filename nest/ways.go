package nest

import (
	"math"
	"slices"
)

// turns returns the allowed turns of a copy as drawn, degrees.
func (piece Piece) turns() []float64 {
	if len(piece.Turns) == 0 {
		return []float64{0}
	}
	return piece.Turns
}

// turnsOf returns the allowed turns of a copy, degrees counter-clockwise: those
// of a mirrored one are the reflections of those of one as drawn. Turns that are
// together their own reflections keep their order.
func (piece Piece) turnsOf(mirrored bool) []float64 {
	turns := piece.turns()
	if !mirrored {
		return turns
	}
	reflected := make([]float64, len(turns))
	symmetric := true
	for i, t := range turns {
		reflected[i] = 0 - t // not -t: of 0 that is a negative zero
		symmetric = symmetric && listsTurn(turns, -t)
	}
	if symmetric {
		return turns
	}
	return reflected
}

func listsTurn(turns []float64, turn float64) bool {
	return slices.ContainsFunc(turns, func(t float64) bool { return sameTurn(t, turn) })
}

// sameTurn says whether two turns in degrees differ by whole turns.
func sameTurn(a, b float64) bool {
	d := math.Mod(a, 360) - math.Mod(b, 360) // Mod is exact
	return d == 0 || math.Abs(d) == 360
}

// foldOf says on which fold a half comes to lie in a turn and mirroring: its
// least y is on the lower edge, or, turned about or mirrored, on the upper one.
func foldOf(turn float64, mirrored bool) (upper, ok bool) {
	switch {
	case sameTurn(turn, 0):
		return mirrored, true
	case sameTurn(turn, 180):
		return !mirrored, true
	}
	return false, false
}

// leftAndRight counts the copies that may lie alike, by the first of them: of a pair
// those as drawn and those that are mirrored.
func (piece Piece) leftAndRight() []int {
	if piece.Mirror == Paired && piece.Count > 1 {
		return []int{(piece.Count + 1) / 2, piece.Count / 2}
	}
	return []int{piece.Count}
}

// Ways lists how copy k of piece i may lie by the nap of the cloth and its folds, turned
// and mirrored, at the origin. Two of a pair that must lie alike have to agree besides
// (Piece.Alike).
func (p Problem) Ways(i, k int) []Placed {
	piece := p.Pieces[i]
	mirrorings := []bool{false}
	switch {
	case piece.OnFold, piece.Mirror == Free:
		mirrorings = []bool{false, true}
	case piece.Mirror == Paired:
		mirrorings[0] = k%2 == 1
	}
	var out []Placed
	for _, m := range mirrorings {
		for _, t := range piece.turnsOf(m) {
			if upper, ok := foldOf(t, m); piece.OnFold && (!ok || upper && p.Strip.Folds != FoldBoth) {
				continue
			}
			out = append(out, Placed{Piece: i, Copy: k, Turn: t, Mirrored: m})
		}
	}
	return out
}
