package nofit

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

func shifted(ring orb.Ring, by orb.Point) orb.Ring {
	out := make(orb.Ring, len(ring))
	for i, p := range ring {
		out[i] = orb.Point{p[0] + by[0], p[1] + by[1]}
	}
	return out
}

// TestSeenAsFresh: a view of a region against the region of the moved outlines,
// built anew: depth, way out, bounds, corners.
func TestSeenAsFresh(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := outline(t, "a"), outline(t, "b")
		m := rapid.SampledFrom(Motions[:]).Draw(t, "motion")
		move := func(name string) orb.Point {
			return orb.Point{float64(rapid.IntRange(-30, 30).Draw(t, name)),
				float64(rapid.IntRange(-30, 30).Draw(t, name)) / 2}
		}
		sa, sb := move("a"), move("b")
		exchanged := rapid.Bool().Draw(t, "exchanged")
		keep := Clearance{
			Gap:  float64(rapid.IntRange(0, 2).Draw(t, "gap")),
			Step: rapid.SampledFrom([]float64{0, plane.Lattice}).Draw(t, "step"),
		}
		keep.Tolerance = keep.Step / 4
		seen := made(NewShape(a), NewShape(b), keep).Moved(m, sa, sb, exchanged)
		first, second := shifted(m.Ring(a), sa), shifted(m.Ring(b), sb)
		if exchanged {
			first, second = second, first
		}
		fresh := made(NewShape(first), NewShape(second), keep)
		near := max(1e-8, 64*keep.Step) // sides that meet at a shallow angle
		lo, hi := fresh.Bounds()
		if l, h := seen.Bounds(); dist(l, lo) > near || dist(h, hi) > near {
			t.Fatalf("bounds %v %v, want %v %v", l, h, lo, hi)
		}
		for range 32 {
			x := rapid.Float64Range(lo[0]-1, hi[0]+1).Draw(t, "x")
			y := rapid.Float64Range(lo[1]-1, hi[1]+1).Draw(t, "y")
			d, nx, ny := seen.Depth(x, y)
			if want, _, _ := fresh.Depth(x, y); math.Abs(d-want) > near {
				t.Fatalf("depth %v, want %v at (%v, %v)", d, want, x, y)
			}
			if left, _, _ := fresh.Depth(x+nx*d, y+ny*d); left > near {
				t.Fatalf("still %v deep after the way out at (%v, %v)", left, x, y)
			}
		}
		seen.Vertices(func(v orb.Point) {
			if d, _, _ := fresh.Depth(v[0], v[1]); d > near {
				t.Fatalf("corner %v lies %v deep", v, d)
			}
		})
		compareCrossings(t, seen, fresh, near)
	})
}

// compareCrossings compares where levels through the middle meet the boundary.
func compareCrossings(t *rapid.T, seen, fresh *Region, near float64) {
	lo, hi := fresh.Bounds()
	x := lo[0] + rapid.Float64Range(0.1, 0.9).Draw(t, "across")*(hi[0]-lo[0])
	y := lo[1] + rapid.Float64Range(0.1, 0.9).Draw(t, "along")*(hi[1]-lo[1])
	x, y = x+1e-3*math.Pi, y+1e-3*math.Pi // off the round levels at which sides lie
	span := func(cross func(func(float64))) [2]float64 {
		var at []float64
		cross(func(v float64) { at = append(at, v) })
		return [2]float64{slices.Min(at), slices.Max(at)}
	}
	for _, pair := range [][2][2]float64{
		{span(func(f func(float64)) { seen.CrossX(x, f) }), span(func(f func(float64)) { fresh.CrossX(x, f) })},
		{span(func(f func(float64)) { seen.CrossY(y, f) }), span(func(f func(float64)) { fresh.CrossY(y, f) })},
	} {
		if math.Abs(pair[0][0]-pair[1][0]) > near || math.Abs(pair[0][1]-pair[1][1]) > near {
			t.Fatalf("levels (%v, %v) are met at %v, want %v", x, y, pair[0], pair[1])
		}
	}
}

func dist(p, q orb.Point) float64 { return math.Hypot(p[0]-q[0], p[1]-q[1]) }

// TestMotionsAreAGroup: inverses undo, and what follows one of the eight by
// another is one of them.
func TestMotionsAreAGroup(t *testing.T) {
	for _, m := range Motions {
		if got := m.After(m.Inverse()); got != Motions[0] {
			t.Errorf("%v after its inverse is %v", m, got)
		}
		for _, o := range Motions {
			both := m.After(o)
			if !slices.Contains(Motions[:], both) {
				t.Errorf("%v after %v is %v", m, o, both)
			}
			if p := (orb.Point{3, 5}); both.Apply(p) != m.Apply(o.Apply(p)) {
				t.Errorf("%v after %v takes %v to %v", m, o, p, both.Apply(p))
			}
		}
	}
}

// TestStopped: a region asked to stop is nil.
func TestStopped(t *testing.T) {
	s := NewShape(orb.Ring{{0, 0}, {4, 0}, {4, 3}, {0, 3}, {0, 0}})
	if New(func() bool { return true }, s, s, Clearance{}) != nil {
		t.Error("a region all the same")
	}
}
