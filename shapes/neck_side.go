package shapes

// neckAround is the neck from one side of the front edge to the other, darts folded.
func (h Hood) neckAround(pieces []Piece) (JoinSide, error) {
	neck := []SewnEdge{{Piece: pieces[0].Name, Edge: neckName}}
	s := JoinSide{Edges: thereAndBack(neck), FromFront: true}
	if len(pieces) > 1 {
		s.Edges = thereAndBack(neck, SewnEdge{Piece: pieces[1].Name, Edge: neckName})
	}
	return s, s.FoldDarts(pieces)
}

// neckAround is the neck round the body from the centre back, with the ease pleat
// where there is one.
func (b BodiceBlock) neckAround() JoinSide {
	s := JoinSide{Edges: thereAndBack([]SewnEdge{{Piece: blockBack, Edge: neckName}, {Piece: blockFront, Edge: neckName}})}
	if b.EasePleat > 0 {
		s.Treatment.Pleats, s.Treatment.PleatDepth = 1, b.EasePleat
	}
	return s
}

// pinned tells marks along a side of a block that its ease pleat lies at centre back.
func (b BodiceBlock) pinned(s JoinSide) JoinSide {
	if b.EasePleat > 0 {
		s.Treatment.Pleats, s.Treatment.PleatDepth = 0, 0
		s.Treatment.Lap, s.Treatment.Laps = b.EasePleat, []Mouth{{0, b.EasePleat}}
	}
	return s
}
