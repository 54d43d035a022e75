package nofit

import (
	"container/heap"
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes/plane"
)

// Outward returns a simpler ring that contains the given one and nowhere
// strays further than tolerance (mm) from it: hollow vertices are bridged, and
// short edges of rounded corners replaced by the crossing of their neighbours.
// The judge works on the fine outline; the search on this one.
// If the simpler ring would cross itself, the given ring is returned.
//
// It takes n log n in the number of vertices.
func Outward(ring orb.Ring, tolerance float64) orb.Ring {
	ring = plane.Tidy(ring)
	o := newOuter(ring, tolerance)
	for o.left > 3 && len(o.changes) > 0 {
		c := heap.Pop(&o.changes).(change)
		if c.age == o.corners[c.at].age {
			o.make(c)
		}
	}
	out := o.ring()
	if plane.CheckSimple(out) != nil {
		return ring
	}
	return out
}

// corner is a vertex of the growing outline; strayed bounds how far the edge
// that leaves it lies from the given ring.
type corner struct {
	at           orb.Point
	strayed      float64
	before, next int
	age          int // of what is known of changes at it
	gone         bool
}

// change is a way to make the outline simpler at a corner: it is bridged or, with
// cut, the edge from it to the next gives way to the crossing of its neighbours.
type change struct {
	at, age int
	strays  float64
	cut     bool
	to      orb.Point
}

// changes is a heap, what strays least first.
type changes []change

func (c changes) Len() int { return len(c) }
func (c changes) Less(i, j int) bool {
	return c[i].strays < c[j].strays || c[i].strays == c[j].strays && c[i].at < c[j].at
}
func (c changes) Swap(i, j int) { c[i], c[j] = c[j], c[i] }
func (c *changes) Push(x any)   { *c = append(*c, x.(change)) }
func (c *changes) Pop() any {
	last := (*c)[len(*c)-1]
	*c = (*c)[:len(*c)-1]
	return last
}

// outer is an outline that grows outward.
type outer struct {
	corners   []corner
	left      int
	tolerance float64
	changes   changes
}

func newOuter(ring orb.Ring, tolerance float64) *outer {
	n := len(ring) - 1
	o := &outer{corners: make([]corner, n), left: n, tolerance: tolerance}
	for i := range o.corners {
		o.corners[i] = corner{at: ring[i], before: (i + n - 1) % n, next: (i + 1) % n}
	}
	for i := range o.corners {
		if c, ok := o.change(i); ok {
			o.changes = append(o.changes, c)
		}
	}
	heap.Init(&o.changes)
	return o
}

// change returns the change that can be made at corner i within the tolerance.
func (o *outer) change(i int) (change, bool) {
	b := &o.corners[i]
	a, c := &o.corners[b.before], &o.corners[b.next]
	d := &o.corners[c.next]
	out := change{at: i, age: b.age}
	if plane.Orient(a.at, b.at, c.at) <= 0 {
		out.strays = planar.DistanceFromSegment(a.at, c.at, b.at) + max(a.strayed, b.strayed)
		return out, out.strays < o.tolerance
	}
	if o.left < 5 || plane.Orient(b.at, c.at, d.at) <= 0 {
		return out, false
	}
	x, ok := crossing(a.at, b.at, d.at, c.at)
	if !ok {
		return out, false
	}
	out.cut, out.to = true, x
	out.strays = planar.DistanceFromSegment(b.at, c.at, x) + max(a.strayed, b.strayed, c.strayed)
	return out, out.strays < o.tolerance
}

// make makes a change and looks anew at the corners about it.
func (o *outer) make(c change) {
	i := c.at
	gone, last := i, o.corners[i].before
	if c.cut {
		if o.left < 5 {
			return
		}
		o.corners[i].at = c.to
		before := &o.corners[o.corners[i].before]
		before.strayed = max(before.strayed, c.strays)
		gone, last = o.corners[i].next, i
	} else {
		o.corners[last].strayed = c.strays
	}
	before, next := o.corners[gone].before, o.corners[gone].next
	o.corners[before].next, o.corners[next].before = next, before
	o.corners[gone].gone = true
	o.corners[gone].age++
	o.left--
	at := o.corners[o.corners[last].before].before
	for range 5 {
		o.corners[at].age++
		if again, ok := o.change(at); ok {
			heap.Push(&o.changes, again)
		}
		at = o.corners[at].next
	}
}

// ring returns the outline, beginning where the given one did.
func (o *outer) ring() orb.Ring {
	out := make(orb.Ring, 0, o.left+1)
	for i := range o.corners {
		if !o.corners[i].gone {
			out = append(out, o.corners[i].at)
		}
	}
	return append(out, out[0])
}

// crossing returns where the ray a->b beyond b meets the ray d->c beyond c.
func crossing(a, b, d, c orb.Point) (orb.Point, bool) {
	ux, uy := b[0]-a[0], b[1]-a[1]
	vx, vy := c[0]-d[0], c[1]-d[1]
	det := ux*vy - uy*vx
	if det == 0 {
		return orb.Point{}, false
	}
	s := ((c[0]-b[0])*vy - (c[1]-b[1])*vx) / det
	t := ((c[0]-b[0])*uy - (c[1]-b[1])*ux) / det
	if s < 0 || t < 0 || math.IsInf(s, 0) || math.IsInf(t, 0) {
		return orb.Point{}, false
	}
	return orb.Point{b[0] + s*ux, b[1] + s*uy}, true
}
