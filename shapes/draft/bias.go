package draft

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// biasStrip is a strip cut at 45 degrees to the grain, its ends along the grain:
//
//	     .-------.  - - -
//	    /       /     ^
//	   /  w    /      |  height, across the cloth
//	  / \     /       |  long sides: height sqrt 2
//	 /    \  /        v
//	'-------'  - - -  -
//	w sqrt 2: what it takes of the cloth's length
//
// Strips side by side share their long sides, and sewn end to end along the grain
// they run on straight. Either the ends or the long sides have an allowance, never
// both: the sharp corners stay whole only so.
type biasStrip struct {
	height float64 // cut, across the cloth, mm
	width  float64 // finished, square to the long sides, mm
	long   side    // name aside: kind and allowance of both long sides
	lower  side    // its ends, allowances across the cloth
	upper  side
}

// along is the cloth's length that the strip takes beside another, mm.
func (b biasStrip) along() float64 { return (b.width + 2*b.long.allowance) * math.Sqrt2 }

// piece drafts the strip. As in a panel, its cut size is rounded down to the
// lattice, so that strips as high as the cloth is wide can be laid.
func (b biasStrip) piece(name string) (shapes.Piece, error) {
	a, w, h := b.long.allowance*math.Sqrt2, b.width*math.Sqrt2, b.height-b.upper.allowance
	at := func(x, y float64) orb.Point { return orb.Point{a + x + y, y} }
	low := b.lower.allowance
	edge := func(s side, from, to orb.Point) shapes.Edge {
		return shapes.Edge{Name: s.name, Kind: s.kind, Line: orb.LineString{from, to}, Allowance: s.allowance}
	}
	if h <= low {
		return shapes.Piece{}, say.Errorf("%s: ends of %.6g and %.6g leave nothing of a strip %.6g high", name,
			say.MM(low), say.MM(b.upper.allowance), say.MM(b.height))
	}
	far, near := b.long, b.long
	far.name, near.name = "far edge", "near edge"
	edges := []shapes.Edge{
		edge(b.lower, at(0, low), at(w, low)),
		edge(far, at(w, low), at(w, h)),
		edge(b.upper, at(w, h), at(0, h)),
		edge(near, at(0, h), at(0, low)),
	}
	p, err := shapes.NewPiece(name, edges)
	if err != nil {
		return shapes.Piece{}, err
	}
	across, along := plane.SnapDown(b.height), plane.SnapDown(b.along())
	if across == 0 || along == 0 {
		return shapes.Piece{}, say.Errorf("%s: a strip of %.3g by %.3g is too small to cut", name, say.MM(b.along()),
			say.MM(b.height))
	}
	// its ends are cut straight on, also those that are turned in: strips then lie side by side
	p.CutTo(edges, orb.Ring{{0, 0}, {along, 0}, {along + across, across}, {across, across}, {0, 0}})
	p.Bias = true
	return p, nil
}
