package search

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// startKind is a way to make a state to separate from, on a strip shorter than any
// layout that is known.
type startKind uint8

const (
	pressed    startKind = iota // the best layout, what sticks out pushed in
	rows                        // laid from the lower edge up, in rows along the strip
	columnwise                  // laid from the cut end on, in columns across it
	startKinds
)

// orderSpread is how much smaller than it is an item may be taken to be when
// bigger ones go first, so that no two orders are alike.
const orderSpread = 0.3

// startWithin makes a state on a strip of the given length. It returns nil when the
// lane was stopped or had no work left.
func (l *lane) startWithin(length float64, kind startKind) *placement {
	if kind == pressed {
		return l.best
	}
	c := l.newBuilder(l.pool.stopped)
	c.at.length = length
	for _, i := range l.shuffledBigFirst() {
		if l.pool.stopped() || l.exhausted() {
			return nil
		}
		if t, ok := l.firstWithin(c, i, length, kind); ok {
			c.put(i, t.way, t.x, t.y)
			continue
		}
		t := l.anywhere(i, length) // there is no room: overlapping the others, for now
		c.at.way[i], c.at.x[i], c.at.y[i] = t.way, t.x, t.y
	}
	return c.at
}

// ranges returns where a way's corner may be on a strip of the given length, of an
// item that is in no group.
func (in *instance) ranges(w *way, length float64) (along, across track) {
	return track{hi: length - in.shapes[w.shape].w}, track{lo: w.lo, hi: w.hi}
}

// shuffledBigFirst orders the movable items by area, more or less.
func (l *lane) shuffledBigFirst() []int {
	order, taken := make([]int, l.movable), make([]float64, l.movable)
	for i := range order {
		order[i], taken[i] = i, l.items[i].area*(1-orderSpread*l.rng.Float64())
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(taken[b], taken[a]) })
	return order
}

// anywhere draws a place for item i.
func (l *lane) anywhere(i int, length float64) trial {
	straight := l.items[i].straight
	w := straight[l.rng.IntN(len(straight))]
	along, across := l.ranges(&l.items[i].ways[w], length)
	return trial{way: w, x: along.part(l.rng.Float64()), y: across.part(l.rng.Float64())}
}

// firstWithin returns the free place for item i at which it ends lowest, or soonest
// along the strip, among the corners of its no-fit regions with the items laid and
// of the strip.
func (l *lane) firstWithin(c *builder, i int, length float64, kind startKind) (trial, bool) {
	best, bestEnd := trial{}, math.Inf(1)
	for _, w := range l.items[i].straight {
		way := &l.items[i].ways[w]
		along, across := l.ranges(way, length)
		if along.empty() || across.empty() {
			continue
		}
		sh := &l.shapes[way.shape]
		for _, p := range l.cornersWithin(c, way.shape, along, across, kind) {
			end := p[1] + sh.h
			if kind == columnwise {
				end = p[0] + sh.w
			}
			if end >= bestEnd || l.pool.stopped() {
				break
			}
			l.evals++
			if c.free(way.shape, p) {
				best, bestEnd = trial{way: w, x: p[0], y: p[1]}, end
				break
			}
		}
	}
	return best, !math.IsInf(bestEnd, 1)
}

// cornersWithin lists the corners in the order in which they are tried.
func (l *lane) cornersWithin(c *builder, s int32, along, across track, kind startKind) []orb.Point {
	c.places = c.places[:0]
	keep := func(x, y float64) {
		at := orb.Point{along.nearest(x), across.nearest(y)}
		if math.Abs(x-at[0]) <= l.tolerance && math.Abs(y-at[1]) <= l.tolerance {
			c.places = append(c.places, at)
		}
	}
	for _, x := range [2]float64{along.lo, along.hi} {
		keep(x, across.lo)
		keep(x, across.hi)
	}
	for k, j := range c.placed {
		if l.pool.stopped() {
			return nil
		}
		l.evals++
		x, y := c.at.x[j], c.at.y[j]
		c.corners(s, along, across, c.placedShape[k], x, y, keep)
		c.regions.of(c.placedShape[k], s).CrossX(along.hi-x, func(vy float64) { keep(along.hi, y+vy) })
	}
	first, then := 0, 1
	if kind == rows {
		first, then = 1, 0
	}
	slices.SortFunc(c.places, func(a, b orb.Point) int {
		return cmp.Or(cmp.Compare(a[first], b[first]), cmp.Compare(a[then], b[then]))
	})
	return c.places
}
