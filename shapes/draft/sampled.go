package draft

import (
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// sampled returns a smooth curve as a polyline whose chords stray from it by no
// more than about the chord error: stretches are halved until their quarter points
// keep within it. It starts from eight equal stretches, so that no bend between
// quarter points goes unseen on curves that turn less than eight times.
func sampled(curve func(t float64) orb.Point, from, to, chord float64) orb.LineString {
	const stretches = 8
	line := orb.LineString{curve(from)}
	for i := range stretches {
		a := from + (to-from)*float64(i)/stretches
		b := from + (to-from)*float64(i+1)/stretches
		if i == stretches-1 {
			b = to
		}
		line = halved(line, curve, a, b, chord, 12)
	}
	return line
}

// halved adds the points of one stretch after its start; depth ends the halving
// where a curve has a corner.
func halved(line orb.LineString, curve func(float64) orb.Point, a, b, chord float64, depth int) orb.LineString {
	start, end := line[len(line)-1], curve(b)
	far := 0.0
	for _, share := range []float64{0.25, 0.5, 0.75} {
		far = max(far, planar.DistanceFromSegment(start, end, curve(a+(b-a)*share)))
	}
	if far <= chord || depth == 0 {
		return append(line, end)
	}
	middle := a + (b-a)/2
	line = halved(line, curve, a, middle, chord, depth-1)
	return halved(line, curve, middle, b, chord, depth-1)
}

// cubic is a cubic Bezier curve by its ends and its two handles, mm.
type cubic [4]orb.Point

// at returns the point at t from 0 to 1.
func (c cubic) at(t float64) orb.Point {
	s := 1 - t
	w := [4]float64{s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t}
	var p orb.Point
	for i, v := range c {
		p[0] += w[i] * v[0]
		p[1] += w[i] * v[1]
	}
	return p
}

// chain samples curves that follow each other.
func chain(chord float64, curves ...cubic) orb.LineString {
	line := orb.LineString{curves[0][0]}
	for _, c := range curves {
		line = append(line, sampled(c.at, 0, 1, chord)[1:]...)
		line[len(line)-1] = c[3]
	}
	return line
}
