package nofit

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// A convex is a convex polygon, counter-clockwise, open (first vertex not
// repeated).
type convex []orb.Point

// decompose cuts a simple counter-clockwise ring into convex parts whose union
// is the ring: ear clipping, then removal of every diagonal whose ends stay
// convex without it (S. Hertel & K. Mehlhorn, "Fast triangulation of the plane
// with respect to simple polygons", Information and Control 64, 1985: at most
// four times the least number of parts).
func decompose(ring orb.Ring) []part {
	ring = plane.Tidy(ring)
	open := []orb.Point(ring[:len(ring)-1])
	if isConvex(open) {
		whole := make([]int, len(open))
		for i := range whole {
			whole[i] = i
		}
		return []part{newPart(open, whole, true)}
	}
	triangles, clean := clipEars(open)
	var out []part
	for _, corners := range mergeParts(open, triangles) {
		out = append(out, newPart(open, corners, clean))
	}
	return out
}

func isConvex(open []orb.Point) bool {
	n := len(open)
	for i := range open {
		if plane.Orient(open[i], open[(i+1)%n], open[(i+2)%n]) < 0 {
			return false
		}
	}
	return true
}

// clipEars triangulates; triangles hold indices into open. Of the ears at hand
// the one with the shortest diagonal goes first, which keeps triangles compact.
// It is clean unless rounding made it pass over a vertex.
func clipEars(open []orb.Point) (out [][]int, clean bool) {
	left := make([]int, len(open))
	for i := range left {
		left[i] = i
	}
	clean = true
	for len(left) > 3 {
		n := len(left)
		best, bestLength := -1, math.Inf(1)
		for i := range left {
			a, b, c := left[(i+n-1)%n], left[i], left[(i+1)%n]
			d := dist2(open[a], open[c])
			if d < bestLength && isEar(open, left, a, b, c) {
				best, bestLength = i, d
			}
		}
		if best < 0 { // only rounding can bring us here: give up a flat vertex
			best, clean = flattest(open, left), false
		}
		a, b, c := left[(best+n-1)%n], left[best], left[(best+1)%n]
		if plane.Orient(open[a], open[b], open[c]) > 0 {
			out = append(out, []int{a, b, c})
		}
		left = append(left[:best:best], left[best+1:]...)
	}
	if plane.Orient(open[left[0]], open[left[1]], open[left[2]]) > 0 {
		out = append(out, left)
	}
	return out, clean
}

func isEar(open []orb.Point, left []int, a, b, c int) bool {
	if plane.Orient(open[a], open[b], open[c]) <= 0 {
		return false
	}
	for _, k := range left {
		if k == a || k == b || k == c {
			continue
		}
		p := open[k]
		if p == open[a] || p == open[c] {
			continue
		}
		if plane.Orient(open[a], open[b], p) >= 0 && plane.Orient(open[b], open[c], p) >= 0 && plane.Orient(open[c], open[a], p) >= 0 {
			return false
		}
	}
	return true
}

func flattest(open []orb.Point, left []int) int {
	n, best, bestArea := len(left), 0, math.Inf(1)
	for i := range left {
		a, b, c := open[left[(i+n-1)%n]], open[left[i]], open[left[(i+1)%n]]
		area := math.Abs((b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0]))
		if area < bestArea {
			best, bestArea = i, area
		}
	}
	return best
}

// mergeParts joins parts across shared diagonals while they stay convex,
// longest diagonals first.
func mergeParts(open []orb.Point, parts [][]int) [][]int {
	for {
		best, bestLength := [2]int{}, -1.0
		var bestMerged []int
		for i := range parts {
			for j := i + 1; j < len(parts); j++ {
				merged, length := joined(open, parts[i], parts[j])
				if merged != nil && length > bestLength {
					best, bestLength, bestMerged = [2]int{i, j}, length, merged
				}
			}
		}
		if bestLength < 0 {
			return parts
		}
		parts[best[0]] = bestMerged
		parts = append(parts[:best[1]], parts[best[1]+1:]...)
	}
}

// joined returns the union of two parts that share a diagonal when it is
// convex, with the squared length of that diagonal.
func joined(open []orb.Point, p, q []int) ([]int, float64) {
	for i := range p {
		a, b := p[i], p[(i+1)%len(p)]
		for j := range q {
			if q[j] != b || q[(j+1)%len(q)] != a {
				continue
			}
			merged := make([]int, 0, len(p)+len(q)-2)
			for k := 1; k <= len(p); k++ { // b ... a along p
				merged = append(merged, p[(i+k)%len(p)])
			}
			for k := 2; k < len(q); k++ { // then q after a, up to before b
				merged = append(merged, q[(j+k)%len(q)])
			}
			for k := range merged {
				n := len(merged)
				if plane.Orient(open[merged[k]], open[merged[(k+1)%n]], open[merged[(k+2)%n]]) < 0 {
					return nil, 0
				}
			}
			return merged, dist2(open[a], open[b])
		}
	}
	return nil, 0
}

func dist2(a, b orb.Point) float64 {
	dx, dy := a[0]-b[0], a[1]-b[1]
	return dx*dx + dy*dy
}
