package shapes

import "errors"

// ErrNoWaist says that no edge of a draft is sewn at the waist.
var ErrNoWaist = errors.New("no edge is sewn at the waist")

// WaistOf returns the side of a draft in a waist seam: what it says itself, else its
// edges of kind Waist, piece by piece and all copies. It gives ErrNoWaist where there
// are none, as on a skirt cut in one whose waist is a line inside.
func WaistOf(d Drafted) (JoinSide, error) {
	if len(d.Waist.Edges) > 0 {
		return d.Waist, nil
	}
	return waistEdges(d.Pieces)
}

func waistEdges(pieces []Piece) (JoinSide, error) {
	var s JoinSide
	for _, p := range pieces {
		copies := p.Count
		if p.OnFold {
			copies *= 2
		}
		for _, e := range p.Edges {
			if e.Kind == Waist {
				s.Edges = append(s.Edges, SewnEdge{Piece: p.Name, Edge: e.Name, Copies: copies})
			}
		}
	}
	if len(s.Edges) == 0 {
		return JoinSide{}, ErrNoWaist
	}
	return s, nil
}

// along returns the darts of edges, each along its own from its start, along the side
// that the edges make up end to end.
func along(edges []placed, darts [][]Mouth) []Mouth {
	var all []Mouth
	start := 0.0
	for i, e := range edges {
		for _, d := range darts[i] {
			if e.Reversed {
				d.From = e.length - d.From - d.Width
			}
			all = append(all, Mouth{start + d.From, d.Width})
		}
		start += e.length
	}
	return all
}
