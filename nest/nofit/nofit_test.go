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

// star draws a simple, often non-convex ring: radii at rising angles about a
// point, on a coarse grid so that flush edges and exact fits are frequent.
func star(t *rapid.T, name string) orb.Ring {
	for {
		n := rapid.IntRange(3, 12).Draw(t, name+" corners")
		var ring orb.Ring
		for i := range n {
			angle := 2 * math.Pi * (float64(i) + 0.3) / float64(n)
			radius := float64(rapid.IntRange(3, 20).Draw(t, name+" radius"))
			ring = append(ring, orb.Point{math.Round(radius * math.Cos(angle)), math.Round(radius * math.Sin(angle))})
		}
		ring = append(ring, ring[0])
		if plane.Area(ring) <= 0 {
			continue
		}
		if ring = plane.Tidy(ring); plane.CheckSimple(ring) == nil {
			return ring
		}
	}
}

// comb draws rectangles with slots, whose teeth fit each other exactly.
func comb(t *rapid.T, name string) orb.Ring {
	teeth := rapid.IntRange(1, 4).Draw(t, name+" teeth")
	w := float64(rapid.IntRange(1, 3).Draw(t, name+" tooth"))
	ring := orb.Ring{{0, 0}}
	for i := range teeth {
		x := float64(2*i) * w
		ring = append(ring, orb.Point{x, 0}, orb.Point{x + w, 0}, orb.Point{x + w, 6}, orb.Point{x + 2*w, 6})
	}
	end := float64(2*teeth) * w
	ring = append(ring, orb.Point{end, 9}, orb.Point{0, 9}, orb.Point{0, 0})
	return plane.Tidy(ring)
}

func outline(t *rapid.T, name string) orb.Ring {
	if rapid.IntRange(0, 3).Draw(t, name+" kind") == 0 {
		return comb(t, name)
	}
	return star(t, name)
}

func polygon(ring orb.Ring, dx, dy float64) geom.Geometry {
	var xy []float64
	for _, p := range ring {
		xy = append(xy, p[0]+dx, p[1]+dy)
	}
	return geom.NewPolygon([]geom.LineString{geom.NewLineString(geom.NewSequence(xy, geom.DimXY))}).AsGeometry()
}

// TestPartsCoverTheOutline: areas of convex parts sum to the outline's.
func TestPartsCoverTheOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := outline(t, "a")
		sum := 0.0
		for _, p := range decompose(ring) {
			if !isConvex(p.corners) {
				t.Fatalf("part %v is not convex", p.corners)
			}
			sum += plane.Area(append(orb.Ring(p.corners), p.corners[0]))
		}
		if math.Abs(sum-plane.Area(ring)) > 1e-9*sum {
			t.Fatalf("parts have area %v, the outline %v", sum, plane.Area(ring))
		}
	})
}

// TestRegionAgainstAreas: the oracle is the area of intersection from
// github.com/peterstace/simplefeatures.
func TestRegionAgainstAreas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := outline(t, "a"), outline(t, "b")
		r := made(NewShape(a), NewShape(b), Clearance{})
		for range 4 {
			x := float64(rapid.IntRange(-80, 80).Draw(t, "x")) / 2
			y := float64(rapid.IntRange(-80, 80).Draw(t, "y")) / 2
			common, err := geom.Intersection(polygon(a, 0, 0), polygon(b, x, y))
			if err != nil {
				continue // the oracle itself declines some touching pairs
			}
			depth, _, _ := r.Depth(x, y)
			if overlap := common.Area() > 1e-6; overlap != (depth > 1e-9) {
				t.Fatalf("area %v, depth %v at (%v, %v)\na %v\nb %v", common.Area(), depth, x, y, a, b)
			}
		}
	})
}

// TestDepthIsTheWayOut: one step along the direction given leaves the region,
// no shorter step in any direction does.
func TestDepthIsTheWayOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := outline(t, "a"), outline(t, "b")
		keep := Clearance{
			Gap:  float64(rapid.IntRange(0, 2).Draw(t, "gap")),
			Step: rapid.SampledFrom([]float64{0, 0, plane.Lattice}).Draw(t, "step"),
		}
		keep.Tolerance = keep.Step / 4
		r := newUnion(never, NewShape(a), NewShape(b), keep)
		left := max(1e-8, 64*keep.Step) // what loosening moves where sides meet at a shallow angle
		lo, hi := r.Bounds()
		for range 8 {
			x := rapid.Float64Range(lo[0]-1, hi[0]+1).Draw(t, "x")
			y := rapid.Float64Range(lo[1]-1, hi[1]+1).Draw(t, "y")
			depth, nx, ny := r.Depth(x, y)
			if in := r.contains(orb.Point{x, y}); in != (depth > r.tolerance()) && depth > 1e-8 {
				t.Fatalf("contains %v, depth %v at (%v, %v)\na %v\nb %v", in, depth, x, y, a, b)
			}
			if depth < 1e-8 {
				continue
			}
			if r.contains(orb.Point{x + nx*depth, y + ny*depth}) {
				if d, _, _ := r.Depth(x+nx*depth, y+ny*depth); d > left {
					t.Fatalf("still %v deep after the way out of %v\na %v\nb %v", d, depth, a, b)
				}
			}
			for k := range 16 {
				sin, cos := math.Sincos(2 * math.Pi * float64(k) / 16)
				if d := depth*0.999 - left; !r.contains(orb.Point{x + cos*d, y + sin*d}) && d > 1e-6 {
					t.Fatalf("a way out shorter than %v exists\na %v\nb %v", depth, a, b)
				}
			}
		}
	})
}

// TestOnlyOwnSidesBound: the slow twin clips every side of every sum, cuts and
// hollow corners included.
func TestOnlyOwnSidesBound(t *testing.T) {
	everySide := func(ring orb.Ring) *Shape {
		s := NewShape(ring)
		for _, p := range s.parts {
			for k := range p.mayBound {
				p.mayBound[k], p.sides[k] = true, cornerSides{}
			}
		}
		return s
	}
	rapid.Check(t, func(t *rapid.T) {
		a, b := outline(t, "a"), outline(t, "b")
		keep := Clearance{
			Gap:  float64(rapid.IntRange(0, 2).Draw(t, "gap")),
			Step: rapid.SampledFrom([]float64{0, plane.Lattice}).Draw(t, "step"),
		}
		keep.Tolerance = keep.Step / 4
		fast, slow := made(NewShape(a), NewShape(b), keep), made(everySide(a), everySide(b), keep)
		lo, hi := fast.Bounds()
		for range 32 {
			x := rapid.Float64Range(lo[0], hi[0]).Draw(t, "x")
			y := rapid.Float64Range(lo[1], hi[1]).Draw(t, "y")
			d, _, _ := fast.Depth(x, y)
			// sides that meet at a shallow angle
			if want, _, _ := slow.Depth(x, y); math.Abs(d-want) > max(1e-8, 64*keep.Step) {
				t.Fatalf("depth %v, want %v at (%v, %v)\na %v\nb %v", d, want, x, y, a, b)
			}
		}
	})
}

// TestExactFitSurvives: a tooth as wide as its slot may stand in it.
func TestExactFitSurvives(t *testing.T) {
	slot := orb.Ring{{0, 0}, {10, 0}, {10, 10}, {6, 10}, {6, 4}, {4, 4}, {4, 10}, {0, 10}, {0, 0}}
	tooth := orb.Ring{{0, 0}, {2, 0}, {2, 6}, {0, 6}, {0, 0}}
	r := made(NewShape(slot), NewShape(tooth), Clearance{})
	for _, y := range []float64{4, 5, 9} {
		if d, _, _ := r.Depth(4, y); d > 1e-9 {
			t.Errorf("at (4, %v): depth %v, want 0: the tooth fits the slot exactly", y, d)
		}
	}
	for _, p := range []orb.Point{{4, 3}, {4.5, 5}, {3.5, 5}} {
		if d, _, _ := r.Depth(p[0], p[1]); d < 0.4 {
			t.Errorf("at %v: depth %v, want about 0.5 or more", p, d)
		}
	}
}

func TestOutwardContainsAndStaysNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := outline(t, "a")
		const tolerance = 0.8
		out := Outward(ring, tolerance)
		if len(out) > len(ring) {
			t.Fatalf("simpler ring has %d vertices, the given one %d", len(out), len(ring))
		}
		extra, err := geom.Difference(polygon(ring, 0, 0), polygon(out, 0, 0))
		if err != nil {
			return
		}
		if extra.Area() > 1e-9 {
			t.Fatalf("area %v of %v is left out by %v", extra.Area(), ring, out)
		}
		for _, p := range out {
			near := math.Inf(1)
			for i := range ring[1:] {
				near = math.Min(near, planar.DistanceFromSegment(ring[i], ring[i+1], p))
			}
			if near > tolerance*(1+1e-9) {
				t.Fatalf("vertex %v strays %v", p, near)
			}
		}
	})
}

// TestRoundingIsSafe: places outside a loosened region may be rounded one by
// one and stay outside the bare one. Places are drawn at the region's own
// boundary, where it matters.
func TestRoundingIsSafe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := outline(t, "a"), outline(t, "b")
		step := rapid.SampledFrom([]float64{0.5, 0.125, plane.Lattice}).Draw(t, "step")
		exact := newUnion(never, NewShape(a), NewShape(b), Clearance{})
		loose := made(NewShape(a), NewShape(b), Clearance{Step: step, Tolerance: step / 4})
		round := func(p orb.Point) orb.Point {
			return orb.Point{math.RoundToEven(p[0]/step) * step, math.RoundToEven(p[1]/step) * step}
		}
		at := orb.Point{rapid.Float64Range(-3, 3).Draw(t, "x"), rapid.Float64Range(-3, 3).Draw(t, "y")}
		loose.Vertices(func(v orb.Point) {
			for k := range v { // a flush place off by rounding may meet a tie; take it as it is meant
				if near := plane.Snap(v[k]); math.Abs(v[k]-near) < 1e-9 {
					v[k] = near
				}
			}
			p := orb.Point{math.Round(at[0]*1e6) / (1 << 20), math.Round(at[1]*1e6) / (1 << 20)}
			q := orb.Point{p[0] + v[0], p[1] + v[1]}
			if d, _, _ := loose.Depth(q[0]-p[0], q[1]-p[1]); d > 1e-9 {
				return
			}
			rp, rq := round(p), round(q)
			if off := (orb.Point{rq[0] - rp[0], rq[1] - rp[1]}); exact.contains(off) {
				t.Fatalf("%v rounds to %v, inside\na %v\nb %v", v, off, a, b)
			}
		})
	})
}
