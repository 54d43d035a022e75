package shapes

import (
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// quarters are the places where edges that go round the body are matched, as
// shares of their finished length from one centre: the sides, and the other centre.
// They are the same from the centre back and from the centre front, and alike on
// the left and on the right.
var quarters = []float64{0.25, 0.5, 0.75}

// notchQuarters marks the quarters of a side that goes round the body, or half way
// round it and back again; where one falls on a seam the seam marks it.
func notchQuarters(pieces []Piece, s JoinSide) error {
	_, finished, err := s.Measure(pieces)
	if err != nil {
		return err
	}
	return s.notch(pieces, s.quarters(finished))
}

// quarters returns where those of an edge round the body lie on it, from its start, mm.
func (s JoinSide) quarters(finished float64) []float64 {
	var at []float64
	for _, d := range quartersOf(finished + s.Open) {
		if d -= s.Open / 2; d >= 0 && d <= finished {
			at = append(at, d)
		}
	}
	return at
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
func thereAndBack(half []SewnEdge, middle ...SewnEdge) []SewnEdge {
	back := slices.Clone(half)
	slices.Reverse(back)
	for i := range back {
		back[i].Reversed = !back[i].Reversed
	}
	return slices.Concat(half, middle, back)
}

// lapAtEnds is the treatment of a side of which so much lies back at both ends, mm.
func lapAtEnds(mm float64) Treatment {
	if mm == 0 {
		return Treatment{}
	}
	return Treatment{Lap: mm, Laps: []Mouth{{0, mm}}}
}

// foldDarts takes up the darts that are drawn on the edges of a side.
func (s *JoinSide) foldDarts(pieces []Piece) error {
	edges, err := s.find(pieces)
	if err != nil {
		return err
	}
	darts := make([][]Mouth, len(edges))
	for i, e := range edges {
		darts[i] = e.piece.mouths(e.edge.Name)
	}
	s.Treatment.Darts = along(edges, darts)
	return nil
}

// distance returns how far along the edge a point of its line lies, mm.
func (e Edge) distance(p orb.Point) (mm float64, ok bool) {
	for i := 1; i < len(e.Line); i++ {
		a, b := e.Line[i-1], e.Line[i]
		first, second, whole := planar.Distance(a, p), planar.Distance(p, b), planar.Distance(a, b)
		if first+second <= whole+1e-6 {
			return mm + first, true
		}
		mm += whole
	}
	return 0, false
}
