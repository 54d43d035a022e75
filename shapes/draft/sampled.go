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
		line = halved(line, curve, a, b, curve(b), chord, 12)
	}
	return line
}

// halved adds the points of one stretch after its start, up to its end; depth ends the halving where a curve has a
// corner. A stretch that strays does so at its middle as a rule: that is asked first, and is where its first half ends.
func halved(line orb.LineString, curve func(float64) orb.Point, a, b float64, end orb.Point,
	chord float64, depth int) orb.LineString {
	if depth == 0 {
		return append(line, end)
	}
	start := line[len(line)-1]
	strays := func(at orb.Point) bool { return planar.DistanceFromSegment(start, end, at) > chord }
	between := a + (b-a)*0.5
	middle := curve(between)
	if !strays(middle) && !strays(curve(a+(b-a)*0.25)) && !strays(curve(a+(b-a)*0.75)) {
		return append(line, end)
	}
	line = halved(line, curve, a, between, middle, chord, depth-1)
	return halved(line, curve, between, b, end, chord, depth-1)
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
