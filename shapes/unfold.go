package shapes

import (
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
	whole.Cut = unfoldRing(p.Cut, cutFold)
	whole.Seam = unfoldRing(p.Seam, foldY)
	whole.Notches = slices.Clone(p.Notches)
	for _, n := range p.Notches {
		n.At[1] = 2*foldY - n.At[1]
		n.Outward[1] = -n.Outward[1]
		n.Edge = whole.mirrorName(n.Edge)
		whole.Notches = append(whole.Notches, n)
	}
	whole.Inside = slices.Clone(p.Inside)
	for _, l := range p.Inside {
		whole.Inside = append(whole.Inside, mirrorLine(l, foldY))
	}
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
		e.Line = mirrorLine(e.Line, foldY)
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

// mirrorLine returns the mirror image of a line about the level y, end to start.
func mirrorLine(line orb.LineString, y float64) orb.LineString {
	out := make(orb.LineString, len(line))
	for i, v := range line {
		out[len(line)-1-i] = orb.Point{v[0], 2*y - v[1]}
	}
	return out
}

// unfoldRing joins a ring that lies on one side of the level y, one of its edges
// on it, to its mirror image.
func unfoldRing(half orb.Ring, y float64) orb.Ring {
	n := len(half) - 1
	start := slices.IndexFunc(half, func(v orb.Point) bool { return v[1] == y })
	for i := range n { // the fold runs from half[i] to half[i+1]
		if half[i][1] == y && half[i+1][1] == y {
			start = (i + 1) % n
		}
	}
	if start < 0 {
		return half
	}
	var line orb.LineString
	for i := range n {
		line = append(line, half[(start+i)%n])
	}
	line = append(line, mirrorLine(line, y)...)
	return plane.Tidy(append(orb.Ring(line), line[0]))
}

// shift moves a piece so that the corner comes to the origin.
func (p *Piece) shift(corner orb.Point) {
	by := orb.Point{-corner[0], -corner[1]}
	p.move(by)
	for _, line := range []orb.LineString{orb.LineString(p.Cut), orb.LineString(p.Seam)} {
		moveLine(line, by)
	}
	moveLine(p.Grain, by)
	for i, l := range p.Inside {
		p.Inside[i] = slices.Clone(l)
		moveLine(p.Inside[i], by)
	}
	for i := range p.Notches {
		p.Notches[i].At = orb.Point{p.Notches[i].At[0] + by[0], p.Notches[i].At[1] + by[1]}
	}
}

func moveLine(line orb.LineString, by orb.Point) {
	for i, v := range line {
		line[i] = orb.Point{v[0] + by[0], v[1] + by[1]}
	}
}
