package nest

import (
	"context"
	"fmt"

	"yardlay/nest/bound"
)

// LowerBound returns the longest length found that no layout of p can be shorter
// than, mm, with its reason; p is one that Check finds sound. When the context ends
// it returns the best found so far, at least that of area and longest piece.
func LowerBound(ctx context.Context, p Problem) bound.Bound {
	return bound.Lower(ctx, p.toBound(), bound.Options{})[0]
}

// toBound translates a problem.
func (p Problem) toBound() bound.Problem {
	b := bound.Problem{Width: closedWidth(p), MaxLength: p.Strip.MaxLength, Gap: p.Gap, Forbidden: p.Strip.Forbidden}
	for i, piece := range p.Pieces {
		for k, copies := range piece.sorts() {
			part := bound.Piece{Name: piece.Name, Count: copies}
			for _, way := range p.ways(i, k) {
				part.Ways = append(part.Ways, p.Outline(way))
			}
			b.Pieces = append(b.Pieces, part)
		}
	}
	return b
}

// closedWidth returns a width on which every layout of p has its like, no longer.
// Where selvedges lie in the middle nothing lies over them: the upper half can be
// moved down onto the lower one, to a gap from it.
func closedWidth(p Problem) float64 {
	s := p.Strip
	if s.Folds != FoldBoth || len(s.Forbidden) > 0 {
		return s.Width
	}
	return s.Width - max(0, 2*s.Middle-p.Gap)
}

// consistent refuses a bound above a layout that stands: one of the two would
// be wrong, and neither may be shown.
func consistent(b bound.Bound, l Layout) error {
	if b.Length > l.Length {
		return fmt.Errorf("the bound of %v mm (%s) lies above a layout of %v mm: one of the two is wrong, please report it", b.Length, b.Kind, l.Length)
	}
	return nil
}
