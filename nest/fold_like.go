package nest

import "yardlay/shapes/plane"

// FoldLike spreads the cloth of an open problem as Fold does, with the pieces
// shared out as in like, which Fold gave for the same pieces in the same lay on
// other cloth: what was left for the open stretch there is left for it here, even
// where this cloth could take it double. So wider cloth can be cut by every marker
// of narrower cloth.
func FoldLike(p Problem, lay Lay, selvedge float64, like []Stretch) ([]Stretch, error) {
	as := map[int]cutting{}
	for _, s := range like {
		for k, i := range s.from {
			if s.Lay != Open {
				onFold := s.Problem.Pieces[k].OnFold
				as[i] = cutting{onFold: onFold, double: !onFold}
			}
		}
	}
	return p.fold(lay, selvedge, func(piece int) cutting { return as[piece] })
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
