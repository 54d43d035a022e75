package search

import (
	"encoding/binary"
	"math"
	"slices"
	"sync"
	"sync/atomic"

	"github.com/paulmach/orb"

	"yardlay/nest/nofit"
	"yardlay/shapes/plane"
)

// shape is one distinct ring, its bounding box moved to the origin.
type shape struct {
	w, h               float64 // of the true ring: what must stay on the strip
	area               float64
	outline            int32     // the shape is that outline
	motion             uint8     // moved by this of nofit.Motions
	shift              orb.Point // and then by this
	loX, loY, hiX, hiY float64   // bounds of the enlarged ring, gap included
}

// outline is one distinct ring up to the motions of the lattice, enlarged and
// simplified.
type outline struct {
	given orb.Ring
	ring  orb.Ring
	shape [len(nofit.Motions)]atomic.Pointer[nofit.Shape] // moved by each motion, once needed
}

func (o *outline) moved(motion uint8) *nofit.Shape {
	if s := o.shape[motion].Load(); s != nil {
		return s
	}
	s := nofit.NewShape(nofit.Motions[motion].Ring(o.ring))
	o.shape[motion].Store(s)
	return s
}

// simplify makes the outline ready.
func (o *outline) simplify() {
	ring, s := nofit.Coarsened(o.given)
	o.ring = ring
	o.shape[0].Store(s)
}

// gallery collects distinct rings.
type gallery struct {
	shapes   []shape
	outlines []outline
	byRing   map[string]int32
	alike    map[[3]float64][]int32 // outlines by number of corners, short side and long side of the box
}

func newGallery() *gallery {
	return &gallery{byRing: map[string]int32{}, alike: map[[3]float64][]int32{}}
}

// shapeOf returns the index of the shape equal to the ring moved.
func (g *gallery) shapeOf(ring orb.Ring) int32 {
	ring = plane.Canonical(ring)
	key := string(bits(ring))
	if s, ok := g.byRing[key]; ok {
		return s
	}
	size := plane.Bounds(ring).Max
	s := shape{w: size[0], h: size[1], area: plane.Area(ring)}
	s.outline, s.motion = g.outlineOf(ring, size)
	moved := plane.Bounds(nofit.Motions[s.motion].Ring(g.outlines[s.outline].given)).Min
	s.shift = orb.Point{-moved[0], -moved[1]}
	g.shapes = append(g.shapes, s)
	g.byRing[key] = int32(len(g.shapes) - 1)
	return int32(len(g.shapes) - 1)
}

// outlineOf returns the outline and the motion that make a ring with its least
// corner at the origin.
func (g *gallery) outlineOf(ring orb.Ring, size orb.Point) (index int32, motion uint8) {
	of := [3]float64{float64(len(ring)), min(size[0], size[1]), max(size[0], size[1])}
	for _, k := range g.alike[of] {
		for m := range nofit.Motions {
			if slices.Equal(plane.Canonical(nofit.Motions[m].Ring(g.outlines[k].given)), ring) {
				return k, uint8(m)
			}
		}
	}
	g.outlines = append(g.outlines, outline{given: ring})
	index = int32(len(g.outlines) - 1)
	g.alike[of] = append(g.alike[of], index)
	return index, 0
}

func bits(ring orb.Ring) []byte {
	out := make([]byte, 0, 16*len(ring))
	for _, p := range ring {
		out = binary.LittleEndian.AppendUint64(out, math.Float64bits(p[0]))
		out = binary.LittleEndian.AppendUint64(out, math.Float64bits(p[1]))
	}
	return out
}

// simplify simplifies all outlines, some at a time, and bounds the shapes; report is
// called with the share done. It reports false when stop ended it.
func (g *gallery) simplify(gap float64, workers int, stop func() bool, report func(share float64)) bool {
	var next, done atomic.Int64
	var all sync.WaitGroup
	count := int64(len(g.outlines))
	for range max(1, workers) {
		all.Go(func() {
			for k := next.Add(1) - 1; k < count && !stop(); k = next.Add(1) - 1 {
				g.outlines[k].simplify()
				report(float64(done.Add(1)) / float64(count))
			}
		})
	}
	all.Wait()
	if done.Load() < count {
		return false
	}
	for i := range g.shapes {
		g.shapes[i].bound(&g.outlines[g.shapes[i].outline], gap)
	}
	return true
}

// bound sets the bounds of the enlarged ring.
func (s *shape) bound(o *outline, gap float64) {
	box := plane.Bounds(nofit.Motions[s.motion].Ring(o.ring))
	keep := gap + 4*plane.Lattice // what regions are loosened by at their corners, and to spare
	s.loX, s.loY = box.Min[0]+s.shift[0]-keep, box.Min[1]+s.shift[1]-keep
	s.hiX, s.hiY = box.Max[0]+s.shift[0]+keep, box.Max[1]+s.shift[1]+keep
}
