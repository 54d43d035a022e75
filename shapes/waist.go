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

// waistAround is the waist round the body from the centre back with its darts, and the
// ease pleat where there is one, at centre back.
func (b BodiceBlock) waistAround(pieces []Piece, front, back blockHalf) (JoinSide, error) {
	mouths := func(mouth Mouth) []Mouth {
		if mouth.Width > 0 {
			return []Mouth{mouth}
		}
		return nil
	}
	s := JoinSide{Edges: thereAndBack([]SewnEdge{
		{Piece: blockBack, Edge: "waist", Reversed: true}, {Piece: blockFront, Edge: "waist", Reversed: true},
	})}
	edges, err := s.find(pieces)
	if err != nil {
		return JoinSide{}, err
	}
	ahead, behind := mouths(front.waistMouth(false)), mouths(back.waistMouth(true))
	s.Treatment.Darts = along(edges, [][]Mouth{behind, ahead, ahead, behind})
	if b.EasePleat > 0 {
		s.Treatment.Pleats, s.Treatment.PleatDepth = 1, b.EasePleat
	}
	return s, nil
}

// around strings the waists of the petals; half of an overlap lies at the start, half
// at the end.
func (p Petals) around(piece Piece) JoinSide {
	waist, _ := piece.Edge("waist")
	s := JoinSide{Edges: []SewnEdge{{Piece: piece.Name, Edge: "waist", Copies: p.Count, Reversed: true}}}
	if p.Overlap == 0 {
		return s
	}
	s.Treatment = lapAtEnds(p.Overlap / 2)
	for i := 1; i < p.Count; i++ {
		s.Treatment.Laps = append(s.Treatment.Laps, Mouth{float64(i)*waist.Length() - p.Overlap/2, p.Overlap})
	}
	return s
}
