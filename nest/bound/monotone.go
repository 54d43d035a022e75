package bound

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// An outline that meets every line along the cloth in one interval, if at all, need
// not be convex to lie in a row: of two such outlines that are apart, the order on
// the lines they share cannot change from one line to the next. The step between
// them, the greatest right(s) - left(s-d), is then not concave in d; but between
// one edge of the first and one of the second it is, so that over a short range
// of d it is at least what one pair of edges says at both ends.

// monotone says whether a ring meets every level line but those of its own edges in one
// interval: it goes up once, and down once. On a line with an edge, the interval below and the
// one above it have more than a point in common, or the ring would touch itself, so that an
// order of outlines cannot change there either.
func monotone(ring orb.Ring) bool {
	n, turns := len(ring)-1, 0
	var ways []bool // of the edges that are not level: up or down
	for i := range n {
		if a, b := ring[i], ring[i+1]; a[1] != b[1] {
			ways = append(ways, b[1] > a[1])
		}
	}
	for i, up := range ways {
		if up && !ways[(i+1)%len(ways)] {
			turns++
		}
	}
	return turns == 1
}

// monotonePart returns the part of a ring between two lines where it meets every
// line in one interval: as much of its height as can be. A ring that never does
// gives nil.
func monotonePart(ring orb.Ring) orb.Ring {
	if monotone(ring) {
		return ring
	}
	at := chords(ring, LinesAlong).at
	crossed := make([]int, len(at)) // edges that cross each slab; the last ends a run
	for i := 1; i < len(ring); i++ {
		low, high := min(ring[i-1][1], ring[i][1]), max(ring[i-1][1], ring[i][1])
		for k, _ := slices.BinarySearch(at, low); at[k] < high; k++ {
			crossed[k]++
		}
	}
	from, to, start := 0.0, 0.0, 0
	for k, n := range crossed {
		if n != 2 {
			start = k + 1
		} else if at[k+1]-at[start] > to-from {
			from, to = at[start], at[k+1]
		}
	}
	part := cutLeft(ring, func(v orb.Point) float64 { return v[1] - from })
	part = slices.Compact(cutLeft(part, func(v orb.Point) float64 { return to - v[1] })) // a cut may run through a vertex
	if len(part) < 4 || !monotone(part) {
		return nil
	}
	return part
}

// borderTolerance is how far borders may lie inside, in parts of the cloth's width.
const borderTolerance = 1e-4

// borders returns the right border of a monotone ring as its distance from x = 0,
// and the left one as its distance from the ring's greatest x, both from below.
func borders(ring orb.Ring, tol float64) (right, left profile) {
	far := 0.0
	for _, v := range ring {
		far = max(far, v[0])
	}
	whole := chords(ring, LinesAlong)
	side := func(rising bool) profile {
		p := profile{at: whole.at, left: make([]float64, len(whole.left)), right: make([]float64, len(whole.left))}
		for i := 1; i < len(ring); i++ {
			a, b := ring[i-1], ring[i]
			if a[1] == b[1] || (a[1] < b[1]) != rising {
				continue
			}
			if !rising {
				a, b = orb.Point{far - b[0], b[1]}, orb.Point{far - a[0], a[1]}
			}
			for k := p.slab(a[1]); p.at[k] < b[1]; k++ {
				p.left[k], p.right[k] = between(a, b, 1, 0, p.at[k]), between(a, b, 1, 0, p.at[k+1])
			}
		}
		return p.summed().simpler(tol)
	}
	return side(true), side(false)
}

// stepCells is the number of ranges of height over which steps are tabulated.
const stepCells = 192

// stepTable holds least steps over equal ranges of the difference in height.
type stepTable struct {
	from, cell float64
	steps      []float64
}

// newStepTable tabulates the step from a to b, which lies higher by from to to, with a gap
// along the cloth. Of the differences in height, a pair of slabs is asked only for those at
// which it has lines in common.
func newStepTable(a, b rowWay, from, to, gap float64) stepTable {
	far := 0.0
	for _, v := range b.body {
		far = max(far, v[0])
	}
	t := stepTable{from: from, cell: (to - from) / stepCells, steps: make([]float64, stepCells)}
	for k := range t.steps {
		t.steps[k] = math.Inf(-1)
	}
	p, q := a.right, b.left
	for i := range p.left {
		for j := range q.left {
			t.raise(p, i, q, j)
		}
	}
	for k := range t.steps {
		t.steps[k] = t.steps[k] - far + gap
	}
	return t
}

// raise lets the steps be at least what slab i of p and slab j of q say at both ends of a range.
func (t stepTable) raise(p profile, i int, q profile, j int) {
	first, last := 0, stepCells
	if t.cell > 0 { // one more on either side: quotients are rounded
		first = max(int(math.Floor((p.at[i]-q.at[j+1]-t.from)/t.cell)), 0)
		last = min(int(math.Ceil((p.at[i+1]-q.at[j]-t.from)/t.cell)), stepCells)
	}
	if last <= first {
		return
	}
	below := edgeStep(p, i, q, j, t.from+t.cell*float64(first))
	for k := first; k < last; k++ {
		above := edgeStep(p, i, q, j, t.from+t.cell*float64(k+1))
		t.steps[k] = max(t.steps[k], min(below, above))
		below = above
	}
}

// edgeStep returns the most that slab i of p and slab j of q, moved up by d, come
// to together on a line they share; without one, less than anything.
func edgeStep(p profile, i int, q profile, j int, d float64) float64 {
	low, high := max(p.at[i], q.at[j]+d), min(p.at[i+1], q.at[j+1]+d)
	if high-low < 1e-9 { // on a single line outlines may touch
		return math.Inf(-1)
	}
	at := func(s float64) float64 {
		return p.left[i] + p.slope[i]*(s-p.at[i]) + q.left[j] + q.slope[j]*(s-d-q.at[j])
	}
	return max(at(low), at(high))
}

// least returns the least step over the ranges that meet a to b.
func (t stepTable) least(a, b float64) float64 {
	if t.cell == 0 {
		return t.steps[0]
	}
	first := min(max(int(math.Floor((a-t.from)/t.cell-1e-6)), 0), stepCells-1)
	last := min(max(int(math.Floor((b-t.from)/t.cell+1e-6)), 0), stepCells-1)
	least := t.steps[first]
	for _, v := range t.steps[first : last+1] {
		least = min(least, v)
	}
	return least
}
