package bound

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// How finely an outline is looked at for its convex parts.
const (
	partCorners = 40   // corners that an outline keeps at the most, where it can lose others
	mostCorners = 90   // that an outline is looked at with; of more it has one part at the most
	mostParts   = 6    // of an outline
	partSamples = 200  // points of an outline, by which is told what parts cover
	coveredPart = 0.01 // what a point counts that lies in another part
	leastAdded  = 1e-4
	fewSamples  = 1 // what a part must gain
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
		g.cover(part)
	}
	for len(parts) < mostParts {
		part := g.grow(g.start())
		if part == nil || slices.ContainsFunc(parts, func(p orb.Ring) bool { return slices.Equal(p, part) }) {
			break
		}
		parts = append(parts, part)
		g.cover(part)
	}
	return parts
}

// grower finds convex polygons inside a ring, their corners among some points of its boundary.
type grower struct {
	ring    orb.Ring
	points  []orb.Point // the corners of the ring in their order, then others on its sides
	sees    [][]bool    // whether the segment between two of them lies inside
	samples []orb.Point // of the ring
	counts  []float64   // what each is worth to cover
}

func newGrower(ring orb.Ring) *grower {
	g := &grower{ring: ring, points: slices.Clone(ring[:len(ring)-1])}
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
	box := plane.Bounds(ring)
	size := math.Sqrt(plane.Area(ring) / partSamples)
	for x := box.Min[0] + size/2; x < box.Max[0]; x += size {
		for y := box.Min[1] + size/2; y < box.Max[1]; y += size {
			if v := (orb.Point{x, y}); within(ring, v) {
				g.samples, g.counts = append(g.samples, v), append(g.counts, 1)
			}
		}
	}
	return g
}

// cover lets the samples in a part count for less.
func (g *grower) cover(part orb.Ring) {
	for k, v := range g.samples {
		if within(part, v) {
			g.counts[k] = coveredPart
		}
	}
}

// gain is what a triangle has of samples that are not left out.
func (g *grower) gain(a, b, c orb.Point, out []bool) float64 {
	sum := 0.0
	left := func(a, b, v orb.Point) bool { return (b[0]-a[0])*(v[1]-a[1])-(b[1]-a[1])*(v[0]-a[0]) >= 0 }
	for k, v := range g.samples {
		if !out[k] && left(a, b, v) && left(b, c, v) && left(c, a, v) {
			sum += g.counts[k]
		}
	}
	return sum
}

// start returns the triangle over a side of the ring that gains most.
func (g *grower) start() []int {
	var best []int
	most := 0.0
	none := make([]bool, len(g.samples))
	n := len(g.ring) - 1
	for i := range n {
		for x := range g.points {
			if with := g.with([]int{i, (i + 1) % n}, x); with != nil {
				if gain := g.gain(g.points[i], g.points[(i+1)%n], g.points[x], none); gain > most {
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
	within := make([]bool, len(g.samples))
	all := g.gain(g.points[part[0]], g.points[part[1]], g.points[part[2]], within)
	g.mark(part[0], part[1], part[2], within)
	for {
		var best []int
		most := 0.0
		for x := range g.points {
			if with := g.with(part, x); with != nil {
				if gain := g.gain(g.points[with[len(with)-1]], g.points[x], g.points[with[1]], within); gain > most {
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
		g.mark(best[len(best)-1], best[0], best[1], within)
		part, all = best, all+most
	}
	if all < fewSamples {
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
			if a := triangle(g.points[with[len(with)-1]], g.points[x], g.points[with[1]]); a > most {
				best, most = with, a
			}
		}
	}
	return best
}

// mark marks the samples in a triangle.
func (g *grower) mark(a, b, c int, in []bool) {
	p, q, r := g.points[a], g.points[b], g.points[c]
	left := func(a, b, v orb.Point) bool { return (b[0]-a[0])*(v[1]-a[1])-(b[1]-a[1])*(v[0]-a[0]) >= 0 }
	for k, v := range g.samples {
		in[k] = in[k] || left(p, q, v) && left(q, r, v) && left(r, p, v)
	}
}

// with returns a convex polygon, counter-clockwise, with point x taken to it; nil where the point lies within
// it, or the new sides do not lie in the ring.
func (g *grower) with(part []int, x int) []int {
	if slices.Contains(part, x) {
		return nil
	}
	n := len(part)
	outside := func(k int) bool { // of side k
		a, b, v := g.points[part[k]], g.points[part[(k+1)%n]], g.points[x]
		return (b[0]-a[0])*(v[1]-a[1])-(b[1]-a[1])*(v[0]-a[0]) < 0
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
