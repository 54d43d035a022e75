package bound

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Where a clear distance g is kept between pieces, each may be grown by a disc of
// radius g/2: the grown pieces do not overlap, and lie on a cloth grown by g/2 on
// every side. A line that k pieces cross then offers its length and g more,
// and holds what they take and g for each of them: k - 1 gaps lie between them.

// grown returns the profile of an outline grown by a disc of diameter gap, from
// below. A convex outline is grown by a polygon inside the disc, any other with each
// of its sides, or, where the corners that it loses before are worth more, by half
// the gap at either end of what it takes of a line.
func grown(ring orb.Ring, axis Axis, gap float64) profile {
	switch {
	case gap == 0:
		return chords(ring, axis)
	case convex(ring):
		return chords(growConvex(ring, gap/2), axis)
	}
	few, ends := thinnedInside(plane.Tidy(ring), grownCorners), chords(ring, axis).plus(gap)
	if len(few) > mostGrown {
		return ends
	}
	rings := []orb.Ring{few}
	for i := 1; i < len(few); i++ {
		rings = append(rings, growSide(few[i-1], few[i], gap/2))
	}
	if sides := unionChords(rings, axis); sides.total() > ends.total() {
		return sides
	}
	return ends
}

const (
	grownCorners = 40  // that an outline keeps at the most, where it can lose others
	mostGrown    = 200 // that it is grown with
)

// convex says whether a ring turns left at every vertex, once around.
func convex(ring orb.Ring) bool {
	n, ups := len(ring)-1, 0
	for i := range n {
		a, b, c := ring[i], ring[(i+1)%n], ring[(i+2)%n]
		if plane.Orient(a, b, c) < 0 {
			return false
		}
		if up(a, b) && !up(b, c) {
			ups++
		}
	}
	return ups == 1
}

// grownParts returns the profile of shifted parts, each grown by a polygon in a disc of diameter gap.
func grownParts(parts []orb.Ring, axis Axis, gap float64) profile {
	if gap == 0 {
		return unionChords(parts, axis)
	}
	var out []orb.Ring
	for _, part := range parts {
		out = append(out, growConvex(part, gap/2))
	}
	return unionChords(out, axis)
}

// up says whether the step from a to b goes up, or level to the right.
func up(a, b orb.Point) bool { return b[1] > a[1] || b[1] == a[1] && b[0] > a[0] }

// discCorners is the number of corners of the polygon taken for a disc; one lies
// on each axis, so that upright and level edges move by the full radius. Edges
// aslant move by at least cos(pi/32) of it, 0.995.
const discCorners = 32

// sideCorners is the number of them about an end of a side that is grown by itself.
const sideCorners = 8

// growSide returns a polygon in what lies within a radius of a side, with whole radii square to it.
func growSide(a, b orb.Point, radius float64) orb.Ring {
	dx, dy := b[0]-a[0], b[1]-a[1]
	r := radius / math.Hypot(dx, dy) * (1 - 1e-12)
	var points []orb.Point
	for _, v := range []orb.Point{a, b} {
		points = append(points, orb.Point{v[0] + r*dy, v[1] - r*dx}, orb.Point{v[0] - r*dy, v[1] + r*dx})
		for k := range sideCorners {
			sin, cos := plane.SinCos(360 * float64(k) / sideCorners)
			points = append(points, orb.Point{v[0] + radius*cos, v[1] + radius*sin})
		}
	}
	return plane.Hull(points)
}

// growConvex returns the sum of a convex ring and a polygon inside the disc of
// the given radius: hulls of corners, one by one, need no angles compared.
func growConvex(ring orb.Ring, radius float64) orb.Ring {
	var points []orb.Point
	for _, v := range ring[:len(ring)-1] {
		for k := range discCorners {
			sin, cos := plane.SinCos(360 * float64(k) / discCorners)
			points = append(points, orb.Point{v[0] + radius*cos, v[1] + radius*sin})
		}
	}
	return plane.Hull(points)
}
