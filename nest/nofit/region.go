package nofit

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// Shape is an outline ready to be paired with others.
type Shape struct {
	parts  []part
	lo, hi orb.Point
}

// NewShape decomposes a simple, closed, counter-clockwise ring.
func NewShape(ring orb.Ring) *Shape {
	s := &Shape{parts: decompose(ring)}
	s.lo = orb.Point{math.Inf(1), math.Inf(1)}
	s.hi = orb.Point{math.Inf(-1), math.Inf(-1)}
	for _, p := range ring {
		s.lo = orb.Point{min(s.lo[0], p[0]), min(s.lo[1], p[1])}
		s.hi = orb.Point{max(s.hi[0], p[0]), max(s.hi[1], p[1])}
	}
	return s
}

// Parts returns how many convex parts the shape was cut into.
func (s *Shape) Parts() int { return len(s.parts) }

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
// than the gap it was built with). It may be a view of another pair's region: see
// Moved.
type Region struct {
	view     view
	grid     grid
	segments []segment
}

// union is a region under construction: the open convex sums that it is the union
// of. Only its boundary and the grid outlive it, a tenth or so of its size.
type union struct {
	Region
	sums       []sumPolygon
	scale      float64 // largest coordinate, for tolerances
	minSegment float64 // stretches of boundary no longer than this are left out
	stop       func() bool
	work       workspace
}

type sumPolygon struct {
	vertices convex
	mayBound []bool // side k, from vertex k, can bound the union
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

// New returns the no-fit region of b relative to a, or nil once stop says so;
// it is asked every few microseconds and more.
func New(stop func() bool, a, b *Shape, keep Clearance) *Region {
	u := newUnion(stop, a, b, keep)
	if u == nil {
		return nil
	}
	r := u.Region
	r.segments = slices.Clone(r.segments)
	g := &r.grid
	g.near, g.groups, g.planes = slices.Clone(g.near), slices.Clone(g.groups), slices.Clone(g.planes)
	return &r
}

func newUnion(stop func() bool, a, b *Shape, keep Clearance) *union {
	r := &union{Region: Region{view: asBuilt}, stop: stop}
	round := disc(keep.Gap, gapSides)
	for _, s := range r.partSums(a, b) {
		if keep.Gap > 0 {
			s = s.widened(round)
		}
		sum := newSum(s.corners, s.mayBound)
		if keep.Step > 0 {
			sum = sum.loosened(keep.Step, keep.Tolerance)
		}
		r.sums = append(r.sums, sum)
		for _, p := range sum.vertices {
			r.scale = max(r.scale, abs(p[0]), abs(p[1]))
		}
	}
	r.minSegment = max(r.tolerance(), keep.Step)
	r.trace()
	r.fillGrid()
	if r.stop() {
		return nil
	}
	return r
}

// partSums returns the sums of all parts of a and -b, but for those that lie
// wholly within another one: the union stays as it is.
func (r *union) partSums(a, b *Shape) []partSum {
	negated := make([]part, len(b.parts))
	for k, q := range b.parts {
		negated[k] = q.negated()
	}
	n := len(a.parts) * len(negated)
	sums, polygons := make([]partSum, 0, n), make([]sumPolygon, 0, n)
	eps := 0.0
	for _, c := range [...]orb.Point{a.lo, a.hi, b.lo, b.hi} {
		eps = max(eps, rounding(abs(c[0])), rounding(abs(c[1])))
	}
	for _, p := range a.parts {
		for _, q := range negated {
			s := p.sum(q)
			sums = append(sums, s)
			polygons = append(polygons, newSum(s.corners, s.mayBound))
		}
	}
	kept := sums[:0]
	covered := make([]bool, n)
	for i, s := range sums {
		if r.stop() {
			return nil
		}
		for j := 0; j < n && !covered[i]; j++ {
			covered[i] = j != i && !covered[j] && polygons[j].covers(&polygons[i], eps)
		}
		if !covered[i] {
			kept = append(kept, s)
		}
	}
	return kept
}

func newSum(v convex, mayBound []bool) sumPolygon {
	s := sumPolygon{
		vertices: make(convex, 0, len(v)), mayBound: make([]bool, 0, len(v)), planes: make([]halfPlane, 0, len(v)),
	}
	for i, p := range v {
		q := v[(i+1)%len(v)]
		dx, dy := q[0]-p[0], q[1]-p[1]
		l := math.Hypot(dx, dy)
		if l == 0 {
			continue
		}
		nx, ny := dy/l, -dx/l
		s.vertices = append(s.vertices, p)
		s.mayBound = append(s.mayBound, mayBound[i])
		s.planes = append(s.planes, halfPlane{nx, ny, math.Max(nx*p[0]+ny*p[1], nx*q[0]+ny*q[1])})
	}
	return s.bounded()
}

// bounded fills in the box of the corners.
func (s sumPolygon) bounded() sumPolygon {
	s.lo, s.hi = orb.Point{math.Inf(1), math.Inf(1)}, orb.Point{math.Inf(-1), math.Inf(-1)}
	for _, p := range s.vertices {
		s.lo = orb.Point{min(s.lo[0], p[0]), min(s.lo[1], p[1])}
		s.hi = orb.Point{max(s.hi[0], p[0]), max(s.hi[1], p[1])}
	}
	return s
}

// depthOf returns how far t lies inside the convex sum, negative outside.
func (s *sumPolygon) depthOf(x, y float64) float64 {
	d := math.Inf(1)
	for _, h := range s.planes {
		d = min(d, h.c-h.nx*x-h.ny*y)
	}
	return d
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

// rounding is the distance below which two lines count as one: a few thousand
// units in the last place of the largest coordinate.
func rounding(largest float64) float64 { return largest * 0x1p-40 }

func (r *union) tolerance() float64 { return rounding(r.scale) }

// contains reports whether t lies inside the region by more than the rounding
// tolerance: the slow twin of Depth, straight from the convex sums.
func (r *union) contains(t orb.Point) bool {
	for i := range r.sums {
		if r.sums[i].depthOf(t[0], t[1]) > r.tolerance() {
			return true
		}
	}
	return false
}
