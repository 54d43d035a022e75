package shapes

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// EdgeKind says what becomes of an edge.
type EdgeKind int

// Kinds of edge. A fold is not cut: the piece goes on beyond it as its own
// mirror image, so it has no allowance.
const (
	Seam    EdgeKind = iota // sewn to another edge
	Waist                   // sewn to a waistband, bodice or facing
	Hem                     // turned up, or faced
	Fold                    // on a fold of the cloth
	Opening                 // closed by zip or lacing; takes the seam allowance
	Top                     // gathered or sewn on: the upper edge of ruffles, net, capes
)

func (k EdgeKind) String() string {
	switch k {
	case Seam:
		return "seam"
	case Waist:
		return "waist"
	case Hem:
		return "hem"
	case Fold:
		return "fold"
	case Opening:
		return "opening"
	case Top:
		return "top"
	}
	return fmt.Sprintf("EdgeKind(%d)", int(k))
}

// Edge is one side of a piece. Its line is the finished one; the piece's edges
// follow each other counter-clockwise, each starting where the last ended.
type Edge struct {
	Name      string // unique within the piece
	Kind      EdgeKind
	Line      orb.LineString // seam line, mm, arcs sampled
	Allowance float64        // cut outside the line, mm; 0 on a fold
	Straight  bool           // a hem whose corners run straight on from the seams, not mirrored in it
}

// Finish says what becomes of the cut edge of an allowance.
type Finish int

// Ways to finish an edge.
const (
	Joined Finish = iota // in the seam that it is sewn in
	Turned               // turned up by its allowance and sewn down
	Raw                  // left as it is cut
	Whole                // it is not cut, but lies on a fold
)

func (f Finish) String() string {
	switch f {
	case Joined:
		return "joined"
	case Turned:
		return "turned"
	case Raw:
		return "raw"
	case Whole:
		return "whole"
	}
	return fmt.Sprintf("Finish(%d)", int(f))
}

// Finish returns how the edge is finished. A hem without an allowance has nothing
// to turn up: it is left raw, as that of net is.
func (e Edge) Finish() Finish {
	switch {
	case e.Kind == Fold:
		return Whole
	case e.Kind != Hem:
		return Joined
	case e.Allowance > 0:
		return Turned
	}
	return Raw
}

// Length returns the sewn length of the edge, mm.
func (e Edge) Length() float64 { return plane.Length(e.Line) }

// At returns the point at a distance (mm) along the edge from its start, and the
// unit vector that points out of the piece there.
func (e Edge) At(distance float64) (at, outward orb.Point) {
	rest := distance
	for i := 1; i < len(e.Line); i++ {
		a, b := e.Line[i-1], e.Line[i]
		dx, dy := b[0]-a[0], b[1]-a[1]
		step := math.Hypot(dx, dy)
		if step == 0 {
			continue
		}
		at = orb.Point{a[0] + dx*min(rest/step, 1), a[1] + dy*min(rest/step, 1)}
		outward = orb.Point{dy / step, -dx / step}
		if rest <= step {
			break
		}
		rest -= step
	}
	return at, outward
}

// Allowance is what is cut outside the seam lines, mm.
type Allowance struct{ Seam, Waist, Hem float64 }

// For returns the allowance of an edge of the kind: that of the waist at the top
// too, none on a fold, that of the seams elsewhere.
func (a Allowance) For(kind EdgeKind) float64 {
	switch kind {
	case Waist, Top:
		return a.Waist
	case Hem:
		return a.Hem
	case Fold:
		return 0
	}
	return a.Seam
}

// Check refuses allowances that are negative or not numbers.
func (a Allowance) Check() error {
	for _, v := range []struct {
		name string
		mm   float64
	}{{"seam", a.Seam}, {"waist", a.Waist}, {"hem", a.Hem}} {
		if !(v.mm >= 0) || math.IsInf(v.mm, 0) {
			return say.Errorf("%s allowance is %g, must be 0 or more", v.name, say.MM(v.mm))
		}
	}
	return nil
}
