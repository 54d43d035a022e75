package sheet

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// Hatching in mm of paper: ends are ruled one way, flaws both ways and closer.
const (
	endStep  = 1.8
	flawStep = 1.3
)

// maxRuled is far more lines than any page shows.
const maxRuled = 1e5

// ruled gives the parts inside a ring of parallel lines step apart, one of which
// runs through a point; angle is theirs, degrees counter-clockwise as seen.
func ruled(ring orb.Ring, through orb.Point, angle, step float64) []orb.LineString {
	level := orb.Ring(turnedAll(ring, angle))
	first, b := turned(through, angle)[1], level.Bound()
	if !((b.Max[1]-b.Min[1])/step < maxRuled) { // not numbers, or not finite
		return nil
	}
	var lines []orb.LineString
	for n := math.Ceil((b.Min[1] - first) / step); first+n*step <= b.Max[1]; n++ {
		y := first + n*step
		var xs []float64
		for i := 1; i < len(level); i++ {
			p, q := level[i-1], level[i]
			if (p[1] <= y) != (q[1] <= y) {
				xs = append(xs, p[0]+(y-p[1])/(q[1]-p[1])*(q[0]-p[0]))
			}
		}
		slices.Sort(xs)
		for i := 1; i < len(xs); i += 2 {
			if xs[i] > xs[i-1] {
				lines = append(lines, turnedAll([]orb.Point{{xs[i-1], y}, {xs[i], y}}, -angle))
			}
		}
	}
	return lines
}

// hatched draws lines at some angles in a ring, step in mm.
func hatched(role Role, ring orb.Ring, step float64, angles ...float64) []Item {
	var items []Item
	for _, a := range angles {
		for _, l := range ruled(ring, orb.Point{}, a, step) {
			items = append(items, Line{role, l})
		}
	}
	return items
}
