package compare

import (
	"slices"

	"yardlay/cmd/yardlay/internal/plan"
)

// adopt takes over whole layings, leftovers, bolts and all, where a row of the same
// cloth that only forbids more buys less. Such layings are not searched on from:
// how a shelf is shared out is found anew for every row.
func adopt(lots []*lot) {
	for _, one := range lots {
		if one.err != nil || len(one.task.Spread.Cloth.Have) == 0 && !one.task.InLengths() {
			continue
		}
		for _, o := range lots {
			if o.err != nil || o.pieces != one.pieces || !o.laid.Buy.Precedes(one.laid.Buy) ||
				!onlyStricter(o.task, one.task) {
				continue
			}
			from := &better{row: o.row, alone: one.laid.Buy.Bought}
			if one.other != nil {
				from.alone = one.other.alone
			}
			one.laid, one.other = o.laid.WithLeast(one.laid), from
		}
	}
}

// onlyStricter says whether a task differs from another in nothing but fewer
// turns and a larger gap, so that all its layings are allowed in the other.
func onlyStricter(strict, free plan.Task) bool {
	a, b := strict.Problem, free.Problem
	if len(a.Pieces) != len(b.Pieces) || a.Gap < b.Gap {
		return false
	}
	alike := free
	alike.Problem.Gap, alike.Problem.Pieces = a.Gap, slices.Clone(b.Pieces)
	for i, p := range a.Pieces {
		for _, turn := range turnsOf(p.Turns) {
			if !slices.Contains(turnsOf(b.Pieces[i].Turns), turn) {
				return false
			}
		}
		alike.Problem.Pieces[i].Turns = p.Turns
	}
	return alike.Key() == strict.Key()
}

// turnsOf lists the turns of a piece: none given means it lies as drawn.
func turnsOf(turns []float64) []float64 {
	if len(turns) == 0 {
		return []float64{0}
	}
	return turns
}
