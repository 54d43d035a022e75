package nest

import (
	"fmt"
	"slices"

	"yardlay/shapes/plane"
)

// Cutting says how a piece is cut on a folded stretch: on its fold, or so many outlines of
// it double. What is left of it lies on the open stretch.
type Cutting struct {
	OnFold bool
	Double int // outlines, of two copies each
}

// ShareOf returns how the stretches of Fold cut each piece of an open problem of so many.
func ShareOf(stretches []Stretch, pieces int) []Cutting {
	share := make([]Cutting, pieces)
	for _, s := range stretches {
		for k, i := range s.from {
			switch piece := s.Problem.Pieces[k]; {
			case s.Lay == Open:
			case piece.OnFold:
				share[i].OnFold = true
			default:
				share[i].Double = piece.Count
			}
		}
	}
	return share
}

// FoldBy spreads the cloth of an open problem as Fold does, with each piece cut on the
// folded stretch as its share says, as far as it can be, and no more of it. With the share
// that Fold gave narrower cloth in the same lay (ShareOf) wider cloth can be cut by every
// marker of the narrower one.
func FoldBy(p Problem, lay Lay, selvedge float64, share []Cutting) ([]Stretch, error) {
	if len(share) != len(p.Pieces) {
		return nil, fmt.Errorf("a share of %d pieces for %d", len(share), len(p.Pieces))
	}
	return p.fold(lay, selvedge, func(piece int) Cutting { return share[piece] })
}

// Takes returns the placed copy of the stretch that cuts what one of another stretch of the same
// problem cuts, at the same place; false where it cuts that otherwise, or not at all.
func (s Stretch) Takes(from Stretch, pl Placed) (Placed, bool) {
	if s.Lay != from.Lay {
		return pl, false
	}
	onFold := from.Problem.Pieces[pl.Piece].OnFold
	whole, copies := cutOf(from, pl)
	for k, i := range s.from {
		piece := s.Problem.Pieces[k]
		if i != whole.Piece || piece.OnFold != onFold {
			continue
		}
		for c := range piece.Count {
			own := pl
			own.Piece, own.Copy = k, c
			if _, of := cutOf(s, own); slices.Equal(of, copies) {
				return own, true
			}
		}
	}
	return pl, false
}

// Onto returns a layout of the stretch as it lies on another of the same lay and
// pieces: on a double fold of another width what is above the middle stays as far
// from the upper fold. Verify tells whether it is allowed there.
func (s Stretch) Onto(to Stretch, l Layout) Layout {
	wider := to.Problem.Strip.Width - s.Problem.Strip.Width
	if s.Lay != DoubleFold || to.Lay != DoubleFold || wider == 0 {
		return l
	}
	moved := Layout{Length: l.Length, Placed: make([]Placed, len(l.Placed))}
	for i, pl := range l.Placed {
		if plane.Bounds(s.Problem.Outline(pl)).Min[1] >= s.Problem.Strip.Width/2 {
			pl.At[1] += wider
		}
		moved.Placed[i] = pl
	}
	return moved
}
