package nofit

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// A convex is a convex polygon, counter-clockwise, open (first vertex not
// repeated).
type convex []orb.Point

// Decompose cuts a simple counter-clockwise ring into convex parts whose union
// is the ring: ear clipping, then removal of every diagonal whose ends stay
// convex without it (S. Hertel & K. Mehlhorn, "Fast triangulation of the plane
// with respect to simple polygons", Information and Control 64, 1985: at most
// four times the least number of parts).
func decompose(ring orb.Ring) []convex {
	ring = plane.Tidy(ring)
	open := []orb.Point(ring[:len(ring)-1])
	if isConvex(open) {
		return []convex{append(convex(nil), open...)}
	}
	triangles := clipEars(open)
	return mergeParts(open, triangles)
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
func clipEars(open []orb.Point) [][]int {
	left := make([]int, len(open))
	for i := range left {
		left[i] = i
	}
	var out [][]int
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
			best = flattest(open, left)
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
	return out
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
func mergeParts(open []orb.Point, parts [][]int) []convex {
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
			break
		}
		parts[best[0]] = bestMerged
		parts = append(parts[:best[1]], parts[best[1]+1:]...)
	}
	out := make([]convex, len(parts))
	for i, part := range parts {
		for _, k := range part {
			out[i] = append(out[i], open[k])
		}
	}
	return out
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

// negated returns -c, counter-clockwise again (a half turn).
func (c convex) negated() convex {
	out := make(convex, len(c))
	for i, p := range c {
		out[i] = orb.Point{-p[0], -p[1]}
	}
	return out
}

// lowest returns the index of the lowest, then leftmost vertex.
func (c convex) lowest() int {
	best := 0
	for i, p := range c {
		if p[1] < c[best][1] || p[1] == c[best][1] && p[0] < c[best][0] {
			best = i
		}
	}
	return best
}

// sum returns the Minkowski sum of two convex polygons by merging their edges
// in order of direction. Each vertex is one sum of two given vertices, so that
// errors do not build up.
func (c convex) sum(d convex) convex {
	i0, j0 := c.lowest(), d.lowest()
	out := make(convex, 0, len(c)+len(d))
	for i, j := 0, 0; i < len(c) || j < len(d); {
		a, b := c[(i0+i)%len(c)], d[(j0+j)%len(d)]
		out = append(out, orb.Point{a[0] + b[0], a[1] + b[1]})
		if i == len(c) {
			j++
			continue
		}
		if j == len(d) {
			i++
			continue
		}
		a2, b2 := c[(i0+i+1)%len(c)], d[(j0+j+1)%len(d)]
		cross := (a2[0]-a[0])*(b2[1]-b[1]) - (a2[1]-a[1])*(b2[0]-b[0])
		if cross >= 0 {
			i++
		}
		if cross <= 0 {
			j++
		}
	}
	return out
}

// disc returns a polygon of n sides around a disc of the given radius.
func disc(radius float64, n int) convex {
	out := make(convex, n)
	r := radius / math.Cos(math.Pi/float64(n))
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / float64(n))
		out[i] = orb.Point{r * cos, r * sin}
	}
	return out
}
