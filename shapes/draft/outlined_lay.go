package draft

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
	"yardlay/shapes/outline"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// squareWithin is how far a line may run off the page over its length and still be meant to
// be square to it, mm: a step of a coordinate as files write it.
const squareWithin = 0.02

// foldOffGrain is how far a fold may lie off the grain, degrees: what is drawn by hand is no
// nearer.
const foldOffGrain = 1.0

// laidAlong turns a shape so that its grain lies along x.
func laidAlong(s outline.Shape, grain *float64) (outline.Shape, error) {
	turn := 0.
	switch {
	case grain != nil:
		turn = *grain
	case len(s.Grain) == 2:
		turn = heading(s.Grain)
	}
	if s.Fold >= 0 {
		fold := heading(s.Edges[s.Fold].Line)
		known := grain != nil || len(s.Grain) == 2
		if off := math.Abs(math.Remainder(fold-turn, 180)); known && off > foldOffGrain {
			return s, say.Errorf("its fold lies %.1f degrees off the grain, and can lie on no fold of the cloth", off).
				Hint("draw both alike, or take the one away that is not meant")
		}
		if turn = fold; grain != nil && math.Abs(math.Remainder(fold-*grain, 360)) > 90 {
			turn += 180
		}
	}
	if turn == 0 {
		return s, nil
	}
	pose := plane.Pose{Turn: -turn}
	s = mapped(s, pose.ApplyPoint)
	if s.Fold >= 0 {
		levelled(s)
	}
	return s, nil
}

// heading is the direction of a line, degrees counter-clockwise from x, the way that is above
// -90 and to 90.
func heading(line orb.LineString) float64 {
	a, b := line[0], line[len(line)-1]
	dx, dy := b[0]-a[0], b[1]-a[1]
	switch {
	case math.Abs(dy) <= squareWithin:
		return 0
	case math.Abs(dx) <= squareWithin:
		return 90
	}
	angle := math.Atan2(dy, dx) * 180 / math.Pi
	if angle > 90 {
		return angle - 180
	} else if angle <= -90 {
		return angle + 180
	}
	return angle
}

// levelled puts both ends of a fold on one level, to the last bit.
func levelled(s outline.Shape) {
	n := len(s.Edges)
	fold, before, next := s.Edges[s.Fold].Line, s.Edges[(s.Fold+n-1)%n].Line, s.Edges[(s.Fold+1)%n].Line
	fold[1][1] = fold[0][1]
	next[0] = fold[1]
	before[len(before)-1] = fold[0]
}

// mapped returns a shape with all its points mapped.
func mapped(s outline.Shape, to func(orb.Point) orb.Point) outline.Shape {
	line := func(l orb.LineString) orb.LineString {
		out := make(orb.LineString, len(l))
		for i, p := range l {
			out[i] = to(p)
		}
		return out
	}
	s.Edges, s.Darts, s.Inside = slices.Clone(s.Edges), slices.Clone(s.Darts), slices.Clone(s.Inside)
	for i := range s.Edges {
		s.Edges[i].Line = line(s.Edges[i].Line)
	}
	for i := range s.Darts {
		s.Darts[i].Apex = to(s.Darts[i].Apex)
	}
	for i := range s.Inside {
		s.Inside[i].Line = line(s.Inside[i].Line)
	}
	s.Grain = line(s.Grain)
	if s.Cut != nil {
		s.Cut = orb.Ring(line(orb.LineString(s.Cut)))
	}
	return s
}

// cornered moves a shape with a cut line so that the least corner of that is the origin, and
// puts that line on the lattice, and on the fold where it is drawn along it.
func cornered(s outline.Shape) (outline.Shape, error) {
	corner := plane.SnapPoint(plane.Bounds(s.Cut).Min)
	s = mapped(s, func(p orb.Point) orb.Point { return orb.Point{p[0] - corner[0], p[1] - corner[1]} })
	s.Cut = plane.SnapRing(s.Cut)
	if s.Fold >= 0 {
		line := s.Edges[s.Fold].Line
		level, inward := plane.Snap(line[0][1]), 1.
		if line[1][0] < line[0][0] {
			inward = -1
		}
		for i := range s.Cut {
			off := (s.Cut[i][1] - level) * inward
			if math.Abs(off) <= onTheFold {
				s.Cut[i][1] = level
			} else if off < 0 {
				return s, fmt.Errorf("the cut line reaches over the fold at %s", plane.Place(s.Cut[i]))
			}
		}
	}
	s.Cut = plane.Tidy(s.Cut)
	if err := plane.CheckSimple(s.Cut); err != nil {
		return s, say.Errorf("cut line: %w", err)
	}
	return s, nil
}

// onTheFold is how far off the fold a cut line may be drawn along it, mm.
const onTheFold = 0.5

// cutAsDrawn cuts a piece along the line that its shape has besides the seam line, and says
// of each edge how far outside it that lies as a rule.
func cutAsDrawn(p *shapes.Piece, given []shapes.Edge, drawn outline.Shape) {
	p.CutTo(given, drawn.Cut)
	for i := range p.Edges {
		if i != drawn.Fold {
			p.Edges[i].Allowance = usualDistance(p.Edges[i].Line, orb.LineString(drawn.Cut))
		}
	}
}

// usualDistance is the median of the distances from points of an edge to a line, to 0.1 mm.
func usualDistance(edge, line orb.LineString) float64 {
	const asked = 9
	e := shapes.Edge{Line: edge}
	length := e.Length()
	far := make([]float64, asked)
	for k := range far {
		at, _ := e.At(length * (float64(k) + .5) / asked)
		far[k] = planar.DistanceFrom(line, at)
	}
	slices.Sort(far)
	return math.Round(far[asked/2]*10) / 10
}
