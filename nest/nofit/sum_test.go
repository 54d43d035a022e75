package nofit

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// hull draws a convex polygon, open, on whole millimetres.
func hull(t *rapid.T, name string) convex {
	for {
		var points []orb.Point
		for range rapid.IntRange(3, 9).Draw(t, name+" points") {
			points = append(points, orb.Point{
				float64(rapid.IntRange(-15, 15).Draw(t, name+" x")),
				float64(rapid.IntRange(-15, 15).Draw(t, name+" y")),
			})
		}
		if ring := plane.Hull(points); len(ring) > 3 && plane.Area(ring) > 0 {
			return convex(ring[:len(ring)-1])
		}
	}
}

func closed(c convex) orb.Ring { return append(orb.Ring(append([]orb.Point{}, c...)), c[0]) }

// allSums is the slow twin of merge: the hull of the sums of any two corners.
func allSums(c, d convex) orb.Ring {
	var points []orb.Point
	for _, p := range c {
		for _, q := range d {
			points = append(points, orb.Point{p[0] + q[0], p[1] + q[1]})
		}
	}
	return plane.Hull(points)
}

// TestSumOfConvex: the sum by merging sides is the hull of all sums of corners, each
// corner the sum of the two that it is said to be.
func TestSumOfConvex(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, d := hull(t, "c"), hull(t, "d")
		var sum convex
		merge(c, d, func(v orb.Point, i, j int, alongC, alongD bool) {
			if want := (orb.Point{c[i][0] + d[j][0], c[i][1] + d[j][1]}); v != want {
				t.Fatalf("corner %v of %v and %v", v, c[i], d[j])
			}
			if !alongC && !alongD {
				t.Fatalf("at %v it goes on along neither", v)
			}
			sum = append(sum, v)
		})
		want := allSums(c, d)
		if got := plane.Tidy(closed(sum)); math.Abs(plane.Area(got)-plane.Area(want)) > 1e-9 || len(got) != len(want) {
			t.Fatalf("sum %v, the hull of all sums is %v\nc %v\nd %v", got, want, c, d)
		}
	})
}

// TestDepthOfConvex: of two convex outlines the region is one polygon; the depth is the
// least distance to one of its sides, the way out square to that side.
func TestDepthOfConvex(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := hull(t, "a"), hull(t, "b")
		var negated convex
		for _, p := range b {
			negated = append(negated, orb.Point{-p[0], -p[1]})
		}
		ring := allSums(a, negated)
		r := made(NewShape(closed(a)), NewShape(closed(b)), Clearance{})
		x, y := rapid.Float64Range(-40, 40).Draw(t, "x"), rapid.Float64Range(-40, 40).Draw(t, "y")
		want := math.Inf(1)
		for i := range ring[1:] {
			u := unit(ring[i], ring[i+1])
			want = min(want, u[0]*(y-ring[i][1])-u[1]*(x-ring[i][0]))
		}
		d, nx, ny := r.Depth(x, y)
		if math.Abs(d-max(want, 0)) > 1e-9 {
			t.Fatalf("depth %v, want %v at (%v, %v)\na %v\nb %v", d, want, x, y, a, b)
		}
		if d > 1e-9 && math.Abs(math.Hypot(nx, ny)-1) > 1e-12 {
			t.Fatalf("the way out (%v, %v) is not of unit length", nx, ny)
		}
	})
}

// TestDepthTheOtherWayRound: b about a is as deep as a about b at the opposite offset,
// and the ways out are opposite.
func TestDepthTheOtherWayRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := NewShape(outline(t, "a")), NewShape(outline(t, "b"))
		keep := Clearance{Gap: float64(rapid.IntRange(0, 2).Draw(t, "gap"))}
		ab, ba := made(a, b, keep), made(b, a, keep)
		lo, hi := ab.Bounds()
		for range 8 {
			x, y := rapid.Float64Range(lo[0], hi[0]).Draw(t, "x"), rapid.Float64Range(lo[1], hi[1]).Draw(t, "y")
			d, nx, ny := ab.Depth(x, y)
			e, mx, my := ba.Depth(-x, -y)
			if math.Abs(d-e) > 1e-8 {
				t.Fatalf("depth %v at (%v, %v), %v the other way round", d, x, y, e)
			}
			// where two ways out are as long either may be taken
			if back, _, _ := ab.Depth(x-mx*e, y-my*e); d > 1e-6 && back > 1e-6 {
				t.Fatalf("the way out (%v, %v) the other way round, (%v, %v) here, leaves %v", mx, my, nx, ny, back)
			}
		}
	})
}

// nearestSide is the slow twin of the grid: every stretch of the boundary.
func nearestSide(r *Region, x, y float64) float64 {
	v := &r.view
	x, y = v.xx*x+v.xy*y+v.x, v.yx*x+v.yy*y+v.y
	nearest := math.Inf(1)
	for i := range r.segments {
		s := &r.segments[i]
		end := orb.Point{s.ax + s.length*s.ux, s.ay + s.length*s.uy}
		nearest = min(nearest, planar.DistanceFromSegment(orb.Point{s.ax, s.ay}, end, orb.Point{x, y}))
	}
	return nearest
}

// TestGridFindsTheNearestSide: inside, the depth is the distance to the nearest of all
// stretches of the boundary, and what Find promises at the least is no more than that.
func TestGridFindsTheNearestSide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := NewShape(outline(t, "a")), NewShape(outline(t, "b"))
		u := newUnion(never, a, b, Clearance{Gap: float64(rapid.IntRange(0, 1).Draw(t, "gap"))})
		motion := Motions[rapid.IntRange(0, 7).Draw(t, "motion")]
		r := u.Moved(motion, orb.Point{3, -2}, orb.Point{-5, 7}, rapid.Bool().Draw(t, "exchanged"))
		lo, hi := r.Bounds()
		for range 16 {
			x, y := rapid.Float64Range(lo[0]-1, hi[0]+1).Draw(t, "x"), rapid.Float64Range(lo[1]-1, hi[1]+1).Draw(t, "y")
			d, _, _ := r.Depth(x, y)
			_, least := r.Find(x, y)
			if least > d {
				t.Fatalf("at (%v, %v) at least %v is promised, the depth is %v", x, y, least, d)
			}
			if want := nearestSide(r, x, y); d > 0 && math.Abs(d-want) > 1e-9 {
				t.Fatalf("depth %v at (%v, %v), the nearest side is %v off", d, x, y, want)
			}
			v := &r.view
			built := orb.Point{v.xx*x + v.xy*y + v.x, v.yx*x + v.yy*y + v.y}
			if in := u.contains(built); in && d == 0 {
				t.Fatalf("(%v, %v) is inside and has no depth", x, y)
			}
		}
	})
}

// TestGapIsKept: outside the region two outlines keep the gap, by the distance of
// github.com/peterstace/simplefeatures; deeper inside than corners are widened, they do not.
func TestGapIsKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := outline(t, "a"), outline(t, "b")
		gap := float64(rapid.IntRange(1, 3).Draw(t, "gap"))
		r := made(NewShape(a), NewShape(b), Clearance{Gap: gap})
		lo, hi := r.Bounds()
		for range 4 {
			x, y := rapid.Float64Range(lo[0]-1, hi[0]+1).Draw(t, "x"), rapid.Float64Range(lo[1]-1, hi[1]+1).Draw(t, "y")
			apart, ok := geom.Distance(polygon(a, 0, 0), polygon(b, x, y))
			d, _, _ := r.Depth(x, y)
			wide := gap / math.Cos(math.Pi/gapSides)
			switch {
			case !ok:
				t.Fatal("no distance")
			case d == 0 && apart < gap-1e-9:
				t.Fatalf("free at (%v, %v), and %v apart of %v\na %v\nb %v", x, y, apart, gap, a, b)
			case d > 1e-9 && apart > wide+1e-9:
				t.Fatalf("%v deep at (%v, %v), and %v apart\na %v\nb %v", d, x, y, apart, a, b)
			}
		}
	})
}

// TestPlacesAreOnTheBoundary: ends of stretches and crossings with a level lie on the
// boundary, and a crossing lies wherever the depth along a level begins or ends.
func TestPlacesAreOnTheBoundary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		built := made(NewShape(outline(t, "a")), NewShape(outline(t, "b")), Clearance{})
		motion := Motions[rapid.IntRange(0, 7).Draw(t, "motion")]
		r := built.Moved(motion, orb.Point{1, 2}, orb.Point{8, -3}, rapid.Bool().Draw(t, "exchanged"))
		onBoundary := func(p orb.Point) {
			if off := nearestSide(r, p[0], p[1]); off > 1e-9 {
				t.Fatalf("%v is %v off the boundary", p, off)
			}
		}
		r.Vertices(onBoundary)
		lo, hi := r.Bounds()
		for axis := range 2 {
			// off whole and half millimetres, where a level may run along a side
			level := math.Floor(rapid.Float64Range(lo[axis], hi[axis]).Draw(t, "level")) + 0.3137
			at := func(v float64) orb.Point {
				p := orb.Point{}
				p[axis], p[1-axis] = level, v
				return p
			}
			var crossings []float64
			note := func(v float64) { onBoundary(at(v)); crossings = append(crossings, v) }
			if axis == 0 {
				r.CrossX(level, note)
			} else {
				r.CrossY(level, note)
			}
			const steps = 100
			inside := false
			for k := range steps + 1 {
				v := lo[1-axis] - 1 + (hi[1-axis]-lo[1-axis]+2)*float64(k)/steps
				p := at(v)
				d, _, _ := r.Depth(p[0], p[1])
				if (d > 0) != inside {
					from := v - (hi[1-axis]-lo[1-axis]+2)/steps
					met := false
					for _, c := range crossings {
						met = met || c >= from-1e-6 && c <= v+1e-6
					}
					if !met {
						t.Fatalf("between %v and %v the level %v is left or entered without a crossing", from, v, level)
					}
				}
				inside = d > 0
			}
		}
	})
}

// TestStoppedMakesNothing: stopped at any of the moments at which it asks, no region
// comes out; never stopped, the same one does.
func TestStoppedMakesNothing(t *testing.T) {
	a := NewShape(orb.Ring{{0, 0}, {30, 0}, {30, 20}, {20, 20}, {20, 8}, {10, 8}, {10, 20}, {0, 20}, {0, 0}})
	asked := 0
	whole := New(func() bool { asked++; return false }, a, a, Clearance{Gap: 1})
	if whole == nil || asked < 10 {
		t.Fatalf("asked %d times", asked)
	}
	for after := 0; after < asked; after += 7 {
		left := after
		if r := New(func() bool { left--; return left < 0 }, a, a, Clearance{Gap: 1}); r != nil {
			t.Fatalf("stopped when asked for the %d. time a region comes out", after)
		}
	}
	d, _, _ := whole.Depth(1, 1)
	if e, _, _ := made(a, a, Clearance{Gap: 1}).Depth(1, 1); d != e {
		t.Errorf("depth %v, want %v", d, e)
	}
	if d, _, _ := Everywhere().Depth(1e5, -1e5); d < 1e6 {
		t.Errorf("where everything overlaps the depth is %v", d)
	}
}
