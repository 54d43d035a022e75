package draft

import (
	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// side is one of the four sides of a rectangular piece.
type side struct {
	name      string
	kind      shapes.EdgeKind
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

// piece drafts the panel. Its cut size is rounded down to the lattice, never to
// the nearest step: two panels of 53 1/2 in, 1391513.6 steps each, lie side by
// side on 107 in of cloth, 2783027.2 steps, only if neither takes a step more than
// its own. What is lost is less than a step of the upper and the far allowance.
func (p panel) piece(name string) (shapes.Piece, error) {
	x0, y0 := p.near.allowance, p.lower.allowance
	x1, y1 := x0+p.along, y0+p.across
	edge := func(s side, a, b orb.Point) shapes.Edge {
		return shapes.Edge{Name: s.name, Kind: s.kind, Line: orb.LineString{a, b}, Allowance: s.allowance}
	}
	piece, err := shapes.NewPiece(name, []shapes.Edge{
		edge(p.lower, orb.Point{x0, y0}, orb.Point{x1, y0}),
		edge(p.far, orb.Point{x1, y0}, orb.Point{x1, y1}),
		edge(p.upper, orb.Point{x1, y1}, orb.Point{x0, y1}),
		edge(p.near, orb.Point{x0, y1}, orb.Point{x0, y0}),
	})
	if err != nil {
		return shapes.Piece{}, err
	}
	along, across := plane.SnapDown(x1+p.far.allowance), plane.SnapDown(y1+p.upper.allowance)
	if along == 0 || across == 0 {
		return shapes.Piece{}, say.Errorf("%s: a cut size of %.3g by %.3g is too small to cut", name,
			say.MM(x1+p.far.allowance), say.MM(y1+p.upper.allowance))
	}
	piece.Cut = orb.Ring{{0, 0}, {along, 0}, {along, across}, {0, across}, {0, 0}}
	return piece, nil
}
