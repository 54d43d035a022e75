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

// SinCos returns sine and cosine of an angle in degrees, exact at multiples of 90.
func SinCos(degrees float64) (sin, cos float64) {
	turn := math.Mod(degrees, 360)
	if turn < 0 {
		turn += 360
	}
	switch turn {
	case 0:
		return 0, 1
	case 90:
		return 1, 0
	case 180:
		return 0, -1
	case 270:
		return -1, 0
	}
	return math.Sincos(turn * math.Pi / 180)
}
