package search

import (
	"sync"
	"sync/atomic"

	"yardlay/nest/nofit"
	"yardlay/shapes/plane"
)

// regions makes the no-fit regions of pairs of shapes when they are first needed
// and keeps them while there is room. Shapes that differ by a motion of the lattice
// (half and quarter turns, mirrored or not) have one outline, and pairs of shapes
// that differ by one motion share one region, of which each pair has a view. A
// region made anew is the same region, so that neither the room nor the order in
// which lanes ask changes what they find.
type regions struct {
	*gallery
	keep nofit.Clearance
	stop func() bool

	// slots holds the views, that of shapes a, b at a*len(shapes)+b; of very many
	// shapes at some place that others may claim.
	slots []atomic.Pointer[regionView]

	mu    sync.Mutex
	made  map[pairKey]*stored
	ring  []*stored // all of made, in the order in which the hand goes round
	hand  int
	bytes int
	room  int
}

// regionView is the region of two shapes as they lie.
type regionView struct {
	a, b   int32
	recent atomic.Bool // asked for since the hand last went by
	nofit.Region
}

// pairKey is a pair of outlines, the second moved by a motion.
type pairKey struct {
	a, b   int32
	motion uint8 // index into nofit.Motions
}

// stored is a region with the views of it.
type stored struct {
	key    pairKey
	region *nofit.Region
	views  []*regionView
}

// mostSlots bounds the table of views: 16 MB.
const mostSlots = 1 << 21

func newRegions(g *gallery, keep nofit.Clearance, memory int64, stop func() bool) *regions {
	n := min(len(g.shapes)*len(g.shapes), mostSlots)
	return &regions{
		gallery: g, keep: keep, stop: stop,
		slots: make([]atomic.Pointer[regionView], n), made: map[pairKey]*stored{},
		room: int(memory / 2), // the collector lets the heap grow to twice what is alive
	}
}

func (r *regions) slot(a, b int32) *atomic.Pointer[regionView] {
	k := uint(a)*uint(len(r.shapes)) + uint(b)
	if k >= uint(len(r.slots)) {
		k = uint(uint64(k) * 0x9E3779B97F4A7C15 >> (64 - 21)) // mostSlots of them
	}
	return &r.slots[k]
}

// of returns the region of shape b about shape a. Once stop says so it may be one
// that everything lies deep inside, so that nothing passes for free of overlap.
func (r *regions) of(a, b int32) *nofit.Region {
	s := r.slot(a, b).Load()
	if s == nil || s.a != a || s.b != b {
		return r.find(a, b)
	}
	if !s.recent.Load() {
		s.recent.Store(true)
	}
	return &s.Region
}

// has reports whether the region of two shapes is at hand.
func (r *regions) has(a, b int32) bool {
	s := r.slot(a, b).Load()
	return s != nil && s.a == a && s.b == b
}

// find makes a regionView of a region that is there or is made now.
func (r *regions) find(a, b int32) *nofit.Region {
	first, second := a, b
	key, exchanged := r.key(a, b)
	if exchanged {
		first, second = b, a
	}
	r.mu.Lock()
	s := r.made[key]
	r.mu.Unlock()
	if s == nil {
		region := nofit.New(r.stop, r.outlines[key.a].moved(0), r.outlines[key.b].moved(key.motion), r.keep)
		if region == nil {
			return nofit.Everywhere()
		}
		s = &stored{key: key, region: region}
	}
	f, o := &r.shapes[first], &r.shapes[second]
	view := &regionView{Region: *s.region.Moved(nofit.Motions[f.motion], f.shift, o.shift, exchanged), a: a, b: b}
	view.recent.Store(true)
	r.add(s, view)
	return &view.Region
}

// key returns under which pair of outlines the region of two shapes is kept, and
// whether with the second shape first.
func (r *regions) key(a, b int32) (key pairKey, exchanged bool) {
	p, q := &r.shapes[a], &r.shapes[b]
	key = pairKey{p.outline, q.outline, between[p.motion][q.motion]}
	other := pairKey{q.outline, p.outline, between[q.motion][p.motion]}
	if other.a < key.a || other.a == key.a && (other.motion < key.motion || other.motion == key.motion && b < a) {
		return other, true // of two that are kept under one key the one is the other turned round, to the last bit
	}
	return key, false
}

// between[i][j] is the motion that follows motion i to make motion j of it, both
// as seen from the shape that i moved: the inverse of i after j.
var between = func() (table [8][8]uint8) {
	for i, m := range nofit.Motions {
		for j, n := range nofit.Motions {
			both := m.Inverse().After(n)
			for k, o := range nofit.Motions {
				if o == both {
					table[i][j] = uint8(k)
				}
			}
		}
	}
	return table
}()

// add keeps a region and a regionView of it, and drops what has not been asked for the
// longest until there is room: the clock of F. J. Corbato, "A paging experiment
// with the Multics system" (1969), which comes near to least recently used first
// and costs nothing at a look-up.
func (r *regions) add(s *stored, view *regionView) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if kept, ok := r.made[s.key]; ok {
		s = kept // two lanes made it at once
	} else {
		r.made[s.key] = s
		r.ring = append(r.ring, s)
		r.bytes += s.region.Bytes()
	}
	s.views = append(s.views, view)
	r.bytes += nofit.ViewBytes
	r.slot(view.a, view.b).Store(view)
	for r.bytes > r.room && len(r.ring) > 1 {
		r.hand %= len(r.ring)
		if old := r.ring[r.hand]; old == s || old.asked() {
			r.hand++
		} else {
			r.drop(old)
		}
	}
}

// asked reports whether a region was asked for since it last was.
func (s *stored) asked() bool {
	recent := false
	for _, view := range s.views {
		recent = view.recent.Swap(false) || recent
	}
	return recent
}

// drop forgets the region under the hand.
func (r *regions) drop(s *stored) {
	for _, view := range s.views {
		r.slot(view.a, view.b).CompareAndSwap(view, nil)
	}
	r.bytes -= s.region.Bytes() + len(s.views)*nofit.ViewBytes
	s.views = nil // a lane that has it in hand may be about to put it back
	delete(r.made, s.key)
	last := len(r.ring) - 1
	r.ring[r.hand] = r.ring[last]
	r.ring = r.ring[:last]
}

// clearance is what regions keep: the gap, and room for places to be rounded.
func (in *instance) clearance() nofit.Clearance {
	return nofit.Clearance{Gap: in.gap, Step: plane.Lattice, Tolerance: in.tolerance}
}
