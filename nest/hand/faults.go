package hand

import (
	"yardlay/nest"
	"yardlay/nest/judge"
)

// Faults returns all that is wrong with a piece where it is held among others: the judge's
// words, exact. It is empty where the piece may be cut so. Broken.Pair[1], of an overlap or too
// close, is the index of the neighbour into others; Pair[0] is -1, the piece in the hand.
func (t *Table) Faults(held nest.Placed, others []nest.Placed) []*nest.Broken {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.forget()
	return t.faults(held, others)
}

func (t *Table) faults(held nest.Placed, others []nest.Placed) []*nest.Broken {
	placed, index := []judge.Placed{judge.Placed(held)}, []int{-1}
	for i, pl := range others {
		if t.knows(pl) && (pl.Piece != held.Piece || pl.Copy != held.Copy) {
			placed, index = append(placed, judge.Placed(pl)), append(index, i)
		}
	}
	list := t.judge.Faults(placed, 0)
	for _, b := range list {
		if b.Other != "" {
			b.Pair = [2]int{index[b.Pair[0]], index[b.Pair[1]]}
		}
	}
	return list
}

// blocked says whether any fault is one of the place, and not of the way the piece is
// turned or of what it belongs to.
func blocked(list []*nest.Broken) bool {
	for _, b := range list {
		switch b.Rule {
		case nest.OffLattice, nest.OutsideStrip, nest.OffFold, nest.NearFold, nest.OverMiddle, nest.InForbidden,
			nest.Overlap, nest.TooClose, nest.OffRepeat:
			return true
		}
	}
	return false
}
