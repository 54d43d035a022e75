package shapes

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
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
	join   float64 // allowance of both ends, mm
}

// along is the cloth's length that the strip takes beside another, mm.
func (b biasStrip) along() float64 { return (b.width + 2*b.long.allowance) * math.Sqrt2 }

// piece drafts the strip. As in a panel, its cut size is rounded down to the
// lattice, so that strips as high as the cloth is wide can be laid.
func (b biasStrip) piece(name string) (Piece, error) {
	a, w, h := b.long.allowance*math.Sqrt2, b.width*math.Sqrt2, b.height-b.join
	at := func(x, y float64) orb.Point { return orb.Point{a + x + y, y} }
	edge := func(name string, kind EdgeKind, allowance float64, from, to orb.Point) Edge {
		return Edge{Name: name, Kind: kind, Line: orb.LineString{from, to}, Allowance: allowance}
	}
	if h <= b.join {
		return Piece{}, fmt.Errorf("%s: joins of %.6g mm leave nothing of a strip %.6g mm high", name, b.join, b.height)
	}
	p, err := NewPiece(name, []Edge{
		edge("lower join", Seam, b.join, at(0, b.join), at(w, b.join)),
		edge("far edge", b.long.kind, b.long.allowance, at(w, b.join), at(w, h)),
		edge("upper join", Seam, b.join, at(w, h), at(0, h)),
		edge("near edge", b.long.kind, b.long.allowance, at(0, h), at(0, b.join)),
	})
	if err != nil {
		return Piece{}, err
	}
	across, along := plane.SnapDown(b.height), plane.SnapDown(b.along())
	if across == 0 || along == 0 {
		return Piece{}, fmt.Errorf("%s: a strip of %.3g by %.3g mm is too small to cut", name, b.along(), b.height)
	}
	p.Cut = orb.Ring{{0, 0}, {along, 0}, {along + across, across}, {across, across}, {0, 0}}
	p.Bias = true
	return p, nil
}
