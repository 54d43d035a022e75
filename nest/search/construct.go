package search

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// construct makes a first layout: big items first, each to the place where it
// ends soonest along the strip, among the corners of its no-fit regions with
// the items already placed and of the strip. report is called with how many are laid. Once
// stop says so, the others follow in rows.
func (in *instance) construct(workers int, stop func() bool, report func(laid int)) *placement {
	c := in.newBuilder(stop)
	c.workers, c.few = workers, in.firstPairs() > mostFirstPairs
	order := in.bigFirst()
	for k, i := range order {
		if !c.add(i) {
			end := 0.0
			for n := range c.placed[len(in.fixed):] {
				end = math.Max(end, c.boxes[len(in.fixed)+n].x1)
			}
			return in.rows(c.at, order[k:], plane.Ceil(end))
		}
		report(k + 1)
	}
	c.at.length = in.extent(c.at)
	return c.at
}

// bigFirst orders the movable items by area; equal kinds stay together.
func (in *instance) bigFirst() []int {
	order := make([]int, in.movable)
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(in.items[b].area, in.items[a].area), cmp.Compare(in.items[a].kind, in.items[b].kind))
	})
	return order
}

type builder struct {
	*instance
	stop        func() bool
	workers     int
	few         bool // of the ways of each item: see waysOf
	at          *placement
	settled     []bool     // for each group: its phase
	rng         *rand.Rand // varies the layout; nil: the plain one
	above       bool       // from the upper edge down
	evals       int64
	placed      []int
	boxes       []box
	placedShape []int32              // of each of placed
	soonest     map[[2]int32]float64 // by kind and way: no place left of this x is free
	places      []orb.Point
}

func (c *builder) put(i int, way int32, x, y float64) {
	s := c.items[i].ways[way].shape
	c.at.way[i], c.at.x[i], c.at.y[i] = way, x, y
	c.placed = append(c.placed, i)
	c.placedShape = append(c.placedShape, s)
	c.boxes = append(c.boxes, c.shapeBox(s, x, y))
	if g := c.items[i].group; g >= 0 && !c.settled[g] {
		c.at.phase[g], c.settled[g] = c.pointAt(c.at, i), true
	}
}

// add places item i; false when it was stopped before.
func (c *builder) add(i int) bool {
	c.makeRegions(i)
	best := c.soonestOf(i, c.waysOf(i), c.skip(i))
	if best.way < 0 { // where a repeat leaves none of those a place
		best = c.soonestOf(i, c.items[i].every(), 0)
	}
	if c.stop() {
		return false
	}
	c.put(i, best.way, best.x, best.y)
	return true
}

// soonestOf returns the place at which item i ends soonest in one of some ways.
func (c *builder) soonestOf(i int, ways []int32, skip int) trial {
	best, bestEnd := trial{way: -1}, math.Inf(1)
	for _, w := range ways {
		way := &c.items[i].ways[w]
		s := way.shape
		if _, across := c.tracks(i, way); across.empty() {
			continue
		}
		key := [2]int32{int32(c.items[i].kind), w}
		p, ok := c.firstFree(i, way, c.soonest[key], bestEnd-c.shapes[s].w, skip)
		if c.stop() {
			break
		}
		if !ok {
			continue
		}
		if !c.setsPhase(i) {
			c.soonest[key] = p[0]
		}
		if end := p[0] + c.shapes[s].w; end < bestEnd {
			best, bestEnd = trial{way: w, x: p[0], y: p[1]}, end
		}
	}
	return best
}

// firstFree returns the leftmost, then lowest free corner for a way with
// from <= x < to, or one that comes by so many later. The right-hand end of
// everything placed is always free.
func (c *builder) firstFree(i int, w *way, from, to float64, skip int) (orb.Point, bool) {
	c.places = c.places[:0]
	along, across := c.tracks(i, w)
	s, lo, hi := w.shape, across.lo, across.hi
	end := 0.0
	keep := func(x, y float64) {
		if y < lo && y > lo-c.tolerance {
			y = lo
		}
		if y > hi && y < hi+c.tolerance {
			y = hi
		}
		if x <= -c.tolerance || y < lo || y > hi {
			return
		}
		if x = along.next(x); x >= from-c.tolerance && x < to {
			across.around(y, func(y float64) { c.places = append(c.places, orb.Point{x, y}) })
		}
	}
	keep(0, lo)
	keep(0, hi)
	for k, j := range c.placed {
		if c.stop() {
			return orb.Point{}, false
		}
		end = math.Max(end, c.boxes[k].x1)
		if c.boxes[k].x1-c.shapes[s].loX < from-along.step-c.tolerance || c.boxes[k].x0-c.shapes[s].hiX >= to {
			continue // they touch before from or beyond to
		}
		c.corners(s, along, across, c.placedShape[k], c.at.x[j], c.at.y[j], keep)
	}
	keep(end-c.shapes[s].loX, lo)
	c.keepFitting(i, w, end-c.shapes[s].loX, keep)
	slices.SortFunc(c.places, c.inOrder)
	found, ok := orb.Point{}, false
	for _, p := range c.places {
		if c.stop() {
			break
		}
		if ok && p == found || !c.suits(i, w, p) || !c.free(s, p) {
			continue
		}
		if found, ok = p, true; skip == 0 {
			break
		}
		skip--
	}
	return found, ok
}

// inOrder sorts places from left to right, those of one column from below or above.
func (c *builder) inOrder(a, b orb.Point) int {
	if c.above {
		a[1], b[1] = b[1], a[1]
	}
	return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1]))
}

// corners offers the places where a way touches shape t, lying at (x, y), at a
// corner of their no-fit region or while touching an end of its range across.
func (c *builder) corners(s int32, along, across track, t int32, x, y float64, keep func(x, y float64)) {
	region := c.regions.of(t, s)
	region.Vertices(func(v orb.Point) { keep(x+v[0], y+v[1]) })
	for _, edge := range [2]float64{across.lo, across.hi} {
		region.CrossY(edge-y, func(vx float64) { keep(x+vx, edge) })
	}
	region.CrossX(0-x, func(vy float64) { keep(0, y+vy) })
	c.gridPlaces(along, x-c.shapes[s].w, x+c.shapes[t].w, func(at float64) {
		region.CrossX(at-x, func(vy float64) { keep(at, y+vy) })
	})
	c.gridPlaces(across, y-c.shapes[s].h, y+c.shapes[t].h, func(at float64) {
		region.CrossY(at-y, func(vx float64) { keep(x+vx, at) })
	})
}

func (c *builder) free(s int32, p orb.Point) bool {
	b := c.shapeBox(s, p[0], p[1])
	c.evals++
	for k, j := range c.placed {
		o := &c.boxes[k]
		if b.x0 >= o.x1 || o.x0 >= b.x1 || b.y0 >= o.y1 || o.y0 >= b.y1 {
			continue
		}
		c.evals++
		if d, _, _ := c.depth(c.placedShape[k], s, p[0]-c.at.x[j], p[1]-c.at.y[j]); d > c.tolerance {
			return false
		}
	}
	return true
}
