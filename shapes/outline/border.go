package outline

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// border is the outline of a shape, for finding places on it.
type border struct {
	segments []segment
	bound    orb.Bound
}

type segment struct {
	a, b  orb.Point
	edge  int
	start float64 // along the edge, mm
}

func newBorder(edges []Edge) border {
	var b border
	for i, e := range edges {
		start := 0.
		for k := 1; k < len(e.Line); k++ {
			p, q := e.Line[k-1], e.Line[k]
			b.segments = append(b.segments, segment{p, q, i, start})
			start += math.Hypot(q[0]-p[0], q[1]-p[1])
		}
		if i == 0 {
			b.bound = e.Line.Bound()
		}
		b.bound = b.bound.Union(e.Line.Bound())
	}
	return b
}

// nearest is the place on the border that is nearest to a point, and how far it is.
func (b border) nearest(p orb.Point) (at NotchAt, far float64) {
	far = math.Inf(1)
	for _, s := range b.segments {
		if share, d := onto(p, s.a, s.b); d < far {
			far = d
			at = NotchAt{s.edge, s.start + share*math.Hypot(s.b[0]-s.a[0], s.b[1]-s.a[1])}
		}
	}
	return at, far
}

// crossedBy is the place at which the border is crossed first on the way from p to q.
func (b border) crossedBy(p, q orb.Point) (at NotchAt, ok bool) {
	least := math.Inf(1)
	dx, dy := q[0]-p[0], q[1]-p[1]
	for _, s := range b.segments {
		ex, ey := s.b[0]-s.a[0], s.b[1]-s.a[1]
		det := dx*ey - dy*ex
		if det == 0 {
			continue
		}
		fx, fy := s.a[0]-p[0], s.a[1]-p[1]
		t, u := (fx*ey-fy*ex)/det, (fx*dy-fy*dx)/det
		if u >= 0 && u <= 1 && t >= 0 && t <= 1 && t < least {
			least, ok = t, true
			at = NotchAt{s.edge, s.start + u*math.Hypot(ex, ey)}
		}
	}
	return at, ok
}

// point is where a place of the border lies.
func pointAt(edges []Edge, at NotchAt) orb.Point {
	line, rest := edges[at.Edge].Line, at.At
	for k := 1; k < len(line); k++ {
		step := math.Hypot(line[k][0]-line[k-1][0], line[k][1]-line[k-1][1])
		if rest <= step && step > 0 {
			return between(line[k-1], line[k], rest/step)
		}
		rest -= step
	}
	return line[len(line)-1]
}

// splitAt cuts an edge at two of its points, so that the stretch between them is an edge of its
// own, and returns which.
func splitAt(edges []Edge, edge, from, to int) ([]Edge, int) {
	e := edges[edge]
	var parts []Edge
	middle := 0
	add := func(i, j int) {
		if j > i {
			part := e
			part.Line = slices.Clone(e.Line[i : j+1])
			parts = append(parts, part)
		}
	}
	add(0, from)
	middle = len(parts)
	add(from, to)
	parts[middle].Line = orb.LineString{e.Line[from], e.Line[to]}
	add(to, len(e.Line)-1)
	return slices.Replace(edges, edge, edge+1, parts...), edge + middle
}
