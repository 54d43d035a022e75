package shapes

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb/planar"

	"yardlay/shapes/say"
)

// Join is a seam: edges of some pieces, end to end, sewn to edges of others.
//
//	        start                              end
//	side A  |-------- edge --------|--- edge ---|   less its treatment
//	side B  |---------------- edge -------------|   less its treatment
//	             ^ notch on both, as far from the start
//
// The finished lengths of both sides, what gathers, ease, pleats and darts take
// up taken away, are meant to be the same.
type Join struct {
	Name    string
	Times   int // how often it is sewn: 2 for left and right; 0 means once
	A, B    JoinSide
	Notches []float64 // finished distances from the start, mm; those beyond the end are left out
	Gap     Gap       // left open to turn the work through, closed by hand
	Opened  Opened    // left open from its start, for what closes it
}

// Opened is how far a seam is left open from its start, finished, for what closes it: a zip,
// hooks. The zero value is not at all.
type Opened struct {
	To   float64 // mm
	From string  // what the start is: "top" or "waist"
	For  string  // what closes it
	On   string  // of a seam sewn on both sides: the one that opens, "left" or "right"
}

// Gap is a stretch of a seam, in finished distances from its start, mm. The zero value
// is none.
type Gap struct{ From, To float64 }

// JoinSide is one side of a seam.
type JoinSide struct {
	Edges     []SewnEdge // from the seam's start to its end
	Treatment Treatment  // what takes up the surplus of these edges
	Onto      string     // instead of edges: the line of another part that it is sewn to
	Length    float64    // of that line, mm
	Open      float64    // what an edge round the body leaves open between its end and its start, mm
	FromFront bool       // an edge round the body starts at the centre front, not at the centre back
}

// SewnEdge is an edge of a piece on its way along a seam. Left and right copies
// of a pair are alike here: a centre back seam joins an edge to itself.
type SewnEdge struct {
	Piece, Edge string // their names
	Reversed    bool   // the seam runs from the end of the edge to its start
	Copies      int    // as many copies of it end to end; 0 means one
}

// placed is an edge of a seam with the piece it was found on.
type placed struct {
	SewnEdge
	piece  *Piece
	edge   Edge
	length float64 // of all copies, cut, mm
}

// find looks the edges of a side up among the pieces, by the pieces' names.
func (s JoinSide) find(pieces []Piece) ([]placed, error) {
	if len(s.Edges) == 0 {
		return nil, errors.New("a side has no edges")
	}
	out := make([]placed, len(s.Edges))
	for i, sewn := range s.Edges {
		for j := range pieces {
			if pieces[j].Name == sewn.Piece {
				out[i].piece = &pieces[j]
				break
			}
		}
		if out[i].piece == nil {
			return nil, fmt.Errorf("there is no piece %q", sewn.Piece)
		}
		edge, ok := out[i].piece.Edge(sewn.Edge)
		if !ok {
			return nil, fmt.Errorf("%s has no edge %q", sewn.Piece, sewn.Edge)
		}
		out[i].SewnEdge, out[i].edge = sewn, edge
		out[i].length = edge.Length() * float64(max(sewn.Copies, 1))
	}
	return out, nil
}

// Measure returns the length of a side as cut and finished, mm, its edges found
// among the pieces by name. Errors name pieces or edges that are not there, and
// treatments that leave nothing.
func (s JoinSide) Measure(pieces []Piece) (cut, finished float64, err error) {
	if s.Onto != "" {
		return s.Length, s.Length, nil
	}
	edges, err := s.find(pieces)
	if err != nil {
		return 0, 0, err
	}
	for _, e := range edges {
		cut += e.length
	}
	finished, err = s.Treatment.Finished(cut)
	return cut, finished, err
}

// String lists the edges: "front bodice armhole + back bodice armhole".
func (s JoinSide) String() string {
	if s.Onto != "" {
		return s.Onto
	}
	words := make([]string, len(s.Edges))
	for i, e := range s.Edges {
		words[i] = e.Piece + ": " + e.Edge
		if e.Copies > 1 {
			words[i] = fmt.Sprintf("%d x %s", e.Copies, words[i])
		}
	}
	return strings.Join(words, " + ")
}

// MatchNotches sets the notches of the joins on the pieces they are sewn from,
// found by name: on both sides of a seam as far from its start, measured
// finished. A notch that is there already is not set twice, and none is set where
// one edge of a side ends and the next begins, for there a seam marks the place.
// Errors name the join, and pieces or edges that are not there.
func MatchNotches(pieces []Piece, joins []Join) error {
	for _, j := range joins {
		for _, s := range []JoinSide{j.A, j.B} {
			if err := s.Notch(pieces, j.Notches); err != nil {
				return say.Errorf("seam %q: %w", j.Name, err)
			}
		}
	}
	return nil
}

// atSeam is how near (mm) to the end of an edge a notch would be the seam there.
const atSeam = 0.5

// sameNotch is how near (mm) to one that is there a notch is the same: an arc may be sampled
// a little shorter than the edge that it is sewn to.
const sameNotch = 0.05

// Notch sets notches at finished distances from the start of a side, mm, as MatchNotches
// does.
func (s JoinSide) Notch(pieces []Piece, distances []float64) error {
	if s.Onto != "" {
		return nil
	}
	edges, err := s.find(pieces)
	if err != nil {
		return err
	}
	_, finished, err := s.Measure(pieces)
	if err != nil {
		return err
	}
	for _, d := range distances {
		if d > finished+1e-6 {
			continue
		}
		rest := s.Treatment.OnCut(d, finished)
		for i, e := range edges {
			if rest <= e.length || i == len(edges)-1 {
				if err := e.notch(min(rest, e.length), len(edges) > 1 || e.Copies > 1); err != nil {
					return err
				}
				break
			}
			rest -= e.length
		}
	}
	return nil
}

// notch marks the edge at a cut distance from where the seam comes to it, of several
// copies end to end the one that lies there.
func (e placed) notch(at float64, chained bool) error {
	length, copy, of := e.edge.Length(), 0, 0
	if e.Copies > 1 {
		index := min(math.Floor(at/length), float64(e.Copies-1))
		at, copy, of = at-index*length, int(index)+1, e.Copies
	}
	if chained && (at < atSeam || at > length-atSeam) {
		return nil
	}
	if e.Reversed {
		at = length - at
	}
	at = min(max(at, 0), length)
	point, _ := e.edge.At(at)
	for _, n := range e.piece.Notches {
		if n.Edge == e.edge.Name && planar.Distance(n.At, point) < sameNotch && (n.Of == 0 || n.Copy == copy) {
			return nil
		}
	}
	err := e.piece.AddNotch(e.edge.Name, at)
	if err == nil {
		last := &e.piece.Notches[len(e.piece.Notches)-1]
		last.Copy, last.Of = copy, of
	}
	return err
}
