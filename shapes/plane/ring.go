package plane

import (
	"math"

	"github.com/paulmach/orb"
)

// Area returns the signed area of a closed ring, positive when it runs
// counter-clockwise. Coordinates are taken relative to the first vertex, which
// keeps the sum accurate far from the origin.
func Area(r orb.Ring) float64 {
	if len(r) < 4 {
		return 0
	}
	o, twice := r[0], 0.0
	for i := 1; i+1 < len(r); i++ {
		a, b := r[i], r[i+1]
		twice += (a[0]-o[0])*(b[1]-o[1]) - (b[0]-o[0])*(a[1]-o[1])
	}
	return twice / 2
}

// Bounds returns the smallest upright rectangle around the points.
func Bounds(points []orb.Point) orb.Bound {
	lo := orb.Point{math.Inf(1), math.Inf(1)}
	hi := orb.Point{math.Inf(-1), math.Inf(-1)}
	for _, p := range points {
		lo = orb.Point{math.Min(lo[0], p[0]), math.Min(lo[1], p[1])}
		hi = orb.Point{math.Max(hi[0], p[0]), math.Max(hi[1], p[1])}
	}
	return orb.Bound{Min: lo, Max: hi}
}

// IsBox says whether a closed ring is its own bounding box: every side lies on a side of that.
func IsBox(r orb.Ring) bool {
	box := Bounds(r)
	on := func(a, b orb.Point, axis int) bool {
		return a[axis] == b[axis] && (a[axis] == box.Min[axis] || a[axis] == box.Max[axis])
	}
	for i := 1; i < len(r); i++ {
		if !on(r[i-1], r[i], 0) && !on(r[i-1], r[i], 1) {
			return false
		}
	}
	return true
}

// Length returns the length of a polyline, mm.
func Length(line []orb.Point) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		sum += math.Hypot(line[i][0]-line[i-1][0], line[i][1]-line[i-1][1])
	}
	return sum
}

// Tidy returns r closed, counter-clockwise, and without repeated vertices or
// vertices exactly on the line through their neighbours: spikes go too.
func Tidy(r orb.Ring) orb.Ring {
	open := make([]orb.Point, 0, len(r))
	for _, p := range r {
		open = pushTidy(open, p)
	}
	if len(open) == 0 {
		return nil
	}
	// Where the ring closes, its ends are neighbours as well.
	for {
		n := len(open)
		switch {
		case n > 1 && open[0] == open[n-1]:
			open = open[:n-1]
			continue
		case n > 3 && Orient(open[n-2], open[n-1], open[0]) == 0:
			open = open[:n-1]
			continue
		case n > 3 && Orient(open[n-1], open[0], open[1]) == 0:
			open = open[1:]
			continue
		}
		break
	}
	out := append(orb.Ring(open), open[0])
	if Area(out) < 0 {
		out.Reverse()
	}
	return out
}

// pushTidy adds a vertex to a line and drops those before it that say nothing.
func pushTidy(line []orb.Point, p orb.Point) []orb.Point {
	for {
		n := len(line)
		switch {
		case n > 0 && line[n-1] == p:
			return line
		case n > 1 && Orient(line[n-2], line[n-1], p) == 0:
			line = line[:n-1]
			continue
		}
		return append(line, p)
	}
}
