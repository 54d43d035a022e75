package nofit

import (
	"cmp"
	"math"
	"slices"

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
// It is clean unless rounding made it pass over a vertex. It takes n^2: cutting an
// ear off changes only whether its two neighbours are ears.
func clipEars(open []orb.Point) (out [][]int, clean bool) {
	left := make([]int, len(open))
	ear := make([]bool, len(open)) // by index into open
	for i := range left {
		left[i] = i
	}
	look := func(i int) {
		n := len(left)
		a, b, c := left[(i+n-1)%n], left[i%n], left[(i+1)%n]
		ear[b] = isEar(open, left, a, b, c)
	}
	lookAtAll := func() {
		for i := range left {
			look(i)
		}
	}
	lookAtAll()
	clean = true
	for len(left) > 3 {
		n, best := len(left), shortestEar(open, left, ear)
		if best < 0 { // only rounding can bring us here
			lookAtAll()
			best = shortestEar(open, left, ear)
		}
		if best < 0 { // give up a flat vertex
			best, clean = flattest(open, left), false
		}
		a, b, c := left[(best+n-1)%n], left[best], left[(best+1)%n]
		if plane.Orient(open[a], open[b], open[c]) > 0 {
			out = append(out, []int{a, b, c})
		}
		left = append(left[:best:best], left[best+1:]...)
		look(best + n - 2)
		look(best)
	}
	if plane.Orient(open[left[0]], open[left[1]], open[left[2]]) > 0 {
		out = append(out, left)
	}
	return out, clean
}

// shortestEar returns the place in left of the ear with the shortest diagonal.
func shortestEar(open []orb.Point, left []int, ear []bool) int {
	n, best, bestLength := len(left), -1, math.Inf(1)
	for i, b := range left {
		if !ear[b] {
			continue
		}
		if d := dist2(open[left[(i+n-1)%n]], open[left[(i+1)%n]]); d < bestLength {
			best, bestLength = i, d
		}
	}
	return best
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
		if plane.Orient(open[a], open[b], p) >= 0 && plane.Orient(open[b], open[c], p) >= 0 &&
			plane.Orient(open[c], open[a], p) >= 0 {
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
// longest diagonals first. A merger only widens the corners of what it makes, so
// that a diagonal which cannot go now never can.
func mergeParts(open []orb.Point, parts [][]int) [][]int {
	type diagonal struct{ from, to int }
	owner := map[diagonal]int{} // of each side, the part that it runs around
	var diagonals []diagonal
	for k, p := range parts {
		for i, a := range p {
			side := diagonal{a, p[(i+1)%len(p)]}
			owner[side] = k
			if _, ok := owner[diagonal{side.to, side.from}]; ok {
				diagonals = append(diagonals, side)
			}
		}
	}
	slices.SortStableFunc(diagonals, func(d, e diagonal) int {
		return cmp.Compare(dist2(open[e.from], open[e.to]), dist2(open[d.from], open[d.to]))
	})
	for _, d := range diagonals {
		k, other := owner[d], owner[diagonal{d.to, d.from}]
		merged := joined(open, parts[k], parts[other], d.from, d.to)
		if merged == nil {
			continue
		}
		k, other = min(k, other), max(k, other)
		for i, a := range parts[other] {
			owner[diagonal{a, parts[other][(i+1)%len(parts[other])]}] = k
		}
		parts[k], parts[other] = merged, nil
	}
	return slices.DeleteFunc(parts, func(p []int) bool { return p == nil })
}

// joined returns the union of part p, which has a side from a to b, and part q,
// which has one from b to a, when it is convex.
func joined(open []orb.Point, p, q []int, a, b int) []int {
	i, j := slices.Index(p, a), slices.Index(q, b)
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
			return nil
		}
	}
	return merged
}

func dist2(a, b orb.Point) float64 {
	dx, dy := a[0]-b[0], a[1]-b[1]
	return dx*dx + dy*dy
}
