package plane

import (
	"math"

	"github.com/paulmach/orb"
)

// Pose is a rigid placement: mirror about the x axis (the grain), then turn,
// then move. Mirroring and turning are separate rights in cutting: the first
// makes a left piece of a right one, the second sends the top of the piece
// another way along the nap.
type Pose struct {
	Mirrored bool
	Turn     float64   // degrees counter-clockwise
	At       orb.Point // where the piece's own origin comes to lie, mm
}

// Apply returns the placed copy of r, counter-clockwise when r is. Turns by
// multiples of 90 degrees are exact; the result is not snapped.
func (p Pose) Apply(r orb.Ring) orb.Ring {
	sin, cos := SinCos(p.Turn)
	out := make(orb.Ring, len(r))
	for i, v := range r {
		out[i] = p.point(v, sin, cos)
	}
	if p.Mirrored {
		out.Reverse()
	}
	return out
}

// ApplyPoint returns the placed copy of a point of the piece.
func (p Pose) ApplyPoint(v orb.Point) orb.Point {
	sin, cos := SinCos(p.Turn)
	return p.point(v, sin, cos)
}

func (p Pose) point(v orb.Point, sin, cos float64) orb.Point {
	x, y := v[0], v[1]
	if p.Mirrored {
		y = -y
	}
	return orb.Point{cos*x - sin*y + p.At[0], sin*x + cos*y + p.At[1]}
}

// SinCos returns sine and cosine of an angle in degrees, exact at multiples of 90
// and with the symmetries of the circle kept bit for bit: the reflection of a
// turned outline is the turned outline of its reflection, to the last bit.
func SinCos(degrees float64) (sin, cos float64) {
	turn := math.Remainder(degrees, 360) // exact, -180 to 180
	side := math.Abs(turn)
	switch side {
	case 0:
		return 0, 1
	case 90:
		return math.Copysign(1, turn), 0
	case 180:
		return 0, -1
	}
	if side < 90 {
		sin, cos = math.Sincos(side * math.Pi / 180)
	} else {
		sin, cos = math.Sincos((180 - side) * math.Pi / 180)
		cos = -cos
	}
	return math.Copysign(sin, turn), cos
}
