package draft

import (
	"errors"

	"yardlay/shapes"
)

// ErrNoWaist says that no edge of a draft is sewn at the waist.
var ErrNoWaist = errors.New("no edge is sewn at the waist")

// WaistOf returns the side of a draft in a waist seam: what it says itself, else its
// edges of kind Waist, piece by piece and all copies. It gives ErrNoWaist where there
// are none, as on a skirt cut in one whose waist is a line inside.
func WaistOf(d Result) (shapes.JoinSide, error) {
	if len(d.Waist.Edges) > 0 {
		return d.Waist, nil
	}
	return waistEdges(d.Pieces)
}

func waistEdges(pieces []shapes.Piece) (shapes.JoinSide, error) {
	s := edgesAt(pieces, AtWaist)
	if len(s.Edges) == 0 {
		return shapes.JoinSide{}, ErrNoWaist
	}
	return s, nil
}
