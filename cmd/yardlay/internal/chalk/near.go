package chalk

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// fineness is how far apart the points of a line are from which its distance to another
// is measured, mm. The distance changes by no more than half of that between two of
// them, and along lines that run side by side by far less.
const fineness = 2.0

// apart returns how far two lines lie apart at the most, mm: the farthest that a point
// of either lies from the other (Hausdorff distance), measured at points a fineness
// apart. It gives up beyond a limit and returns what it has found.
func apart(a, b []orb.Point, limit float64) float64 {
	return math.Max(farthest(a, b, limit), farthest(b, a, limit))
}

// farthest returns how far a point of a line lies from another line at the most, mm.
func farthest(from, to []orb.Point, limit float64) float64 {
	worst, near := 0.0, 0
	for i := range from {
		steps := 1
		if i > 0 {
			steps = max(1, int(math.Ceil(distance(from[i-1], from[i])/fineness)))
		}
		for k := 1; k <= steps; k++ {
			p := from[i]
			if i > 0 {
				p = between(from[i-1], from[i], float64(k)/float64(steps))
			}
			var d float64
			d, near = toLine(p, to, near, worst)
			if worst = math.Max(worst, d); worst > limit {
				return worst
			}
		}
	}
	return worst
}

// toLine returns the distance of a point from a line, and the segment by which it was
// found: segments next to the one given are looked at first, and the search ends as
// soon as the distance is no more than enough.
func toLine(p orb.Point, line []orb.Point, near int, enough float64) (float64, int) {
	if len(line) == 1 {
		return distance(p, line[0]), 0
	}
	least, at := math.Inf(1), 0
	last := len(line) - 2
	for off := 0; off <= last+1; off++ {
		for _, i := range [2]int{near + off, near - off} {
			if i < 0 || i > last {
				continue
			}
			if d := planar.DistanceFromSegment(line[i], line[i+1], p); d < least {
				least, at = d, i
			}
		}
		if least <= enough {
			break
		}
	}
	return least, at
}

func distance(a, b orb.Point) float64 { return math.Hypot(b[0]-a[0], b[1]-a[1]) }

// between returns the point a share t of the way from a to b.
func between(a, b orb.Point, t float64) orb.Point {
	return orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
}
