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
	corners convex
	bare    []bool  // side k, from corner k to the next, lies on the outline
	wedges  []wedge // the outline at corner k
}

// wedge is an outline at one of its corners: unit vectors along its sides into
// the corner and out of it.
type wedge struct {
	in, out orb.Point
	hollow  bool
}

// newPart makes the part with the given corners, indices into an open ring. Of
// a ring that was not cut cleanly every side may bound.
func newPart(open []orb.Point, corners []int, clean bool) part {
	n := len(open)
	p := part{make(convex, len(corners)), make([]bool, len(corners)), make([]wedge, len(corners))}
	for k, i := range corners {
		before, at, after := open[(i+n-1)%n], open[i], open[(i+1)%n]
		p.corners[k] = at
		p.bare[k] = true
		if clean {
			p.bare[k] = corners[(k+1)%len(corners)] == (i+1)%n
			p.wedges[k] = wedge{unit(before, at), unit(at, after), plane.Orient(before, at, after) < 0}
		}
	}
	return p
}

func unit(p, q orb.Point) orb.Point {
	dx, dy := q[0]-p[0], q[1]-p[1]
	l := math.Hypot(dx, dy)
	return orb.Point{dx / l, dy / l}
}

// foremost reports whether, near the corner, nothing of the outline lies beyond
// the corner in direction n, of unit length.
func (w wedge) foremost(n orb.Point) bool {
	const rounding = 1e-9
	return !w.hollow && n[0]*w.in[0]+n[1]*w.in[1] >= -rounding && n[0]*w.out[0]+n[1]*w.out[1] <= rounding
}

// negated returns -p: a half turn.
func (p part) negated() part {
	out := part{make(convex, len(p.corners)), p.bare, make([]wedge, len(p.wedges))}
	for k, v := range p.corners {
		out.corners[k] = orb.Point{-v[0], -v[1]}
		w := p.wedges[k]
		out.wedges[k] = wedge{orb.Point{-w.in[0], -w.in[1]}, orb.Point{-w.out[0], -w.out[1]}, w.hollow}
	}
	return out
}

// partSum is the sum of two parts, with what can bound the sum of the outlines.
type partSum struct {
	corners convex
	bare    []bool     // side k can
	wedges  [][2]wedge // both outlines at corner k
}

func (p part) sum(q part) partSum {
	n := len(p.corners) + len(q.corners)
	s := partSum{make(convex, 0, n), make([]bool, 0, n), make([][2]wedge, 0, n)}
	merge(p.corners, q.corners, func(v orb.Point, i, j int, alongP, alongQ bool) {
		bare := false
		switch {
		case alongP && alongQ:
			bare = p.bare[i] || q.bare[j]
		case alongP:
			bare = p.bare[i] && q.wedges[j].foremost(p.corners.normal(i))
		case alongQ:
			bare = q.bare[j] && p.wedges[i].foremost(q.corners.normal(j))
		}
		s.corners = append(s.corners, v)
		s.bare = append(s.bare, bare)
		s.wedges = append(s.wedges, [2]wedge{p.wedges[i], q.wedges[j]})
	})
	return s
}

// widened returns the sum with a disc, of a polygon with all sides bare.
func (s partSum) widened(disc convex) partSum {
	n := len(s.corners) + len(disc)
	w := partSum{corners: make(convex, 0, n), bare: make([]bool, 0, n)}
	merge(s.corners, disc, func(v orb.Point, i, j int, alongS, alongDisc bool) {
		bare := s.bare[i]
		if !alongS || alongDisc {
			n := disc.normal(j)
			bare = alongS && bare || s.wedges[i][0].foremost(n) && s.wedges[i][1].foremost(n)
		}
		w.corners = append(w.corners, v)
		w.bare = append(w.bare, bare)
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
