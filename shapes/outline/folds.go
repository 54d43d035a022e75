package outline

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// onFold is how far an edge may lie from the line of fold along it, mm.
const onFold = 0.5

// folded finds the edge of a shape that lies on a line of fold.
func (a *assembler) folded(shape int, items []item) {
	s := &a.Shapes[shape]
	for _, it := range items {
		r := &a.Roles[it.line]
		dashed := r.Role == Unnamed && it.Dashed
		if r.Role != Fold && !dashed || !straight(it.path, onFold) {
			continue
		}
		if s.Fold >= 0 { // the outline was closed along it
			if r.Role == Fold && !alongEdge(s.Edges[s.Fold].Line, it.path) {
				s.Inside = append(s.Inside, Inner{Line: it.path, Place: it.place, Marks: it.Marks})
			}
			continue
		}
		edge, from, to := stretchOn(s.Edges, it.path, .5)
		switch {
		case edge >= 0:
			if dashed {
				r.Role, r.Because = Fold, "it is dashed and lies along the outline"
				s.Because = append(s.Because, "An edge is taken to lie on a fold: the line along it is dashed.")
			}
			s.Edges, s.Fold = splitAt(s.Edges, edge, from, to)
			for k := range s.Edges {
				s.Edges[k].Name = ownName(s.Edges[k].Marks)
			}
			nameEdges(s.Edges, s.Fold)
			a.borders[shape] = newBorder(s.Edges)
		case r.Role == Fold:
			s.Inside = append(s.Inside, Inner{Line: it.path, Place: it.place, Marks: it.Marks})
			a.fault(Fault{Kind: Doubtful, What: say.Textf("a line of fold lies along no straight edge: it is marked inside"),
				At: it.path[0], Place: it.place, Shape: shape + 1})
		}
	}
}

// alongEdge says whether a line lies along an edge.
func alongEdge(edge, line orb.LineString) bool {
	return onLine(line[0], edge) && onLine(line[len(line)-1], edge)
}

// onLine says whether a point lies on the straight line through the ends of another.
func onLine(p orb.Point, line orb.LineString) bool {
	a, b := line[0], line[len(line)-1]
	dx, dy := b[0]-a[0], b[1]-a[1]
	return math.Abs((p[0]-a[0])*dy-(p[1]-a[1])*dx) <= onFold*math.Hypot(dx, dy)
}

// stretchOn finds the longest stretch of an edge that lies on a straight line, and beside at
// least so large a share of it: the edge and its first and last point; -1 for none.
func stretchOn(edges []Edge, line orb.LineString, least float64) (edge, from, to int) {
	edge = -1
	a, b := line[0], line[len(line)-1]
	whole := math.Hypot(b[0]-a[0], b[1]-a[1])
	along := func(p orb.Point) float64 { return ((p[0]-a[0])*(b[0]-a[0]) + (p[1]-a[1])*(b[1]-a[1])) / whole }
	longest := whole * least
	for k, e := range edges {
		for i := 0; i < len(e.Line)-1; {
			j := i
			for j+1 < len(e.Line) && onLine(e.Line[j], line) && onLine(e.Line[j+1], line) {
				j++
			}
			if j > i {
				low, high := along(e.Line[i]), along(e.Line[j])
				if shared := min(max(low, high), whole) - max(min(low, high), 0); shared >= longest {
					longest, edge, from, to = shared, k, i, j
				}
			}
			i = max(j, i+1)
		}
	}
	return edge, from, to
}

// Unfolded returns the shape with no edge on a fold: the one that was is sewn.
func (s Shape) Unfolded() Shape {
	s.Fold = -1
	return s
}

// FoldedAt returns the shape with an edge on a fold: the longest straight one along a side of
// it as it is drawn, "left", "right", "top" or "bottom". Without one there that spans a
// quarter of the side it is an error.
func (s Shape) FoldedAt(side string) (Shape, error) {
	b := plane.Bounds(s.Ring())
	low, high := b.Min, b.Max
	line := map[string]orb.LineString{
		"left": {low, {low[0], high[1]}}, "right": {{high[0], low[1]}, high},
		"bottom": {low, {high[0], low[1]}}, "top": {{low[0], high[1]}, high},
	}[side]
	edge, from, to := stretchOn(s.Edges, line, .25)
	if edge < 0 {
		return s, say.Errorf("%s has no straight edge along its %s that could lie on a fold", s.Name, side).
			Hint("draw that edge straight, up or level, or give the line of fold the role fold")
	}
	notches, darts := slices.Clone(s.Notches), slices.Clone(s.Darts)
	old := s.Edges
	s.Edges, s.Fold = splitAt(slices.Clone(s.Edges), edge, from, to)
	for k := range s.Edges {
		s.Edges[k].Name = ownName(s.Edges[k].Marks)
	}
	nameEdges(s.Edges, s.Fold)
	if len(s.Edges) != len(old) { // what stands on edges stands on others now
		after := newBorder(s.Edges)
		for i, n := range notches {
			notches[i], _ = after.nearest(pointAt(old, n))
		}
		for i, d := range darts {
			a, _ := after.nearest(pointAt(old, NotchAt{d.Edge, d.From}))
			b, _ := after.nearest(pointAt(old, NotchAt{d.Edge, d.To}))
			darts[i].Edge, darts[i].From, darts[i].To = a.Edge, a.At, b.At
		}
	}
	s.Notches, s.Darts = notches, darts
	return s, nil
}
