package search

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/nest/nofit"
	"yardlay/shapes/plane"
)

// wedge and hook have no symmetry of their own.
var (
	wedge = orb.Ring{{0, 0}, {30, 0}, {22, 9}, {0, 14}, {0, 0}}
	hook  = orb.Ring{{0, 0}, {26, 0}, {26, 18}, {17, 18}, {19, 7}, {0, 5}, {0, 0}}
)

// moved returns a ring in each of the eight ways in which the lattice maps onto
// itself, with its least corner anywhere.
func moved(ring orb.Ring) (out []Choice) {
	for k, m := range nofit.Motions {
		r := m.Ring(ring)
		for i := range r {
			r[i][0] += float64(7 * k)
			r[i][1] -= float64(3 * k)
		}
		out = append(out, Choice{Ring: r})
	}
	return out
}

// TestRegionsAsFresh: the slow twin makes the region of every pair of shapes anew,
// from the shapes as they lie. It is asked again and again with room for a handful,
// so that most are dropped and made once more.
func TestRegionsAsFresh(t *testing.T) {
	p := Problem{Width: 100, Gap: 1, Items: []Item{{Choices: moved(wedge)}, {Choices: moved(hook)}}}
	in := readyWithin(p, 100_000)
	if len(in.shapes) != 16 || len(in.regions.outlines) != 2 {
		t.Fatalf("%d shapes of %d outlines, want 16 of 2", len(in.shapes), len(in.regions.outlines))
	}
	fresh := map[[2]int32]*nofit.Region{}
	rapid.Check(t, func(t *rapid.T) {
		a, b := int32(rapid.IntRange(0, 15).Draw(t, "a")), int32(rapid.IntRange(0, 15).Draw(t, "b"))
		if fresh[[2]int32{a, b}] == nil {
			fresh[[2]int32{a, b}] = nofit.New(never, in.asItLies(a), in.asItLies(b), in.clearance())
		}
		want := fresh[[2]int32{a, b}]
		lo, hi := want.Bounds()
		for range 8 {
			x := rapid.Float64Range(lo[0], hi[0]).Draw(t, "x")
			y := rapid.Float64Range(lo[1], hi[1]).Draw(t, "y")
			d, _, _ := in.depth(a, b, x, y)
			if w, _, _ := want.Depth(x, y); math.Abs(d-w) > 64*plane.Lattice {
				t.Fatalf("shapes %d and %d at (%v, %v): depth %v, want %v", a, b, x, y, d, w)
			}
		}
		if r := in.regions; r.bytes > r.room && len(r.ring) > 1 {
			t.Fatalf("%d bytes are kept, with room for %d", r.bytes, r.room)
		}
	})
}

// asItLies is a shape made by itself.
func (in *instance) asItLies(s int32) *nofit.Shape {
	sh := &in.shapes[s]
	ring := nofit.Motions[sh.motion].Ring(in.regions.outlines[sh.outline].ring)
	for i := range ring {
		ring[i][0] += sh.shift[0]
		ring[i][1] += sh.shift[1]
	}
	return nofit.NewShape(ring)
}

// TestRegionsAreShared: of two outlines in eight ways each there are 256 pairs of
// shapes, and no more regions than pairs of outlines with a motion between them.
func TestRegionsAreShared(t *testing.T) {
	in := readyInstance(Problem{Width: 100, Items: []Item{{Choices: moved(wedge)}, {Choices: moved(hook)}}})
	for a := range int32(16) {
		for b := range int32(16) {
			in.depth(a, b, 1, 1)
		}
	}
	// wedge and hook: 8. Each with itself: 8 less those that are exchanged ones of
	// others, by 90 and 270 degrees.
	if got := len(in.regions.made); got != 22 {
		t.Errorf("%d regions are kept, want 22", got)
	}
	// Kept: bytes as counted.
	sum := 0
	for _, s := range in.regions.ring {
		sum += s.region.Bytes() + len(s.views)*nofit.ViewBytes
	}
	if sum != in.regions.bytes {
		t.Errorf("%d bytes are counted, %d kept", in.regions.bytes, sum)
	}
}

// TestRoomChangesNothing: with room for one region at a time the search goes the
// same way.
func TestRoomChangesNothing(t *testing.T) {
	problems := rapid.Custom(problem)
	for seed := range 12 {
		p := problems.Example(seed)
		run := func(memory int64) *placement {
			l := laneOf(readyWithin(p, memory), 1)
			l.load(l.construct(2, never, unreported), l.width)
			for i := range min(l.movable, 2) {
				l.move(i)
			}
			return l.at
		}
		roomy, tight := run(1<<30), run(1)
		for i := range roomy.x {
			if roomy.x[i] != tight.x[i] || roomy.y[i] != tight.y[i] || roomy.way[i] != tight.way[i] {
				t.Fatalf("item %d at (%v, %v), with little room at (%v, %v)", i, roomy.x[i], roomy.y[i], tight.x[i],
					tight.y[i])
			}
		}
	}
}
