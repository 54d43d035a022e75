package shapes

// NeckSide returns the neck from one front edge to the other, darts folded.
func (c Cape) NeckSide() (JoinSide, error) {
	w, err := c.wrap()
	if err != nil {
		return JoinSide{}, err
	}
	pieces, err := c.Draft()
	if err != nil {
		return JoinSide{}, err
	}
	s := JoinSide{Edges: w.innerAround(), FromFront: true}
	return s, s.foldDarts(pieces)
}

// NeckSide returns the neck from one side of the front edge to the other, darts folded.
func (h Hood) NeckSide() (JoinSide, error) {
	pieces, err := h.Draft()
	if err != nil {
		return JoinSide{}, err
	}
	return h.neckAround(pieces)
}

func (h Hood) neckAround(pieces []Piece) (JoinSide, error) {
	neck := []SewnEdge{{Piece: pieces[0].Name, Edge: neckName}}
	s := JoinSide{Edges: thereAndBack(neck), FromFront: true}
	if len(pieces) > 1 {
		s.Edges = thereAndBack(neck, SewnEdge{Piece: pieces[1].Name, Edge: neckName})
	}
	return s, s.foldDarts(pieces)
}

// NeckSide returns the neck round the body from the centre back, with the ease pleat
// where there is one.
func (b BodiceBlock) NeckSide() (JoinSide, error) {
	if _, err := b.Draft(); err != nil {
		return JoinSide{}, err
	}
	s := b.neckAround()
	if b.EasePleat > 0 {
		s.Treatment.Pleats, s.Treatment.PleatDepth = 1, b.EasePleat
	}
	return s, nil
}

func (b BodiceBlock) neckAround() JoinSide {
	return JoinSide{Edges: thereAndBack([]SewnEdge{{Piece: blockBack, Edge: neckName}, {Piece: blockFront, Edge: neckName}})}
}

// pinned tells marks along a side of a block that its ease pleat lies at centre back.
func (b BodiceBlock) pinned(s JoinSide) JoinSide {
	if b.EasePleat > 0 {
		s.Treatment.Pleats, s.Treatment.PleatDepth = 0, 0
		s.Treatment.Lap, s.Treatment.Laps = b.EasePleat, []Mouth{{0, b.EasePleat}}
	}
	return s
}
