package plane

import (
	"math"

	"github.com/paulmach/orb"
)

// Arc returns the arc of a circle from one angle to another (radians,
// counter-clockwise when to > from) as an inscribed polyline: every vertex lies
// on the circle and no chord strays from it by more than chordError (mm), its
// sagitta. First and last vertex are the arc's end points; those of a full turn
// are one and the same point. The radius is not negative, the error above 0.
//
//	   _.-"""-._      sagitta s = r (1 - cos(step/2))
//	 .'____|____'.    so step = 2 acos(1 - s/r)
//	/   chord     \
func Arc(centre orb.Point, radius, from, to, chordError float64) orb.LineString {
	n := arcSteps(radius, to-from, chordError)
	line := make(orb.LineString, n+1)
	for i := range line {
		sin, cos := math.Sincos(from + (to-from)*float64(i)/float64(n))
		line[i] = orb.Point{centre[0] + radius*cos, centre[1] + radius*sin}
	}
	sin, cos := math.Sincos(to)
	line[n] = orb.Point{centre[0] + radius*cos, centre[1] + radius*sin}
	if math.Abs(to-from) == 2*math.Pi {
		line[n] = line[0]
	}
	return line
}

// arcSteps is the least number of equal chords of an arc that keeps the sagitta
// within the error; an arc is never coarser than a triangle for a full turn.
func arcSteps(radius, angle, chordError float64) int {
	widest := 2 * math.Pi / 3
	if chordError < radius/2 {
		widest = 2 * math.Acos(1-chordError/radius)
	}
	// The guard keeps a whole number of steps from being rounded up once more.
	return max(1, int(math.Ceil(math.Abs(angle)/widest-1e-9)))
}
