// Package nofit computes no-fit regions: where the origin of one outline may
// not lie relative to another's without the two overlapping.
//
// For outlines A and B the region is the interior of A + (-B). It is kept as
// the open convex sums of convex parts, whose union it is, together with the
// boundary of that union and a grid that answers "how deep, and which way out"
// with one cell look-up. J. A. Bennell & J. F. Oliveira, "The geometry of
// nesting problems: a tutorial", EJOR 184 (2008), describes the no-fit polygon;
// P. K. Agarwal, E. Flato & D. Halperin, "Polygon decomposition for efficient
// construction of Minkowski sums", Computational Geometry 21 (2002), the sums
// of convex parts.
package nofit

import (
	"math"

	"github.com/paulmach/orb"
)

// Shape is an outline ready to be paired with others.
type Shape struct {
	parts  []convex
	lo, hi orb.Point
}

// NewShape decomposes a simple, closed, counter-clockwise ring.
func NewShape(ring orb.Ring) *Shape {
	s := &Shape{parts: decompose(ring)}
	s.lo = orb.Point{math.Inf(1), math.Inf(1)}
	s.hi = orb.Point{math.Inf(-1), math.Inf(-1)}
	for _, p := range ring {
		s.lo = orb.Point{math.Min(s.lo[0], p[0]), math.Min(s.lo[1], p[1])}
		s.hi = orb.Point{math.Max(s.hi[0], p[0]), math.Max(s.hi[1], p[1])}
	}
	return s
}

// Parts returns how many convex parts the shape was cut into.
func (s *Shape) Parts() int { return len(s.parts) }

// Bounds returns the corners of the shape's bounding box.
func (s *Shape) Bounds() (lo, hi orb.Point) { return s.lo, s.hi }

// halfPlane is the set n . t <= c, n of unit length pointing outward.
type halfPlane struct{ nx, ny, c float64 }

// segment is a stretch of the region's boundary, with the region on its left:
// its outward normal is (uy, -ux). Five numbers, so that most fit a cache line.
type segment struct {
	ax, ay float64 // start
	ux, uy float64 // unit direction
	length float64
}

// Region is the no-fit region of a pair (A, B): the relative positions
// t = place of B - place of A at which their interiors meet (or come nearer
// than the gap it was built with).
type Region struct {
	sums     []sumPolygon
	segments []segment
	grid     grid
	scale    float64 // largest coordinate, for tolerances
}

type sumPolygon struct {
	vertices convex
	planes   []halfPlane
	lo, hi   orb.Point
}

// gapSides is the number of sides of the polygon that stands for the disc of
// the gap. Sides square to the axes keep exact fits exact; sixteen keep corners
// at most 2 % of the gap further apart than asked.
const gapSides = 16

// Clearance is what a region keeps beyond the bare no-fit region, mm.
type Clearance struct {
	Gap       float64 // clear distance of the two outlines, at least 0; on the lattice
	Step      float64 // spacing of the lattice that places are to be rounded to, 0: none (see loosen)
	Tolerance float64 // depth that its user takes for none
}

// New returns the no-fit region of b relative to a.
func New(a, b *Shape, keep Clearance) *Region {
	r := &Region{}
	for _, p := range a.parts {
		for _, q := range b.parts {
			v := p.sum(q.negated())
			if keep.Gap > 0 {
				v = v.sum(disc(keep.Gap, gapSides))
			}
			sum := newSum(v)
			if keep.Step > 0 {
				sum.loosen(keep.Step, keep.Tolerance)
			}
			r.sums = append(r.sums, sum)
		}
	}
	for _, s := range r.sums {
		for _, p := range s.vertices {
			r.scale = math.Max(r.scale, math.Max(math.Abs(p[0]), math.Abs(p[1])))
		}
	}
	r.dropCovered()
	r.trace()
	r.fillGrid()
	return r
}

func newSum(v convex) sumPolygon {
	s := sumPolygon{lo: orb.Point{math.Inf(1), math.Inf(1)}, hi: orb.Point{math.Inf(-1), math.Inf(-1)}}
	for i, p := range v {
		s.lo = orb.Point{math.Min(s.lo[0], p[0]), math.Min(s.lo[1], p[1])}
		s.hi = orb.Point{math.Max(s.hi[0], p[0]), math.Max(s.hi[1], p[1])}
		q := v[(i+1)%len(v)]
		dx, dy := q[0]-p[0], q[1]-p[1]
		l := math.Hypot(dx, dy)
		if l == 0 {
			continue
		}
		nx, ny := dy/l, -dx/l
		s.vertices = append(s.vertices, p)
		s.planes = append(s.planes, halfPlane{nx, ny, math.Max(nx*p[0]+ny*p[1], nx*q[0]+ny*q[1])})
	}
	return s
}

// depthOf returns how far t lies inside the convex sum, negative outside.
func (s *sumPolygon) depthOf(x, y float64) float64 {
	d := math.Inf(1)
	for _, h := range s.planes {
		d = math.Min(d, h.c-h.nx*x-h.ny*y)
	}
	return d
}

// dropCovered removes sums that lie wholly within another one; the union stays
// as it is and everything after becomes cheaper.
func (r *Region) dropCovered() {
	eps := r.tolerance()
	kept := r.sums[:0:0]
	gone := make([]bool, len(r.sums))
	for i := range r.sums {
		for j := range r.sums {
			if i == j || gone[j] || !r.sums[j].covers(&r.sums[i], eps) {
				continue
			}
			gone[i] = true
			break
		}
		if !gone[i] {
			kept = append(kept, r.sums[i])
		}
	}
	r.sums = kept
}

// covers reports whether every vertex of o lies in s, up to rounding.
func (s *sumPolygon) covers(o *sumPolygon, eps float64) bool {
	if o.lo[0] < s.lo[0]-eps || o.lo[1] < s.lo[1]-eps || o.hi[0] > s.hi[0]+eps || o.hi[1] > s.hi[1]+eps {
		return false
	}
	for _, p := range o.vertices {
		if s.depthOf(p[0], p[1]) < -eps {
			return false
		}
	}
	return true
}

// tolerance is the distance below which two lines of the region count as one:
// a few thousand units in the last place of its largest coordinate.
func (r *Region) tolerance() float64 { return r.scale * 0x1p-40 }

// Contains reports whether t lies inside the region by more than the rounding
// tolerance: the slow twin of Depth, straight from the convex sums.
func (r *Region) Contains(t orb.Point) bool {
	for i := range r.sums {
		if r.sums[i].depthOf(t[0], t[1]) > r.tolerance() {
			return true
		}
	}
	return false
}

// Bounds returns the corners of the region's bounding box.
func (r *Region) Bounds() (lo, hi orb.Point) { return r.grid.lo, r.grid.hi }
