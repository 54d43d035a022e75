package shapes

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Unfold returns the whole of a piece drawn as one half on a fold: what is cut
// from an open lay. The fold is opened along its edge,
//
//	.-------------.              .-------------.
//	|    half     |              |             |
//	'- - fold - - '      ->      |    whole    |
//	                             |             |
//	                             '-------------'
//
// and an edge that ended on it goes on into its mirror image; the other edges
// stand twice, their mirror images named "... mirrored". A piece that is not on
// a fold comes back as it is.
func (p Piece) Unfold() Piece {
	at := slices.IndexFunc(p.Edges, func(e Edge) bool { return e.Kind == Fold })
	if !p.OnFold || at < 0 {
		return p
	}
	foldY := p.Edges[at].Line[0][1]
	half := slices.Concat(p.Edges[at+1:], p.Edges[:at]) // from fold end round to fold start
	whole := p
	whole.OnFold = false
	whole.Edges = unfoldEdges(half, foldY)
	cutFold := plane.Snap(foldY)
	whole.Cut = plane.Unfold(p.Cut, cutFold)
	whole.Seam = plane.Unfold(p.Seam, foldY)
	whole.Notches = slices.Clone(p.Notches)
	for _, n := range p.Notches {
		if math.Abs(n.At[1]-foldY) < weld {
			continue // on the fold it is its own mirror image
		}
		n.At[1] = 2*foldY - n.At[1]
		n.Outward[1] = -n.Outward[1]
		n.Edge = whole.mirrorName(n.Edge)
		whole.Notches = append(whole.Notches, n)
	}
	whole.Inside = slices.Clone(p.Inside)
	for _, l := range p.Inside {
		whole.Inside = append(whole.Inside, plane.MirrorLine(l, foldY))
	}
	whole.Names = slices.Clone(p.Names) // mirror images have none
	whole.Darts = nil                   // edges are others; the lines inside stay
	whole.Grain = grainArrow(whole.Seam)
	whole.shift(plane.Bounds(whole.Cut).Min)
	return whole
}

// mirrored is what the name of an edge's mirror image ends in.
const mirrored = " mirrored"

// mirrorName names the mirror image of an edge: an edge that runs across the
// fold is its own.
func (p Piece) mirrorName(edge string) string {
	if _, ok := p.Edge(edge + mirrored); ok {
		return edge + mirrored
	}
	return edge
}

// unfoldEdges strings a half's edges and their mirror images into a whole. The
// half's first edge starts on the fold and its last one ends there.
func unfoldEdges(half []Edge, foldY float64) []Edge {
	whole := cloneEdges(half)
	for i := len(half) - 1; i >= 0; i-- {
		e := half[i]
		e.Line = plane.MirrorLine(e.Line, foldY)
		last := &whole[len(whole)-1]
		switch {
		case i == len(half)-1:
			last.Line = append(last.Line, e.Line[1:]...)
		case i == 0:
			whole[0].Line = append(e.Line, whole[0].Line[1:]...)
		default:
			e.Name += mirrored
			whole = append(whole, e)
		}
	}
	return whole
}

// shift moves a piece so that the corner comes to the origin.
func (p *Piece) shift(corner orb.Point) {
	by := orb.Point{-corner[0], -corner[1]}
	p.move(by)
	for _, line := range []orb.LineString{orb.LineString(p.Cut), orb.LineString(p.Seam)} {
		plane.MoveLine(line, by)
	}
	plane.MoveLine(p.Grain, by)
	for i, l := range p.Inside {
		p.Inside[i] = slices.Clone(l)
		plane.MoveLine(p.Inside[i], by)
	}
	for i := range p.Notches {
		p.Notches[i].At = orb.Point{p.Notches[i].At[0] + by[0], p.Notches[i].At[1] + by[1]}
	}
}
