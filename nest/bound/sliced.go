package bound

import (
	"cmp"
	"context"
	"math"
	"slices"

	"yardlay/shapes/plane"
)

// usualSlices is how many slices all ways have together, of many ways more, so that each has usualEach, up to
// mostSlices; fewestSlices is how many a way must have in the mean to be worth while, and acrossBins in
// how many bins places across the cloth are counted.
const (
	usualSlices  = 96
	usualEach    = 9
	mostSlices   = 160
	fewestSlices = 4
	acrossBins   = 512
)

// sliced is the ways of pieces cut into slices, and how near two of them can lie side by
// side on one line across the cloth.
type sliced struct {
	items  []int      // of the setting
	counts []float64  // of each
	ways   [][]rowWay // of each, laid crosswise
	many   bool       // ways, for which worths are harder to find
	slices []waySlice //
	steps  [][]int    // bins from a slice to the next one on its line: 1 or more
}

// waySlice is what lies of a way between two lines across the cloth. Its place is that of
// its middle, from the edge of the cloth, in bins, counted from below.
type waySlice struct {
	item, way   int     // of the sliced
	from, to    float64 // along the cloth, from the least corner of the way, mm
	middle      float64 // across the cloth, from there, mm
	right, left float64 // least right border, and least distance of the left one from the far side, mm
	first, last int     // places, bins
}

// sliced cuts the pieces that lines across meet in one interval, or as much of them as they
// meet so; nil where nothing is left to cut, or the context is cancelled.
func (s *setting) sliced(ctx context.Context) *sliced {
	t := &sliced{}
	ways, shaped := 0, false
	for _, it := range s.items {
		ways += len(it.ways)
		for _, w := range it.ways {
			shaped = shaped || plane.Area(w.ring) < w.along*w.across
		}
	}
	if ways > mostSlices/fewestSlices || !shaped { // of rectangles chords see all there is
		return nil
	}
	length := 0.0
	for i, it := range s.crosswise().items {
		var ways []rowWay
		for _, w := range it.ways {
			if ctx.Err() != nil {
				return nil
			}
			if body := monotonePart(w.ring); body != nil {
				rw := rowWay{body: body, room: w.across, extent: w.along}
				rw.right, rw.left = borders(body, s.width*borderTolerance)
				ways = append(ways, rw)
				length += w.across
			}
		}
		if len(ways) > 0 && len(ways) == len(it.ways) {
			t.items, t.counts, t.ways = append(t.items, i), append(t.counts, float64(it.count)), append(t.ways, ways)
		}
	}
	if len(t.items) == 0 {
		return nil
	}
	t.many = usualEach*ways > usualSlices
	t.cut(s.width, length/float64(min(max(usualEach*ways, usualSlices), mostSlices)))
	if !t.step(ctx, s.width, s.gap) {
		return nil
	}
	if t.thin(); len(t.slices) == 0 {
		return nil
	}
	return t
}

// cut makes the slices.
func (t *sliced) cut(width, thickness float64) {
	bin := width / acrossBins
	for i, ways := range t.ways {
		for k, w := range ways {
			low, high := w.right.at[0], w.right.at[len(w.right.at)-1]
			n := max(int(math.Round((high-low)/thickness)), 1)
			far := w.far()
			for c := range n {
				l := waySlice{item: i, way: k}
				l.from, l.to = low+(high-low)*float64(c)/float64(n), low+(high-low)*float64(c+1)/float64(n)
				l.right, l.left = w.right.least(l.from, l.to), w.left.least(l.from, l.to)
				l.middle = (l.right + far - l.left) / 2
				l.first = max(int(math.Floor(l.middle/bin-1e-6)), 0)
				l.last = int(math.Floor((width-w.extent+l.middle)/bin + 1e-6))
				t.slices = append(t.slices, l)
			}
		}
	}
}

// far is the greatest x of a way's body.
func (w rowWay) far() float64 {
	far := 0.0
	for _, v := range w.body {
		far = max(far, v[0])
	}
	return far
}

// least returns the least value between two lines within the profile.
func (p profile) least(from, to float64) float64 {
	least := math.Inf(1)
	for k := max(p.slab(from), 0); k < len(p.left) && p.at[k] < to; k++ {
		low, high := max(from, p.at[k]), min(to, p.at[k+1])
		if high <= low {
			continue
		}
		at := func(s float64) float64 { return p.left[k] + p.slope[k]*(s-p.at[k]) }
		least = min(least, at(low), at(high))
	}
	return least
}

// step fills in the steps: what the whole outlines need where the two slices have a line in
// common, and what the slices themselves need on it. It says whether the context let it.
func (t *sliced) step(ctx context.Context, width, gap float64) bool {
	bin := width / acrossBins
	var tables [][]stepTable // from a way to another, in the order of their slices
	number := map[[2]int]int{}
	var ways []rowWay
	for i := range t.ways {
		for k, w := range t.ways[i] {
			number[[2]int{i, k}] = len(ways)
			ways = append(ways, w)
		}
	}
	for _, a := range ways {
		if ctx.Err() != nil {
			return false
		}
		var to []stepTable
		for _, b := range ways {
			to = append(to, newStepTable(a, b, -b.room, a.room, gap))
		}
		tables = append(tables, to)
	}
	for _, a := range t.slices {
		row := make([]int, len(t.slices))
		for n, b := range t.slices {
			from, to := number[[2]int{a.item, a.way}], number[[2]int{b.item, b.way}]
			step := tables[from][to].least(a.from-b.to, a.to-b.from)
			step = max(step, a.right+b.left-ways[to].far()+gap)
			row[n] = int(math.Floor((step+b.middle-a.middle)/bin - 1e-6))
		}
		t.steps = append(t.steps, row)
	}
	return true
}

// thin leaves out slices that do not go a step away from all others, the narrowest first:
// chains of them would have no end.
func (t *sliced) thin() {
	order := make([]int, len(t.slices))
	for n := range order {
		order[n] = n
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(t.steps[a][a], t.steps[b][b]) })
	out := make([]bool, len(t.slices))
	for _, n := range order {
		for m := range t.slices {
			if !out[m] && (t.steps[n][m] < 1 || t.steps[m][n] < 1) {
				out[n] = true
				break
			}
		}
	}
	kept := func(n int) bool { return !out[n] }
	t.slices = only(t.slices, kept)
	t.steps = only(t.steps, kept)
	for n, row := range t.steps {
		t.steps[n] = only(row, kept)
	}
}

// only returns the elements whose numbers are kept.
func only[T any](all []T, kept func(n int) bool) []T {
	var out []T
	for n, v := range all {
		if kept(n) {
			out = append(out, v)
		}
	}
	return out
}
