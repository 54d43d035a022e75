package bound_test

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// trunk is the part of an outline that is one interval of each line it meets,
// connected from line to line: slabs between neighbouring heights of vertices.
// Two trunks apart that share a line follow each other in one order on all they
// share, since those are all lines between two heights.
type trunk struct {
	slabs      []slab
	long, wide float64 // extents of the whole outline along lines and across them
	lines      []float64
	point      float64 // that lies on the repeat
}

// slab is a trapezium: from left to right at its bottom and at its top.
type slab struct {
	bottom, top float64
	left, right [2]float64
}

func (s slab) area() float64 {
	return (s.top - s.bottom) * (s.right[0] + s.right[1] - s.left[0] - s.left[1])
}

// trunkOf returns a trunk of an outline with its least corner at the origin, for
// lines of the given axis: from the largest slab up and down, each time the
// largest that joins on.
func trunkOf(r orb.Ring, axis int) trunk {
	t := trunk{}
	var heights []float64
	for _, v := range r {
		heights = append(heights, v[1-axis])
		t.long, t.wide = max(t.long, v[axis]), max(t.wide, v[1-axis])
	}
	slices.Sort(heights)
	heights = slices.Compact(heights)
	layers := make([][]slab, len(heights)-1)
	start, chosen := 0, slab{}
	for k := range layers {
		layers[k] = slabsBetween(r, axis, heights[k], heights[k+1])
		for _, s := range layers[k] {
			if s.area() > chosen.area() {
				start, chosen = k, s
			}
		}
	}
	t.slabs = []slab{chosen}
	for k, s := start+1, chosen; k < len(layers); k++ {
		next, ok := largest(layers[k], func(n slab) bool { return joined(s, n) })
		if !ok {
			break
		}
		t.slabs, s = append(t.slabs, next), next
	}
	for k, s := start-1, chosen; k >= 0; k-- {
		next, ok := largest(layers[k], func(n slab) bool { return joined(n, s) })
		if !ok {
			break
		}
		t.slabs, s = append([]slab{next}, t.slabs...), next
	}
	for _, s := range t.slabs {
		// A little inside, where level edges leave no doubt; the borders are steepest
		// at the ends of a slab, so that no others are needed when ranges are short.
		in := min(1e-6, (s.top-s.bottom)/4)
		t.lines = append(t.lines, s.bottom+in, (s.bottom+s.top)/2, s.top-in)
	}
	return t
}

// slabsBetween returns what an outline covers between heights with no vertex
// between them.
func slabsBetween(r orb.Ring, axis int, bottom, top float64) []slab {
	type side [2]float64
	var sides []side
	for i := 1; i < len(r); i++ {
		a, b := r[i-1], r[i]
		low, high := min(a[1-axis], b[1-axis]), max(a[1-axis], b[1-axis])
		if low == high || low > bottom || high < top {
			continue
		}
		at := func(h float64) float64 {
			return a[axis] + (b[axis]-a[axis])*(h-a[1-axis])/(b[1-axis]-a[1-axis])
		}
		sides = append(sides, side{at(bottom), at(top)})
	}
	slices.SortFunc(sides, func(a, b side) int { return cmp.Compare(a[0]+a[1], b[0]+b[1]) })
	var out []slab
	for i := 1; i < len(sides); i += 2 {
		out = append(out, slab{bottom, top, sides[i-1], sides[i]})
	}
	return out
}

// joined says whether a slab and one on top of it share more than a point.
func joined(low, high slab) bool {
	return min(low.right[1], high.right[0])-max(low.left[1], high.left[0]) > 1e-9
}

func largest(slabs []slab, fits func(slab) bool) (best slab, ok bool) {
	for _, s := range slabs {
		if fits(s) && (!ok || s.area() > best.area()) {
			best, ok = s, true
		}
	}
	return best, ok
}

// over returns the greatest left and the least right end over all lines from low
// to high, if the trunk meets them all.
func (t trunk) over(low, high float64) (left, right float64, ok bool) {
	last := len(t.slabs) - 1
	if low < t.slabs[0].bottom || high > t.slabs[last].top {
		return 0, 0, false
	}
	left, right = math.Inf(-1), math.Inf(1)
	k, _ := slices.BinarySearchFunc(t.slabs, low, func(s slab, h float64) int { return cmp.Compare(s.top, h) })
	for ; k <= last && t.slabs[k].bottom <= high; k++ {
		s := t.slabs[k]
		for _, h := range [2]float64{max(low, s.bottom), min(high, s.top)} {
			u := (h - s.bottom) / (s.top - s.bottom)
			left = max(left, s.left[0]+(s.left[1]-s.left[0])*u)
			right = min(right, s.right[0]+(s.right[1]-s.right[0])*u)
		}
	}
	return left, right, true
}

// clear returns how far b must at least lie behind a when it lies higher by low to
// high: what one line says for all these heights at once. Without such a line it
// is a number below any that counts.
func clear(a, b trunk, low, high float64) float64 {
	most := -1e9
	for _, s := range a.lines {
		if left, _, ok := b.over(s-high, s-low); ok {
			_, right, _ := a.over(s, s)
			most = max(most, right-left)
		}
	}
	for _, s := range b.lines {
		if _, right, ok := a.over(s+low, s+high); ok {
			left, _, _ := b.over(s, s)
			most = max(most, right-left)
		}
	}
	return most
}
