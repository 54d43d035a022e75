package shapes

import "github.com/paulmach/orb"

// side is one of the four sides of a rectangular piece.
type side struct {
	name      string
	kind      EdgeKind
	allowance float64 // mm
}

// panel is a rectangular piece: its finished size and its sides.
//
//	      upper
//	     ________
//	near |      | far     across (y)
//	     |______|
//	      lower
//	     along (x)
type panel struct {
	along, across           float64 // mm
	lower, far, upper, near side
}

// piece drafts the panel. The seam line stands off the origin by the allowances,
// so that a cut size on the lattice comes out as it is and not one step wider.
func (p panel) piece(name string) (Piece, error) {
	x0, y0 := p.near.allowance, p.lower.allowance
	x1, y1 := x0+p.along, y0+p.across
	edge := func(s side, a, b orb.Point) Edge {
		return Edge{Name: s.name, Kind: s.kind, Line: orb.LineString{a, b}, Allowance: s.allowance}
	}
	return NewPiece(name, []Edge{
		edge(p.lower, orb.Point{x0, y0}, orb.Point{x1, y0}),
		edge(p.far, orb.Point{x1, y0}, orb.Point{x1, y1}),
		edge(p.upper, orb.Point{x1, y1}, orb.Point{x0, y1}),
		edge(p.near, orb.Point{x0, y1}, orb.Point{x0, y0}),
	})
}
