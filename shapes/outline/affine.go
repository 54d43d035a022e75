package outline

import (
	"math"

	"github.com/paulmach/orb"
)

// affine is a map of the plane: x' = a x + c y + e, y' = b x + d y + f, in the order in
// which SVG writes a matrix (SVG 1.1, 7.4: matrix(a b c d e f)).
type affine struct{ a, b, c, d, e, f float64 }

var identity = affine{a: 1, d: 1}

func translation(x, y float64) affine { return affine{1, 0, 0, 1, x, y} }

func scaling(x, y float64) affine { return affine{a: x, d: y} }

// rotation turns by an angle in radians from x towards y.
func rotation(angle float64) affine {
	sin, cos := math.Sincos(angle)
	return affine{a: cos, b: sin, c: -sin, d: cos}
}

// apply maps a point.
func (m affine) apply(p orb.Point) orb.Point {
	return orb.Point{m.a*p[0] + m.c*p[1] + m.e, m.b*p[0] + m.d*p[1] + m.f}
}

// turn maps a vector: a point without the shift.
func (m affine) turn(v orb.Point) orb.Point {
	return orb.Point{m.a*v[0] + m.c*v[1], m.b*v[0] + m.d*v[1]}
}

// times is the map that does n first and then m.
func (m affine) times(n affine) affine {
	u, v, t := m.turn(orb.Point{n.a, n.b}), m.turn(orb.Point{n.c, n.d}), m.apply(orb.Point{n.e, n.f})
	return affine{u[0], u[1], v[0], v[1], t[0], t[1]}
}

// finite tells whether all numbers of the map are.
func (m affine) finite() bool {
	sum := m.a + m.b + m.c + m.d + m.e + m.f
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}

// stretch is the farthest that the map takes the end of a vector of length 1 from the
// origin: its larger singular value.
func (m affine) stretch() float64 {
	uu, vv, uv := m.a*m.a+m.b*m.b, m.c*m.c+m.d*m.d, m.a*m.c+m.b*m.d
	return math.Sqrt((uu + vv + math.Hypot(uu-vv, 2*uv)) / 2)
}
