package nofit

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// scaled is a ring k times as large.
func scaled(ring orb.Ring, k float64) orb.Ring {
	out := slices.Clone(ring)
	for i, p := range out {
		out[i] = orb.Point{k * p[0], k * p[1]}
	}
	return out
}

// places are offsets in and about a region: where sides of it cross, between them, and
// anywhere.
func places(t *rapid.T, r *Region) []orb.Point {
	lo, hi := r.Bounds()
	var all []orb.Point
	for range 6 {
		x := lo[0] - 2 + (hi[0]-lo[0]+4)*rapid.Float64Range(0, 1).Draw(t, "x")
		y := lo[1] - 2 + (hi[1]-lo[1]+4)*rapid.Float64Range(0, 1).Draw(t, "y")
		all = append(all, orb.Point{x, y})
		var ys []float64
		r.CrossX(x, func(y float64) { ys = append(ys, y) })
		slices.Sort(ys)
		for i := 1; i < len(ys); i++ {
			all = append(all, orb.Point{x, (ys[i-1] + ys[i]) / 2})
		}
	}
	return all
}

// The region of (B, A) is that of (A, B) turned by half a turn; that of outlines k times as
// large is k times as large; that of pieces moved is moved by the difference.
func TestRegionsFollowTheirOutlines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := outline(t, "a"), outline(t, "b")
		r := made(NewShape(a), NewShape(b), Clearance{})
		back := made(NewShape(b), NewShape(a), Clearance{})
		const k = 4
		large := made(NewShape(scaled(a, k)), NewShape(scaled(b, k)), Clearance{})
		by := orb.Point{float64(rapid.IntRange(-500, 500).Draw(t, "dx")), float64(rapid.IntRange(-500, 500).Draw(t, "dy"))}
		moved := made(NewShape(shifted(a, by)), NewShape(b), Clearance{})
		for _, p := range places(t, r) {
			depth, _, _ := r.Depth(p[0], p[1])
			turned, _, _ := back.Depth(-p[0], -p[1])
			grown, _, _ := large.Depth(k*p[0], k*p[1])
			there, _, _ := moved.Depth(p[0]+by[0], p[1]+by[1])
			if math.Abs(turned-depth) > 1e-9 || math.Abs(grown-k*depth) > 1e-8 || math.Abs(there-depth) > 1e-9 {
				t.Fatalf("%v lies %v deep; exchanged %v, %d times as large %v, moved %v", p, depth, turned, k, grown, there)
			}
			least := 0.0
			if _, least = r.Find(p[0], p[1]); least > depth+1e-9 {
				t.Fatalf("%v lies %v deep, at least %v", p, depth, least)
			}
		}
	})
}

// Minkowski's mixed area of convex outlines, by Brunn and Minkowski's inequality:
// area(A + -B) is at least (sqrt a + sqrt b)^2, and 4 a where B is -A; the bounding box of
// the region is exactly as wide as both together.
func TestAreaOfConvexRegions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := closed(hull(t, "a")), closed(hull(t, "b"))
		area := regionArea(t, made(NewShape(a), NewShape(b), Clearance{}))
		least := math.Pow(math.Sqrt(plane.Area(a))+math.Sqrt(plane.Area(b)), 2)
		if area < least*(1-1e-9) {
			t.Fatalf("the region has an area of %v, at least %v", area, least)
		}
		same := regionArea(t, made(NewShape(a), NewShape(Motions[1].Ring(a)), Clearance{}))
		if want := 4 * plane.Area(a); math.Abs(same-want) > 1e-6*want {
			t.Fatalf("an outline and its half turn: %v, want %v", same, want)
		}
		lo, hi := made(NewShape(a), NewShape(b), Clearance{}).Bounds()
		x, y := plane.Bounds(a), plane.Bounds(b)
		for i := range lo {
			if want := x.Max[i] - x.Min[i] + y.Max[i] - y.Min[i]; math.Abs(hi[i]-lo[i]-want) > 1e-9 {
				t.Fatalf("the region is %v by %v, want %v", hi[0]-lo[0], hi[1]-lo[1], want)
			}
		}
	})
}

// regionArea is that of the hull of a convex region's boundary.
func regionArea(t *rapid.T, r *Region) float64 {
	var all []orb.Point
	r.Vertices(func(p orb.Point) { all = append(all, p) })
	ring := plane.Hull(all)
	var xy []float64
	for _, p := range ring {
		xy = append(xy, p[0], p[1])
	}
	other := geom.NewPolygonXY(xy).Area()
	if area := plane.Area(ring); math.Abs(area-other) > 1e-9*other {
		t.Fatalf("area %v, by the other library %v", area, other)
	}
	return plane.Area(ring)
}

// A gap keeps outlines apart as if one of them were larger by it all round: more gap, a
// larger region and a deeper place; a place outside of it is clear by the gap.
func TestMoreGapIsDeeper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := outline(t, "a"), outline(t, "b")
		var last []float64
		at := places(t, made(NewShape(a), NewShape(b), Clearance{}))
		for _, gap := range []float64{0, 0.5, 2} {
			r := made(NewShape(a), NewShape(b), Clearance{Gap: gap})
			for i, p := range at {
				depth, _, _ := r.Depth(p[0], p[1])
				if len(last) <= i {
					last = append(last, depth)
				}
				if depth < last[i]-1e-9 {
					t.Fatalf("%v lies %v deep with a gap of %v, %v with less", p, depth, gap, last[i])
				}
				if last[i] = depth; depth > 0 {
					continue
				}
				clear, ok := geom.Distance(polygon(a, 0, 0), polygon(b, p[0], p[1]))
				if ok && clear < gap-1e-6 {
					t.Fatalf("%v is outside and %v clear, want %v", p, clear, gap)
				}
			}
		}
	})
}

// The outlines drawn for the search are no smaller, and no larger than their tolerance
// allows: Steiner's bound area + length x tolerance + 4 x tolerance squared for mitres.
func TestOutwardIsHardlyLarger(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(8, 60).Draw(t, "n")
		ring := make(orb.Ring, 0, n+1)
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r := 300 + rapid.Float64Range(0, 4).Draw(t, "r")
			ring = append(ring, plane.SnapPoint(orb.Point{r * cos, r * sin}))
		}
		ring = append(ring, ring[0])
		tolerance := rapid.Float64Range(0.1, 6).Draw(t, "tolerance")
		out := Outward(ring, tolerance)
		if err := plane.CheckSimple(out); err != nil || len(out) > len(ring) {
			t.Fatalf("%d vertices became %d: %v", len(ring)-1, len(out)-1, err)
		}
		area, most := plane.Area(out), plane.Area(ring)+plane.Length(ring)*tolerance+4*float64(n)*tolerance*tolerance
		if area < plane.Area(ring)-1e-6 || area > most {
			t.Fatalf("area %v became %v, at most %v", plane.Area(ring), area, most)
		}
		if again := Outward(out, tolerance/1e6); plane.Area(again) < area-1e-6 {
			t.Fatalf("drawn once more it shrinks from %v to %v", area, plane.Area(again))
		}
	})
}
