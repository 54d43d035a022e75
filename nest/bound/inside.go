package bound

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Parts of an outline that lie inside it, by closed counter-clockwise rings.

// worthCutting is the least share of an outline that its convex part must keep.
const worthCutting = 0.5

// onBoundary is how near a point must be to a side to lie on it, mm.
const onBoundary = 1e-6

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
		depth, _ := pocket(ring, a, b)
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

// pocket returns how deep the ring runs between hull vertices a and b, as twice the area of the triangle over ab, and
// where; nought where it goes straight.
func pocket(ring orb.Ring, a, b orb.Point) (depth float64, at orb.Point) {
	n, start := len(ring)-1, slices.Index(ring, a)
	for k := 1; ring[(start+k)%n] != b; k++ {
		v := ring[(start+k)%n]
		if d := turn(a, b, v); d > depth {
			depth, at = d, v
		}
	}
	return depth, at
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

// hit returns the first point of a ring's sides on a ray, a little way on.
func hit(ring orb.Ring, from, along orb.Point) (orb.Point, bool) {
	nearest := math.Inf(1)
	length := math.Hypot(along[0], along[1])
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		dx, dy := b[0]-a[0], b[1]-a[1]
		det := dx*along[1] - dy*along[0]
		if det == 0 {
			continue
		}
		t := (dx*(a[1]-from[1]) - dy*(a[0]-from[0])) / det
		u := (along[0]*(a[1]-from[1]) - along[1]*(a[0]-from[0])) / det
		if t*length > 1e-3 && u >= 0 && u <= 1 {
			nearest = min(nearest, t)
		}
	}
	return orb.Point{from[0] + nearest*along[0], from[1] + nearest*along[1]}, !math.IsInf(nearest, 1)
}

// holds says whether a ring holds the segment between two points of its boundary.
func holds(ring orb.Ring, a, b orb.Point) bool {
	length := math.Hypot(b[0]-a[0], b[1]-a[1])
	if length < onBoundary {
		return false
	}
	side := func(v orb.Point) float64 { // distance to the left of the segment's line
		return turn(a, b, v) / length
	}
	at := func(v orb.Point) float64 { return ((b[0]-a[0])*(v[0]-a[0]) + (b[1]-a[1])*(v[1]-a[1])) / length }
	stops := []float64{0, length}
	for i := 1; i < len(ring); i++ {
		p, q := ring[i-1], ring[i]
		sp, sq := side(p), side(q)
		if math.Abs(sq) <= onBoundary {
			if t := at(q); t > 0 && t < length {
				stops = append(stops, t)
			}
		}
		if (sp > 0) == (sq > 0) {
			continue
		}
		t := at(p) + (at(q)-at(p))*sp/(sp-sq)
		if math.Abs(sp) > onBoundary && math.Abs(sq) > onBoundary && t > onBoundary && t < length-onBoundary {
			return false
		}
	}
	slices.Sort(stops)
	for k := 1; k < len(stops); k++ {
		if stops[k]-stops[k-1] <= 2*onBoundary {
			continue
		}
		t := (stops[k-1] + stops[k]) / 2 / length
		if !within(ring, orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}) {
			return false
		}
	}
	return true
}

// within says whether a point lies in a ring or on its boundary.
func within(ring orb.Ring, v orb.Point) bool {
	in := false
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		if nearSegment(a, b, v) {
			return true
		}
		if (a[1] > v[1]) != (b[1] > v[1]) && v[0] < a[0]+(b[0]-a[0])*(v[1]-a[1])/(b[1]-a[1]) {
			in = !in
		}
	}
	return in
}

// nearSegment says whether a point lies on a segment as nearly as onBoundary.
func nearSegment(a, b, v orb.Point) bool {
	dx, dy := b[0]-a[0], b[1]-a[1]
	t := ((v[0]-a[0])*dx + (v[1]-a[1])*dy) / (dx*dx + dy*dy)
	t = min(max(t, 0), 1)
	return math.Hypot(v[0]-a[0]-t*dx, v[1]-a[1]-t*dy) <= onBoundary
}

// thinnedInside returns a ring of at most so many corners inside a given one, if it can: again and again the
// corner is left out, or the side between two corners turned inward cut off, that loses least. What a corner
// loses is told anew where its neighbours change, and no oftener.
func thinnedInside(ring orb.Ring, most int) orb.Ring {
	points := slices.Clone(ring[:len(ring)-1])
	bent := !convex(ring)
	cuts := make([]cut, len(points))
	for i := range points {
		cuts[i] = cutOff(points, i, bent)
	}
	for len(points) > max(most, 3) {
		at := 0
		for i, c := range cuts {
			if c.lost < cuts[at].lost {
				at = i
			}
		}
		if math.IsInf(cuts[at].lost, 1) {
			break
		}
		gone := at
		if next := (at + 1) % len(points); cuts[at].corner != points[next] {
			points[at], gone = cuts[at].corner, next
		}
		points, cuts = slices.Delete(points, gone, gone+1), slices.Delete(cuts, gone, gone+1)
		for i := at - 3; i <= at+1; i++ {
			k := (i + len(points)) % len(points)
			cuts[k] = cutOff(points, k, bent)
		}
	}
	return append(orb.Ring(points), points[0])
}

// cut is what is lost, mm2, where a corner is left out, infinite where it cannot be, and the corner that takes its
// place and that of the next one.
type cut struct {
	lost   float64
	corner orb.Point
}

// cutOff tells that of corner i of an open ring: it is left out, or, where it and the next one are turned inward, their
// other sides go on until they meet, which is then the new corner.
func cutOff(points []orb.Point, i int, bent bool) cut {
	n := len(points)
	a, v, b, c := points[(i+n-1)%n], points[i], points[(i+1)%n], points[(i+2)%n]
	never := cut{lost: math.Inf(1), corner: b}
	if !bent || plane.Orient(a, v, b) >= 0 {
		if bent && !alone(points, a, v, b) {
			return never
		}
		return cut{triangle([3]orb.Point{a, v, b}), b}
	}
	if plane.Orient(v, b, c) >= 0 {
		return never
	}
	dx, dy, ex, ey := v[0]-a[0], v[1]-a[1], b[0]-c[0], b[1]-c[1]
	det := dx*ey - dy*ex
	if det <= 0 { // they part
		return never
	}
	t := ((b[0]-v[0])*ey - (b[1]-v[1])*ex) / det
	x := orb.Point{v[0] + t*dx, v[1] + t*dy}
	if t <= 0 || !alone(points, v, x, b) || crossed(points, i, x) {
		return never
	}
	return cut{triangle([3]orb.Point{v, x, b}), x}
}

// triangle returns the area of a triangle.
func triangle(t [3]orb.Point) float64 { return math.Abs(turn(t[0], t[1], t[2])) / 2 }

// turn returns twice the area of triangle a, b, v; above nought where v lies to the left of ab.
func turn(a, b, v orb.Point) float64 { return (b[0]-a[0])*(v[1]-a[1]) - (b[1]-a[1])*(v[0]-a[0]) }

// alone says whether no other of the points lies in a triangle.
func alone(points []orb.Point, a, b, c orb.Point) bool {
	if plane.Orient(a, b, c) < 0 {
		b, c = c, b
	}
	return !slices.ContainsFunc(points, func(v orb.Point) bool {
		return v != a && v != b && v != c &&
			plane.Orient(a, b, v) >= 0 && plane.Orient(b, c, v) >= 0 && plane.Orient(c, a, v) >= 0
	})
}

// crossed says whether a side of an open ring meets the two that would go from corner i and the next one to x.
func crossed(points []orb.Point, i int, x orb.Point) bool {
	n := len(points)
	v, b := points[i], points[(i+1)%n]
	for k := 2; k < n-1; k++ {
		p, q := points[(i+k)%n], points[(i+k+1)%n]
		if p != b && plane.SegmentsMeet(x, b, p, q) || q != v && plane.SegmentsMeet(v, x, p, q) {
			return true
		}
	}
	return false
}
