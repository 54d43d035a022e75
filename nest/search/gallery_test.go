package search

import (
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/nest/judge"
	"yardlay/nest/nofit"
	"yardlay/shapes/plane"
)

// comb is a bar with teeth.
func comb(teeth int) orb.Ring {
	ring := orb.Ring{{0, 0}, {float64(4 * teeth), 0}}
	for k := teeth; k > 0; k-- {
		x := float64(4 * k)
		ring = append(ring, orb.Point{x, 60}, orb.Point{x - 2, 60}, orb.Point{x - 2, 8}, orb.Point{x - 4, 8})
	}
	return append(ring, ring[0])
}

// TestBoxesHoldShapes: boxes of the shapes hold their outlines in each motion and the gap.
func TestBoxesHoldShapes(t *testing.T) {
	const gap = 3
	in := readyInstance(Problem{Width: 200, Gap: gap, Items: []Item{{Choices: moved(hook)}, {Choices: moved(comb(5))}}})
	for k, it := range in.items {
		for _, w := range it.ways {
			s := &in.shapes[w.shape]
			box := plane.Bounds([2][]Choice{moved(hook), moved(comb(5))}[k][w.choice].Ring)
			if s.w != box.Max[0]-box.Min[0] || s.h != box.Max[1]-box.Min[1] {
				t.Fatalf("%v by %v, want %v", s.w, s.h, box)
			}
			const loose = 0.01 + nofit.SimplifyTolerance
			for _, d := range [4]float64{-s.loX, -s.loY, s.hiX - s.w, s.hiY - s.h} {
				if d < gap || d > gap+loose {
					t.Fatalf("%v beyond the ring, with a gap of %v", d, float64(gap))
				}
			}
		}
	}
}

// cards of many sizes, so that every pair of them has a region of its own.
func manySizes(n int) Problem {
	p := Problem{Width: 500}
	for k := range n {
		size := 10 + float64(k)
		ring := orb.Ring{{0, 0}, {size, 0}, {size, 2 * size}, {size / 2, size}, {0, 2 * size}, {0, 0}}
		p.Items = append(p.Items, Item{Choices: []Choice{{Ring: ring}}})
	}
	return p
}

// TestTheBudgetIsKept: however regions are asked for, no more bytes are kept than there is
// room for, but for the one just asked for, which is always kept; the count is right, and
// what is dropped is not found any more.
func TestTheBudgetIsKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := readyWithin(manySizes(6), int64(rapid.IntRange(1, 60_000).Draw(t, "memory")))
		r := in.regions
		asked := map[[2]int32]bool{}
		for range rapid.IntRange(1, 60).Draw(t, "questions") {
			a, b := int32(rapid.IntRange(0, 5).Draw(t, "a")), int32(rapid.IntRange(0, 5).Draw(t, "b"))
			r.of(a, b)
			asked[[2]int32{a, b}] = true
			if !r.has(a, b) {
				t.Fatal("what was just asked for is not kept")
			}
			sum, views := 0, map[[2]int32]bool{}
			for _, s := range r.ring {
				sum += s.region.Bytes() + len(s.views)*nofit.ViewBytes
				if r.made[s.key] != s {
					t.Fatal("kept in one place, and not in the other")
				}
				for _, v := range s.views {
					views[[2]int32{v.a, v.b}] = true
				}
			}
			if sum != r.bytes || len(r.made) != len(r.ring) || sum > r.room && len(r.ring) > 1 {
				t.Fatalf("%d bytes counted, %d kept, room for %d", r.bytes, sum, r.room)
			}
			for pair := range asked {
				if r.has(pair[0], pair[1]) != views[pair] {
					t.Fatalf("pair %v: found %v, kept %v", pair, r.has(pair[0], pair[1]), views[pair])
				}
			}
		}
	})
}

// TestWhatIsUsedStays: while regions in use are asked for again and again and others
// once each, those in use are seldom made anew; first in, first out makes them over and
// over.
func TestWhatIsUsedStays(t *testing.T) {
	in := readyInstance(manySizes(12))
	r := in.regions
	for a := range int32(12) { // what all of them take
		for b := range int32(12) {
			r.of(a, b)
		}
	}
	each := r.bytes / len(r.ring)
	in = readyWithin(manySizes(12), int64(2*12*each)) // room for a dozen
	r = in.regions
	used := [][2]int32{{0, 1}, {2, 3}, {4, 5}}
	made, once := 0, 0
	for a := range int32(12) {
		for b := range int32(12) {
			for _, u := range used {
				if !r.has(u[0], u[1]) {
					made++
				}
				r.of(u[0], u[1])
			}
			if !r.has(a, b) {
				once++
			}
			r.of(a, b)
		}
	}
	if once < 60 || made > 8 {
		t.Errorf("three in use are made %d times while %d others are", made, once)
	}
}

// TestManyAskAtOnce: several goroutines that ask for the same regions get the same, and the
// books stay in order.
func TestManyAskAtOnce(t *testing.T) {
	in := readyWithin(manySizes(6), 40_000)
	done := make(chan float64)
	for range 4 {
		go func() {
			sum := 0.0
			for k := range 400 {
				d, _, _ := in.depth(int32(k%6), int32(k/6%6), float64(k%7), float64(k%11))
				sum += d
			}
			done <- sum
		}()
	}
	first := <-done
	for range 3 {
		if sum := <-done; sum != first {
			t.Errorf("depths come to %v and %v", first, sum)
		}
	}
	checkBytes(t, in.regions)
}

// checkBytes holds that what regions are thought to take is what they take.
func checkBytes(t *testing.T, r *regions) {
	t.Helper()
	sum := 0
	for _, s := range r.ring {
		sum += s.region.Bytes() + len(s.views)*nofit.ViewBytes
	}
	if sum != r.bytes {
		t.Errorf("%d bytes counted, %d kept", r.bytes, sum)
	}
}

// TestARegionIsPutBack: one that a lane had found, and another forgot before the first had put its view
// there, comes back with that view alone.
func TestARegionIsPutBack(t *testing.T) {
	r := readyInstance(manySizes(3)).regions
	r.of(0, 1)
	s := r.ring[0]
	view := s.views[0]
	r.mu.Lock()
	r.hand = 0
	r.drop(s)
	r.mu.Unlock()
	checkBytes(t, r)
	r.add(s, view)
	if checkBytes(t, r); len(s.views) != 1 || !r.has(0, 1) {
		t.Errorf("it comes back with %d views", len(s.views))
	}
}

// apart asks the exact judge whether two rings lie apart, the second moved.
func apart(a, b orb.Ring, by orb.Point) bool {
	const far = 512 // from the edges
	p := judge.Problem{Width: 2 * far}
	l := judge.Layout{Placed: []judge.Placed{{At: orb.Point{far, far}},
		{Piece: 1, At: orb.Point{far + by[0], far + by[1]}}}}
	for i, ring := range []orb.Ring{a, b} {
		p.Pieces = append(p.Pieces, judge.Piece{Name: "piece", Outline: ring, Count: 1, Turns: []float64{0}})
		l.Length = max(l.Length, l.Placed[i].At[0]+plane.Bounds(ring).Max[0])
	}
	return judge.New(p).Verify(l, never) == nil
}

// TestDepthsAreThoseOfOutlines: two shapes, whatever their motions, overlap just where the
// exact judge finds that the outlines searched on do; the way out leads out.
func TestDepthsAreThoseOfOutlines(t *testing.T) {
	in := readyInstance(Problem{Width: 100, Items: []Item{{Choices: moved(wedge)}, {Choices: moved(hook)}}})
	deep, clear := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		a, b := int32(rapid.IntRange(0, 15).Draw(t, "a")), int32(rapid.IntRange(0, 15).Draw(t, "b"))
		x, y := plane.Snap(rapid.Float64Range(-45, 45).Draw(t, "x")),
			plane.Snap(rapid.Float64Range(-45, 45).Draw(t, "y"))
		ring := func(s int32) orb.Ring {
			sh := &in.shapes[s]
			r := nofit.Motions[sh.motion].Ring(in.outlines[sh.outline].ring)
			for i := range r {
				r[i][0] += sh.shift[0]
				r[i][1] += sh.shift[1]
			}
			return r
		}
		overlap := !apart(ring(a), ring(b), orb.Point{x, y})
		d, nx, ny := in.depth(a, b, x, y)
		switch {
		case overlap && d == 0:
			t.Fatalf("shapes %d and %d at (%v, %v) overlap, and no depth", a, b, x, y)
		case !overlap && d > 4*plane.Lattice: // by which regions are loosened
			t.Fatalf("shapes %d and %d at (%v, %v) are apart, depth %v", a, b, x, y, d)
		case overlap:
			deep++
			if again, _, _ := in.depth(a, b, x+nx*(d+0.01), y+ny*(d+0.01)); again > 0.02 {
				t.Fatalf("shapes %d and %d at (%v, %v): %v on along (%v, %v) it is still %v deep", a, b, x, y, d, nx,
					ny, again)
			}
		default:
			clear++
		}
	})
	if deep < often.Enough(10) || clear < often.Enough(5) {
		t.Errorf("%d overlap, %d are apart: lopsided", deep, clear)
	}
}
