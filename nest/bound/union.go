package bound

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// sameLine is how near two lines must be to count as one, mm.
const sameLine = 1e-9

// unionChords returns the profile of what convex rings cover together: between neighbouring lines through a
// corner, or where two of them cross, the sides in which the union begins and ends stay the same.
func unionChords(parts []orb.Ring, axis Axis) profile {
	t, u := 1, 0
	if axis == LinesAcross {
		t, u = 0, 1
	}
	var p profile
	for i, part := range parts {
		for _, v := range part {
			p.at = append(p.at, v[t])
		}
		for _, other := range parts[:i] {
			p.at = crossings(p.at, part, other, t)
		}
	}
	slices.Sort(p.at)
	p.at = slices.CompactFunc(p.at, func(a, b float64) bool { return math.Abs(b-a) < sameLine })
	for k := 1; k < len(p.at); k++ {
		low, high := covered(parts, t, u, p.at[k-1], p.at[k])
		p.left, p.right = append(p.left, low), append(p.right, high)
	}
	return p.summed()
}

// crossings appends the lines on which sides of two rings cross.
func crossings(at []float64, a, b orb.Ring, t int) []float64 {
	for i := 1; i < len(a); i++ {
		p, d := a[i-1], orb.Point{a[i][0] - a[i-1][0], a[i][1] - a[i-1][1]}
		for j := 1; j < len(b); j++ {
			q, e := b[j-1], orb.Point{b[j][0] - b[j-1][0], b[j][1] - b[j-1][1]}
			det := d[0]*e[1] - d[1]*e[0]
			if det == 0 {
				continue
			}
			x, y := q[0]-p[0], q[1]-p[1]
			v, w := (x*e[1]-y*e[0])/det, (x*d[1]-y*d[0])/det
			if v > 0 && v < 1 && w > 0 && w < 1 {
				at = append(at, p[t]+v*d[t])
			}
		}
	}
	return at
}

// covered returns what rings cover together of two lines, between which none has a corner and no two sides cross.
func covered(parts []orb.Ring, t, u int, low, high float64) (atLow, atHigh float64) {
	var lows, highs [][2]float64
	middle := (low + high) / 2
	for _, part := range parts {
		var l, h [2]float64
		n := 0
		for i := 1; i < len(part) && n < 2; i++ {
			a, b := part[i-1], part[i]
			if (a[t] <= middle) == (b[t] <= middle) {
				continue
			}
			if a[t] > b[t] {
				a, b = b, a
			}
			l[n], h[n] = between(a, b, t, u, max(low, a[t])), between(a, b, t, u, min(high, b[t]))
			n++
		}
		if n == 2 {
			lows, highs = append(lows, l), append(highs, h)
		}
	}
	return together(lows), together(highs)
}

// together is the length of intervals, given by both ends in any order, that may overlap; they are put in order.
func together(intervals [][2]float64) float64 {
	for i, v := range intervals {
		intervals[i] = [2]float64{min(v[0], v[1]), max(v[0], v[1])}
	}
	slices.SortFunc(intervals, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	sum, end := 0.0, 0.0
	for i, v := range intervals {
		if i == 0 || v[0] > end {
			sum, end = sum+v[1]-v[0], v[1]
		} else if v[1] > end {
			sum, end = sum+v[1]-end, v[1]
		}
	}
	return sum
}
