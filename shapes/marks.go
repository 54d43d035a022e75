package shapes

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// Marks returns the shares of a side's finished length at which its pieces bear
// notches, and those at which something else marks the place: a seam or a fold between
// its edges, a sewn dart, its ends. Of an edge round the body they count from the
// centre back.
func (s JoinSide) Marks(pieces []Piece) (notches, seams []float64, err error) {
	edges, err := s.find(pieces)
	if err != nil {
		return nil, nil, err
	}
	_, finished, err := s.Measure(pieces)
	if err != nil {
		return nil, nil, err
	}
	share := func(cut float64) float64 { return s.share(s.Treatment.onFinished(cut, finished), finished) }
	start := 0.0
	for _, e := range edges {
		length := e.edge.Length()
		for i := range max(e.Copies, 1) {
			seams = append(seams, share(start), share(start+length))
			for _, n := range e.piece.Notches {
				at, ok := e.edge.Along(n.At)
				if !ok || n.Edge != e.Edge || e.Copies > 1 && !n.On(i) || ofDart(at, e.piece.mouths(e.edge.Name)) {
					continue
				}
				if e.Reversed {
					at = length - at
				}
				notches = append(notches, share(start+at))
			}
			for _, m := range e.piece.mouths(e.edge.Name) {
				if e.Reversed {
					m.From = length - m.From - m.Width
				}
				seams = append(seams, share(start+m.From))
			}
			start += length
		}
	}
	return notches, seams, nil
}

// ofDart says whether a notch at a distance along an edge is the foot of a dart's leg.
func ofDart(at float64, darts []Mouth) bool {
	return slices.ContainsFunc(darts, func(m Mouth) bool {
		return math.Abs(at-m.From) < atSeam ||
			math.Abs(at-m.From-m.Width) < atSeam
	})
}

// share turns a finished distance from the start into a share of the way round.
func (s JoinSide) share(at, finished float64) float64 {
	of := (at + s.Open/2) / (finished + s.Open)
	if s.FromFront {
		of = math.Mod(of+0.5, 1)
	}
	return of
}

// onFinished is the finished distance of a place on the cut side: the least that
// OnCut brings there or beyond, and a little further, so that it comes back there once it
// has been rounded.
func (t Treatment) onFinished(cut, whole float64) float64 {
	low, high := 0.0, whole
	for range 60 {
		if middle := (low + high) / 2; t.OnCut(middle, whole) < cut {
			low = middle
		} else {
			high = middle
		}
	}
	return min(high+onMark/2, whole)
}

// MatchSides gives both sides of a seam round the body the notches of each other, at
// the same share of the way round. The pieces of each are its own.
func MatchSides(a []Piece, sideA JoinSide, b []Piece, sideB JoinSide) error {
	all, _, err := sideA.Marks(a)
	if err != nil {
		return err
	}
	more, _, err := sideB.Marks(b)
	if err != nil {
		return err
	}
	all = append(all, more...)
	if err := sideA.notchShares(a, all); err != nil {
		return err
	}
	return sideB.notchShares(b, all)
}

// notchShares sets notches at shares of the way round, but for its start and its end,
// where the side is open.
func (s JoinSide) notchShares(pieces []Piece, shares []float64) error {
	_, finished, err := s.Measure(pieces)
	if err != nil {
		return err
	}
	var at []float64
	for _, of := range shares {
		if s.FromFront {
			of = math.Mod(of+0.5, 1)
		}
		if d := of*(finished+s.Open) - s.Open/2; d > atSeam && d < finished-atSeam {
			at = append(at, d)
		}
	}
	return s.Notch(pieces, at)
}

// Along returns how far along the edge a point of its line lies, mm.
func (e Edge) Along(p orb.Point) (mm float64, ok bool) {
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
