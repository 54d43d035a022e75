package nofit

import (
	"unsafe"

	"github.com/paulmach/orb"
)

// Motion is one of the eight moves that bring the lattice onto itself and leave
// the origin where it is: quarter turns, mirrored or not. It takes (x, y) to
// (XX x + XY y, YX x + YY y), exactly.
type Motion struct{ XX, XY, YX, YY float64 }

// Motions lists all eight; the first moves nothing.
var Motions = [8]Motion{
	{1, 0, 0, 1}, {-1, 0, 0, -1}, {0, -1, 1, 0}, {0, 1, -1, 0}, // turns by 0, 180, 90 and 270 degrees
	{1, 0, 0, -1}, {-1, 0, 0, 1}, {0, -1, -1, 0}, {0, 1, 1, 0}, // the same, mirrored about the x axis before
}

// Mirrors reports whether the motion turns a ring the other way round.
func (m Motion) Mirrors() bool { return m.XX*m.YY-m.XY*m.YX < 0 }

// Apply returns where p comes to lie.
func (m Motion) Apply(p orb.Point) orb.Point {
	return orb.Point{m.XX*p[0] + m.XY*p[1], m.YX*p[0] + m.YY*p[1]}
}

// Inverse undoes the motion.
func (m Motion) Inverse() Motion { return Motion{m.XX, m.YX, m.XY, m.YY} }

// After is the motion that does o first, then m.
func (m Motion) After(o Motion) Motion {
	return Motion{
		m.XX*o.XX + m.XY*o.YX, m.XX*o.XY + m.XY*o.YY,
		m.YX*o.XX + m.YY*o.YX, m.YX*o.XY + m.YY*o.YY,
	}
}

// Ring returns the ring moved, counter-clockwise when it was.
func (m Motion) Ring(ring orb.Ring) orb.Ring {
	out := make(orb.Ring, len(ring))
	for i, p := range ring {
		out[i] = m.Apply(p)
	}
	if m.Mirrors() {
		out.Reverse()
	}
	return out
}

// view takes an offset asked for to the offset in the frame that the region was
// built in; it is its own transpose's inverse but for the shift.
type view struct{ xx, xy, yx, yy, x, y float64 }

var asBuilt = view{xx: 1, yy: 1}

// back takes an offset of the frame that the region was built in to the one asked for.
func (v *view) back(p orb.Point) orb.Point {
	x, y := p[0]-v.x, p[1]-v.y
	return orb.Point{v.xx*x + v.yx*y, v.xy*x + v.yy*y}
}

// Moved returns the region of a pair made of r's pair (A, B) by one motion: of
// A' = m A + a and B' = m B + b; exchanged, that of (B', A'). It shares all of r but
// its own few numbers. Shifts that are on the lattice keep exact fits exact.
func (r *Region) Moved(m Motion, a, b orb.Point, exchanged bool) *Region {
	q, shift := m.Inverse(), orb.Point{b[0] - a[0], b[1] - a[1]}
	if exchanged {
		q = Motion{-q.XX, -q.XY, -q.YX, -q.YY}
		shift = orb.Point{-shift[0], -shift[1]}
	}
	at := q.Apply(shift)
	seen := *r
	seen.view = view{q.XX, q.XY, q.YX, q.YY, at[0], at[1]}
	return &seen
}

// Everywhere returns a region that every offset within reach lies deep inside: what
// stands for one that was not made.
func Everywhere() *Region {
	const far = 1 << 30
	return &Region{
		view:     asBuilt,
		segments: []segment{{ax: far, ay: -far, uy: 1, length: 2 * far}},
		grid: grid{
			lo: orb.Point{-far, -far}, hi: orb.Point{far, far}, nx: 1, ny: 1, invX: 0.5 / far, invY: 0.5 / far,
			cells: []cell{{near: 0, nearEnd: 1}}, least: []float32{0}, near: []int32{0},
		},
	}
}

// ViewBytes is what a view takes by itself.
const ViewBytes = int(unsafe.Sizeof(Region{}))

// Bytes is the memory that the region takes.
func (r *Region) Bytes() int {
	g := &r.grid
	return ViewBytes + cap(r.segments)*int(unsafe.Sizeof(segment{})) + cap(g.cells)*int(unsafe.Sizeof(cell{})) +
		(cap(g.near)+cap(g.groups)+cap(g.least))*4 + cap(g.planes)*int(unsafe.Sizeof(halfPlane{}))
}

// Bounds returns the corners of the region's bounding box.
func (r *Region) Bounds() (lo, hi orb.Point) {
	p, q := r.view.back(r.grid.lo), r.view.back(r.grid.hi)
	return orb.Point{min(p[0], q[0]), min(p[1], q[1])}, orb.Point{max(p[0], q[0]), max(p[1], q[1])}
}

// ends returns both ends of a boundary segment.
func (r *Region) ends(s *segment) (p, q orb.Point) {
	return r.view.back(orb.Point{s.ax, s.ay}), r.view.back(orb.Point{s.ax + s.length*s.ux, s.ay + s.length*s.uy})
}

// Vertices calls yield with both ends of every boundary segment: places where
// B touches A in two ways, the classical candidates of a first layout.
func (r *Region) Vertices(yield func(orb.Point)) {
	for i := range r.segments {
		p, q := r.ends(&r.segments[i])
		yield(p)
		yield(q)
	}
}

// CrossY calls yield with the x at which boundary segments meet the horizontal y.
func (r *Region) CrossY(y float64, yield func(x float64)) {
	r.cross(1, y, yield)
}

// CrossX calls yield with the y at which boundary segments meet the vertical x.
func (r *Region) CrossX(x float64, yield func(y float64)) {
	r.cross(0, x, yield)
}

func (r *Region) cross(axis int, level float64, yield func(float64)) {
	v := &r.view
	for i := range r.segments {
		s := &r.segments[i]
		u := orb.Point{v.xx*s.ux + v.yx*s.uy, v.xy*s.ux + v.yy*s.uy}
		if u[axis] == 0 {
			continue
		}
		p := v.back(orb.Point{s.ax, s.ay})
		if t := (level - p[axis]) / u[axis]; t >= 0 && t <= s.length {
			yield(p[1-axis] + t*u[1-axis])
		}
	}
}
