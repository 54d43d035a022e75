package search

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// construct makes a first layout: big items first, each to the place where it
// ends soonest along the strip, among the corners of its no-fit regions with
// the items already placed and of the strip. stop lets it be cancelled, in
// which case it returns nil.
func (in *instance) construct(stop func() bool) *placement {
	c := &builder{instance: in, at: in.emptyPlacement(), soonest: map[[2]int32]float64{}}
	for z := in.movable; z < len(in.items); z++ {
		c.settleDown(z, 0, c.at.x[z], c.at.y[z])
	}
	for _, i := range in.bigFirst() {
		if stop() {
			return nil
		}
		c.add(i)
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
	at      *placement
	placed  []int
	boxes   []box
	lying   []int32
	soonest map[[2]int32]float64 // by kind and way: no place left of this x is free
	places  []orb.Point
}

func (c *builder) settleDown(i int, way int32, x, y float64) {
	s := c.items[i].ways[way].shape
	sh := &c.shapes[s]
	c.at.way[i], c.at.x[i], c.at.y[i] = way, x, y
	c.placed = append(c.placed, i)
	c.lying = append(c.lying, s)
	c.boxes = append(c.boxes, box{x + sh.loX, x + sh.hiX, y + sh.loY, y + sh.hiY})
}

func (c *builder) add(i int) {
	best, bestEnd := trial{way: -1}, math.Inf(1)
	for w := range c.items[i].ways {
		way := &c.items[i].ways[w]
		s := way.shape
		if way.across.empty() {
			continue
		}
		from := c.soonest[[2]int32{int32(c.items[i].kind), int32(w)}]
		p, ok := c.firstFree(way, from, bestEnd-c.shapes[s].w)
		if !ok {
			continue
		}
		c.soonest[[2]int32{int32(c.items[i].kind), int32(w)}] = p[0]
		if end := p[0] + c.shapes[s].w; end < bestEnd {
			best, bestEnd = trial{way: int32(w), x: p[0], y: p[1]}, end
		}
	}
	c.settleDown(i, best.way, best.x, best.y)
}

// firstFree returns the leftmost, then lowest free corner for a way with
// from <= x < to. The right-hand end of everything placed is always free.
func (c *builder) firstFree(w *way, from, to float64) (orb.Point, bool) {
	c.places = c.places[:0]
	s, lo, hi := w.shape, w.across.lo, w.across.hi
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
		x, y = w.along.next(x), w.across.nearest(y)
		if x >= from-c.tolerance && x < to {
			c.places = append(c.places, orb.Point{x, y})
		}
	}
	keep(0, lo)
	keep(0, hi)
	for k, j := range c.placed {
		end = math.Max(end, c.boxes[k].x1)
		c.corners(w, c.lying[k], c.at.x[j], c.at.y[j], keep)
	}
	keep(end-c.shapes[s].loX, lo)
	slices.SortFunc(c.places, func(a, b orb.Point) int {
		return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1]))
	})
	for _, p := range c.places {
		if c.free(s, p) {
			return p, true
		}
	}
	return orb.Point{}, false
}

// corners offers the places where a way touches shape t, lying at (x, y), at a
// corner of their no-fit region or while touching an end of its range across.
func (c *builder) corners(w *way, t int32, x, y float64, keep func(x, y float64)) {
	s := w.shape
	region := c.regions.of(t, s)
	region.Vertices(func(v orb.Point) { keep(x+v[0], y+v[1]) })
	for _, edge := range [2]float64{w.across.lo, w.across.hi} {
		region.CrossY(edge-y, func(vx float64) { keep(x+vx, edge) })
	}
	region.CrossX(0-x, func(vy float64) { keep(0, y+vy) })
}

func (c *builder) free(s int32, p orb.Point) bool {
	sh := &c.shapes[s]
	b := box{p[0] + sh.loX, p[0] + sh.hiX, p[1] + sh.loY, p[1] + sh.hiY}
	for k, j := range c.placed {
		o := &c.boxes[k]
		if b.x0 >= o.x1 || o.x0 >= b.x1 || b.y0 >= o.y1 || o.y0 >= b.y1 {
			continue
		}
		if d, _, _ := c.depth(c.lying[k], s, p[0]-c.at.x[j], p[1]-c.at.y[j]); d > c.tolerance {
			return false
		}
	}
	return true
}
