package draft

import "yardlay/shapes"

// joins returns the seams of a skirt from the centre back to the centre front.
// All run from waist to hem and have their notches at the same depths.
func (s skirt) joins() []shapes.Join {
	var out []shapes.Join
	var before shapes.SewnEdge // front seam of the gore behind
	for _, p := range s.list {
		onFold := s.folded(p)
		upper, lower := s.seams(p, onFold)
		back := against(p.pieceName(), upper.Name)
		front := along(p.pieceName(), lower.Name)
		add := func(name string, times int, a, b shapes.SewnEdge) {
			out = append(out, seamOf(name, times, a, b, s.marks(p.back)...))
		}
		switch {
		case p.wide == s.gores && !onFold:
			add("centre back", 1, back, front)
		case p.back == 0:
			add("centre back", 1, back, back)
		case p.pair || onFold:
			add(before.Piece+" to "+p.pieceName(), 2, before, back)
		default:
			add(before.Piece+" to "+p.pieceName()+", left", 1, before, back)
			add(before.Piece+" to "+p.pieceName()+", right", 1, before, front)
		}
		if p.pair && 2*(p.back+1) == s.gores {
			out = append(out, seamOf("centre front", 1, front, front, s.marks(p.back+1)...))
		}
		before = front
	}
	return out
}

// marks returns the depths of the notches on the seam that lies a number of
// gores from the centre back.
func (s skirt) marks(seam int) []float64 { return seamNotches(seam, (s.gores+3)/4, s.notches...) }

// around strings the waists of a skirt's gores from the centre back round to the
// centre back. Those of the left half run forward as drawn.
func (s skirt) around() shapes.JoinSide {
	var half, middle []shapes.SewnEdge
	for _, p := range s.list {
		edge := along(p.pieceName(), "waist")
		if p.pair || s.onFold {
			half = append(half, edge)
		} else {
			middle = append(middle, edge)
		}
	}
	return shapes.JoinSide{Edges: thereAndBack(half, middle...)}
}
