package draft

import (
	"slices"

	"yardlay/shapes"
)

// quarters are the places where edges that go round the body are matched, as
// shares of their finished length from one centre: the sides, and the other centre.
// They are the same from the centre back and from the centre front, and alike on
// the left and on the right.
var quarters = []float64{0.25, 0.5, 0.75}

// notchQuarters marks the quarters of a side that goes round the body, or half way
// round it and back again; where one falls on a seam the seam marks it.
func notchQuarters(pieces []shapes.Piece, s shapes.JoinSide) error {
	_, finished, err := s.Measure(pieces)
	if err != nil {
		return err
	}
	var at []float64 // from the start of the side, mm
	for _, d := range quartersOf(finished + s.Open) {
		if d -= s.Open / 2; d >= 0 && d <= finished {
			at = append(at, d)
		}
	}
	return s.Notch(pieces, at)
}

// quartersOf returns the quarters of a finished length, mm.
func quartersOf(finished float64) []float64 {
	at := slices.Clone(quarters)
	for i := range at {
		at[i] *= finished
	}
	return at
}

// thereAndBack strings the edges of one half of the body, from one centre to the
// other, and those of the other half. middle, if any, runs across the far centre.
func thereAndBack(half []shapes.SewnEdge, middle ...shapes.SewnEdge) []shapes.SewnEdge {
	back := slices.Clone(half)
	slices.Reverse(back)
	for i := range back {
		back[i].Reversed = !back[i].Reversed
	}
	return slices.Concat(half, middle, back)
}

// lapAtEnds is the treatment of a side of which so much lies back at both ends, mm.
func lapAtEnds(mm float64) shapes.Treatment {
	if mm == 0 {
		return shapes.Treatment{}
	}
	return shapes.Treatment{Lap: mm, Laps: []shapes.Mouth{{Width: mm}}}
}

// along is an edge of a piece on its way along a seam; against is one that the seam runs
// the other way.
func along(piece, edge string) shapes.SewnEdge { return shapes.SewnEdge{Piece: piece, Edge: edge} }

func against(piece, edge string) shapes.SewnEdge {
	return shapes.SewnEdge{Piece: piece, Edge: edge, Reversed: true}
}

// sideOf is a side of a seam, of edges end to end.
func sideOf(edges ...shapes.SewnEdge) shapes.JoinSide { return shapes.JoinSide{Edges: edges} }

// seamOf is a plain seam of one edge to another.
func seamOf(name string, times int, a, b shapes.SewnEdge, notches ...float64) shapes.Join {
	return shapes.Join{Name: name, Times: times, A: sideOf(a), B: sideOf(b), Notches: notches}
}
