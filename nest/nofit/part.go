package nofit

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// A part is a convex part of an outline that knows what of its boundary is the
// outline's own: the rest runs along cuts inside the outline and can bound no
// sum. This is the reduced convolution of E. Behar & J.-M. Lien, "Fast and
// robust 2D Minkowski sum using reduced convolution", IROS 2011: of all pairs of
// a side and a corner few meet the rule, and only those are clipped.
type part struct {
	corners  convex
	mayBound []bool        // side k, from corner k to the next, lies on the outline
	sides    []cornerSides // the outline at corner k
}

// cornerSides is an outline at one of its corners: unit vectors along its sides into
// the corner and out of it.
type cornerSides struct {
	in, out orb.Point
	reflex  bool
}

// newPart makes the part with the given corners, indices into an open ring. Of
// a ring that was not cut cleanly every side may bound.
func newPart(open []orb.Point, corners []int, clean bool) part {
	n := len(open)
	p := part{make(convex, len(corners)), make([]bool, len(corners)), make([]cornerSides, len(corners))}
	for k, i := range corners {
		before, at, after := open[(i+n-1)%n], open[i], open[(i+1)%n]
		p.corners[k] = at
		p.mayBound[k] = true
		if clean {
			p.mayBound[k] = corners[(k+1)%len(corners)] == (i+1)%n
			p.sides[k] = cornerSides{unit(before, at), unit(at, after), plane.Orient(before, at, after) < 0}
		}
	}
	return p
}

func unit(p, q orb.Point) orb.Point {
	dx, dy := q[0]-p[0], q[1]-p[1]
	l := math.Hypot(dx, dy)
	return orb.Point{dx / l, dy / l}
}

// isExtreme reports whether, near the corner, nothing of the outline lies beyond
// the corner in direction n, of unit length.
func (w cornerSides) isExtreme(n orb.Point) bool {
	const rounding = 1e-9
	return !w.reflex && n[0]*w.in[0]+n[1]*w.in[1] >= -rounding && n[0]*w.out[0]+n[1]*w.out[1] <= rounding
}

// negated returns -p: a half turn.
func (p part) negated() part {
	out := part{make(convex, len(p.corners)), p.mayBound, make([]cornerSides, len(p.sides))}
	for k, v := range p.corners {
		out.corners[k] = orb.Point{-v[0], -v[1]}
		w := p.sides[k]
		out.sides[k] = cornerSides{orb.Point{-w.in[0], -w.in[1]}, orb.Point{-w.out[0], -w.out[1]}, w.reflex}
	}
	return out
}

// partSum is the sum of two parts, with what can bound the sum of the outlines.
type partSum struct {
	corners  convex
	mayBound []bool           // side k can
	sides    [][2]cornerSides // both outlines at corner k
}

func (p part) sum(q part) partSum {
	n := len(p.corners) + len(q.corners)
	s := partSum{make(convex, 0, n), make([]bool, 0, n), make([][2]cornerSides, 0, n)}
	merge(p.corners, q.corners, func(v orb.Point, i, j int, alongP, alongQ bool) {
		mayBound := false
		switch {
		case alongP && alongQ:
			mayBound = p.mayBound[i] || q.mayBound[j]
		case alongP:
			mayBound = p.mayBound[i] && q.sides[j].isExtreme(p.corners.normal(i))
		case alongQ:
			mayBound = q.mayBound[j] && p.sides[i].isExtreme(q.corners.normal(j))
		}
		s.corners = append(s.corners, v)
		s.mayBound = append(s.mayBound, mayBound)
		s.sides = append(s.sides, [2]cornerSides{p.sides[i], q.sides[j]})
	})
	return s
}

// widened returns the sum with a disc, of a polygon of which all sides may bound.
func (s partSum) widened(disc convex) partSum {
	n := len(s.corners) + len(disc)
	w := partSum{corners: make(convex, 0, n), mayBound: make([]bool, 0, n)}
	merge(s.corners, disc, func(v orb.Point, i, j int, alongS, alongDisc bool) {
		mayBound := s.mayBound[i]
		if !alongS || alongDisc {
			n := disc.normal(j)
			mayBound = alongS && mayBound || s.sides[i][0].isExtreme(n) && s.sides[i][1].isExtreme(n)
		}
		w.corners = append(w.corners, v)
		w.mayBound = append(w.mayBound, mayBound)
	})
	return w
}

// merge goes round the Minkowski sum of two convex polygons by merging their
// sides in order of direction: yield gets each corner of the sum, the corners of
// the two that it is the sum of, and along whose sides it goes on from there.
// Each corner is one sum of two given ones, so that errors do not build up.
func merge(c, d convex, yield func(v orb.Point, i, j int, alongC, alongD bool)) {
	i0, j0 := c.lowest(), d.lowest()
	for i, j := 0, 0; i < len(c) || j < len(d); {
		ci, dj := (i0+i)%len(c), (j0+j)%len(d)
		a, b := c[ci], d[dj]
		cross := 0.0
		switch {
		case i == len(c):
			cross = -1
		case j == len(d):
			cross = 1
		default:
			a2, b2 := c[(ci+1)%len(c)], d[(dj+1)%len(d)]
			cross = (a2[0]-a[0])*(b2[1]-b[1]) - (a2[1]-a[1])*(b2[0]-b[0])
		}
		yield(orb.Point{a[0] + b[0], a[1] + b[1]}, ci, dj, cross >= 0, cross <= 0)
		if cross >= 0 {
			i++
		}
		if cross <= 0 {
			j++
		}
	}
}

// normal returns the outward normal of the side from corner k.
func (c convex) normal(k int) orb.Point {
	u := unit(c[k], c[(k+1)%len(c)])
	return orb.Point{u[1], -u[0]}
}

// lowest returns the index of the lowest, then leftmost corner.
func (c convex) lowest() int {
	best := 0
	for i, p := range c {
		if p[1] < c[best][1] || p[1] == c[best][1] && p[0] < c[best][0] {
			best = i
		}
	}
	return best
}

// disc returns a polygon of n sides around a disc of the given radius.
func disc(radius float64, n int) convex {
	out := make(convex, n)
	r := radius / math.Cos(math.Pi/float64(n))
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / float64(n))
		out[i] = orb.Point{r * cos, r * sin}
	}
	return out
}
