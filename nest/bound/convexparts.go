package bound

import (
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// How finely an outline is looked at for its convex parts.
const (
	partCorners = 40   // corners that an outline keeps at the most, where it can lose others
	mostCorners = 90   // that it is looked at with; of more it has one part at the most
	mostParts   = 6    // of an outline
	leastAdded  = 1e-4 // of its area: what a corner that gains no sample must add to a part
	leastGained = 1    // in samples: what a part must gain
)

// convexParts returns convex rings inside a ring, which may overlap, so that together they cover much of it.
func convexParts(ring orb.Ring) []orb.Ring {
	ring = thinnedInside(plane.Tidy(ring), partCorners)
	if convex(ring) {
		return []orb.Ring{ring}
	}
	parts := roughPart(ring)
	if len(ring) > mostCorners {
		return parts
	}
	g := newGrower(ring)
	for _, part := range parts {
		g.samples.cover(part)
	}
	for len(parts) < mostParts {
		part := g.grow(g.start())
		if part == nil || slices.ContainsFunc(parts, func(p orb.Ring) bool { return slices.Equal(p, part) }) {
			break
		}
		parts = append(parts, part)
		g.samples.cover(part)
	}
	return parts
}

// grower finds convex polygons inside a ring, their corners among some points of its boundary.
type grower struct {
	ring    orb.Ring
	points  []orb.Point // the corners of the ring in their order, then others on its sides
	sees    [][]bool    // whether the segment between two of them lies inside
	samples samples     // of the ring
}

func newGrower(ring orb.Ring) *grower {
	g := &grower{ring: ring, points: slices.Clone(ring[:len(ring)-1]), samples: newSamples(ring)}
	g.points = append(g.points, sights(ring)...)
	g.sees = make([][]bool, len(g.points))
	for i := range g.sees {
		g.sees[i] = make([]bool, len(g.points))
	}
	for i, a := range g.points {
		for j, b := range g.points[:i] {
			g.sees[i][j] = holds(ring, a, b)
			g.sees[j][i] = g.sees[i][j]
		}
	}
	return g
}

// start returns the triangle over a side of the ring that gains most.
func (g *grower) start() []int {
	var best []int
	most := 0.0
	none := make([]bool, len(g.samples.points))
	n := len(g.ring) - 1
	for i := range n {
		for x := range g.points {
			if with := g.with([]int{i, (i + 1) % n}, x); with != nil {
				if gain := g.samples.gain(g.added(with), none); gain > most {
					best, most = with, gain
				}
			}
		}
	}
	return best
}

// grow takes to a triangle the point that gains most, as long as one does; nil where little is covered.
func (g *grower) grow(part []int) orb.Ring {
	if part == nil {
		return nil
	}
	has := make([]bool, len(g.samples.points))
	all := g.samples.gain(g.added(part), has)
	g.samples.take(g.added(part), has)
	for {
		var best []int
		most := 0.0
		for x := range g.points {
			if with := g.with(part, x); with != nil {
				if gain := g.samples.gain(g.added(with), has); gain > most {
					best, most = with, gain
				}
			}
		}
		if best == nil {
			best = g.widest(part)
		}
		if best == nil {
			break
		}
		g.samples.take(g.added(best), has)
		part, all = best, all+most
	}
	if all < leastGained {
		return nil
	}
	out := make(orb.Ring, 0, len(part)+1)
	for _, k := range part {
		out = append(out, g.points[k])
	}
	return plane.Hull(append(out, out[0]))
}

// widest takes to a polygon the point that adds most to its area; nil where none adds much.
func (g *grower) widest(part []int) []int {
	var best []int
	most := leastAdded * plane.Area(g.ring)
	for x := range g.points {
		if with := g.with(part, x); with != nil {
			if a := triangle(g.added(with)); a > most {
				best, most = with, a
			}
		}
	}
	return best
}

// added is the triangle by which the first corner of a polygon has made it greater.
func (g *grower) added(part []int) [3]orb.Point {
	return [3]orb.Point{g.points[part[len(part)-1]], g.points[part[0]], g.points[part[1]]}
}

// with returns a convex polygon, counter-clockwise, with point x taken to it; nil where the point lies within
// it, or the new sides do not lie in the ring.
func (g *grower) with(part []int, x int) []int {
	if slices.Contains(part, x) {
		return nil
	}
	n := len(part)
	outside := func(k int) bool { // of side k
		return turn(g.points[part[k]], g.points[part[(k+1)%n]], g.points[x]) < 0
	}
	if n == 2 {
		if outside(0) || !g.sees[x][part[0]] || !g.sees[x][part[1]] {
			return nil
		}
		return []int{x, part[0], part[1]}
	}
	first := -1 // side seen from x after one that is not
	for k := range n {
		if outside(k) && !outside((k+n-1)%n) {
			first = k
		}
	}
	if first < 0 {
		return nil
	}
	last := first
	for outside((last + 1) % n) {
		if last = (last + 1) % n; last == first {
			return nil
		}
	}
	a, b := part[first], part[(last+1)%n]
	if !g.sees[a][x] || !g.sees[x][b] {
		return nil
	}
	out := []int{x}
	for k := (last + 1) % n; ; k = (k + 1) % n {
		out = append(out, part[k])
		if k == first {
			return out
		}
	}
}

// sights returns where the sides of a ring that end at a corner turned inward meet it if they go on, and where
// lines along its hull do that touch such a corner.
func sights(ring orb.Ring) []orb.Point {
	n := len(ring) - 1
	var out []orb.Point
	look := func(from orb.Point, dx, dy float64) {
		if p, ok := hit(ring, from, orb.Point{dx, dy}); ok {
			out = append(out, p)
		}
	}
	for i := range n {
		a, v, b := ring[(i+n-1)%n], ring[i], ring[i+1]
		if plane.Orient(a, v, b) >= 0 {
			continue
		}
		look(v, v[0]-a[0], v[1]-a[1])
		look(v, v[0]-b[0], v[1]-b[1])
	}
	hull := plane.Hull(ring)
	for i := 1; i < len(hull); i++ {
		a, b := hull[i-1], hull[i]
		if depth, v := pocket(ring, a, b); depth > 0 {
			look(v, b[0]-a[0], b[1]-a[1])
			look(v, a[0]-b[0], a[1]-b[1])
		}
	}
	return out
}
