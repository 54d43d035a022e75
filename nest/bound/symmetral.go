package bound

import (
	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Copies of one convex outline K that all lie the same way do not overlap just
// when copies of D = (K - K)/2 at the same places do not: both say that no
// difference of two places is inside K - K. D is as long and as wide as K, so it
// fits where K fits, and its area is greater, up to half as much again for a
// triangle: what is lost between pieces that may not be turned head to tail.
// Source: H. Minkowski, Dichteste gitterfoermige Lagerung kongruenter Koerper,
// Nachrichten der K. Gesellschaft der Wissenschaften zu Goettingen (1904).

// worthCutting is the least share of an outline that its convex part must keep.
const worthCutting = 0.5

// symmetrals returns, for each item that may lie in one way alone, the problem of
// laying its copies only, each replaced by D.
func (s *setting) symmetrals() []*setting {
	var out []*setting
	for _, it := range s.items {
		if len(it.ways) != 1 || it.count < 2 {
			continue
		}
		w := it.ways[0]
		body := symmetral(convexPart(w.ring), orb.Point{w.along / 2, w.across / 2})
		if plane.Area(body) <= plane.Area(w.ring)*(1+1e-6) {
			continue
		}
		out = append(out, &setting{
			width: s.width, gap: s.gap, symmetral: true,
			items: []item{{
				name: it.name, count: it.count, ways: []way{{ring: body, along: w.along, across: w.across}},
			}},
			profiles: make(map[profileKey]profile),
		})
	}
	return out
}

// symmetral returns (K - K)/2 of a convex ring, moved to a centre.
func symmetral(ring orb.Ring, centre orb.Point) orb.Ring {
	if len(ring) == 0 {
		return nil
	}
	n := len(ring) - 1
	points := make([]orb.Point, 0, n*n)
	for _, a := range ring[:n] {
		for _, b := range ring[:n] {
			points = append(points, orb.Point{centre[0] + (a[0]-b[0])/2, centre[1] + (a[1]-b[1])/2})
		}
	}
	return plane.Hull(points)
}

// convexPart returns a convex ring inside the given one, or nil when that would
// leave too little: what is left of the hull when each pocket between hull and
// ring is cut off along a line through its deepest vertex.
func convexPart(ring orb.Ring) orb.Ring {
	if convex(ring) {
		return plane.Tidy(ring)
	}
	hull := plane.Hull(ring)
	part := hull
	for i := 1; i < len(hull); i++ {
		a, b := hull[i-1], hull[i]
		depth := pocketDepth(ring, a, b)
		if depth == 0 {
			continue
		}
		dx, dy := b[0]-a[0], b[1]-a[1]
		part = cutLeft(part, func(v orb.Point) float64 { return dx*(v[1]-a[1]) - dy*(v[0]-a[0]) - depth })
		if len(part) < 4 {
			return nil
		}
	}
	if plane.Area(part) < worthCutting*plane.Area(ring) {
		return nil
	}
	return plane.Hull(part)
}

// pocketDepth returns how deep the ring runs between hull vertices a and b, as
// twice the area of the triangle over ab.
func pocketDepth(ring orb.Ring, a, b orb.Point) float64 {
	n, start := len(ring)-1, 0
	for ring[start] != a {
		start++
	}
	depth := 0.0
	for k := 1; ring[(start+k)%n] != b; k++ {
		v := ring[(start+k)%n]
		depth = max(depth, (b[0]-a[0])*(v[1]-a[1])-(b[1]-a[1])*(v[0]-a[0]))
	}
	return depth
}

// cutLeft returns the part of a ring where side is not below nought; side is
// linear.
func cutLeft(ring orb.Ring, side func(orb.Point) float64) orb.Ring {
	var out orb.Ring
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		sa, sb := side(a), side(b)
		if (sa >= 0) != (sb >= 0) {
			t := sa / (sa - sb)
			out = append(out, orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])})
		}
		if sb >= 0 {
			out = append(out, b)
		}
	}
	if len(out) > 0 {
		out = append(out, out[0])
	}
	return out
}
