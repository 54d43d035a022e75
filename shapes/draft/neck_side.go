package draft

import "yardlay/shapes"

// neckAround is the neck from one side of the front edge to the other, darts folded.
func (h Hood) neckAround(pieces []shapes.Piece) (shapes.JoinSide, error) {
	neck := []shapes.SewnEdge{along(pieces[0].Name, neckName)}
	s := shapes.JoinSide{Edges: thereAndBack(neck), FromFront: true}
	if len(pieces) > 1 {
		s.Edges = thereAndBack(neck, along(pieces[1].Name, neckName))
	}
	return s, s.FoldDarts(pieces)
}

// neckAround is the neck round the body from the centre back, with the ease pleat
// where there is one.
func (b BodiceBlock) neckAround() shapes.JoinSide {
	s := shapes.JoinSide{Edges: thereAndBack([]shapes.SewnEdge{along(blockBack, neckName), along(blockFront, neckName)})}
	if b.EasePleat > 0 {
		s.Treatment.Pleats, s.Treatment.PleatDepth = 1, b.EasePleat
	}
	return s
}

// pinned tells marks along a side of a block that its ease pleat lies at centre back.
func (b BodiceBlock) pinned(s shapes.JoinSide) shapes.JoinSide {
	if b.EasePleat > 0 {
		s.Treatment.Pleats, s.Treatment.PleatDepth = 0, 0
		s.Treatment.Lap, s.Treatment.Laps = b.EasePleat, []shapes.Mouth{{Width: b.EasePleat}}
	}
	return s
}
