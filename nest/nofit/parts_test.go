package nofit

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// TestPartsAreFew: a corner that turns right needs two diagonals at most, so that there
// are at most two parts for each and one more (Hertel and Mehlhorn 1983).
func TestPartsAreFew(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := plane.Tidy(outline(t, "a"))
		if parts, most := len(decompose(ring)), 2*reflexCorners(ring)+1; parts > most {
			t.Fatalf("%d parts, at most %d are needed: %v", parts, most, ring)
		}
	})
}

// TestPartsKnowTheOutline: the sides that may bound a sum are those of the outline, each
// of them once; a corner is reflex where the outline's is.
func TestPartsKnowTheOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := plane.Tidy(outline(t, "a"))
		type side struct{ from, to orb.Point }
		left := map[side]bool{}
		for i := range ring[1:] {
			left[side{ring[i], ring[i+1]}] = true
		}
		for _, p := range decompose(ring) {
			for k, from := range p.corners {
				of := side{from, p.corners[(k+1)%len(p.corners)]}
				if p.mayBound[k] != left[of] {
					t.Fatalf("side %v: may bound %v, the outline has it %v\n%v", of, p.mayBound[k], left[of], ring)
				}
				delete(left, of)
				i := slices.Index(ring, from)
				n := len(ring) - 1
				if turns := plane.Orient(ring[(i+n-1)%n], ring[i], ring[(i+1)%n]) < 0; p.sides[k].reflex != turns {
					t.Fatalf("corner %v: reflex %v", from, p.sides[k].reflex)
				}
			}
		}
		if len(left) > 0 {
			t.Fatalf("sides that no part has: %v of %v", left, ring)
		}
	})
}

// TestExtremeCorners: a corner that turns left is the extreme one in a direction when both
// of its neighbours lie behind it.
func TestExtremeCorners(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := plane.Tidy(outline(t, "a"))
		n := len(ring) - 1
		k := rapid.IntRange(0, n-1).Draw(t, "corner")
		before, at, after := ring[(k+n-1)%n], ring[k], ring[(k+1)%n]
		c := cornerSides{unit(before, at), unit(at, after), plane.Orient(before, at, after) < 0}
		sin, cos := math.Sincos(rapid.Float64Range(0, 2*math.Pi).Draw(t, "direction"))
		ahead := func(p orb.Point) float64 { return cos*(p[0]-at[0]) + sin*(p[1]-at[1]) }
		want := !c.reflex && ahead(before) <= 0 && ahead(after) <= 0
		if got := c.isExtreme(orb.Point{cos, sin}); got != want && math.Abs(ahead(before)*ahead(after)) > 1e-6 {
			t.Fatalf("extreme %v, want %v: %v, %v, %v towards (%v, %v)", got, want, before, at, after, cos, sin)
		}
	})
}

// TestDiscIsAroundTheDisc: its sides touch the circle, four of them square to the axes.
func TestDiscIsAroundTheDisc(t *testing.T) {
	d := disc(3, gapSides)
	axial := 0
	for k := range d {
		n := d.normal(k)
		if off := n[0]*d[k][0] + n[1]*d[k][1]; math.Abs(off-3) > 1e-12 {
			t.Errorf("side %d is %v from the centre, want 3", k, off)
		}
		if min(math.Abs(n[0]), math.Abs(n[1])) < 1e-12 {
			axial++
		}
	}
	if len(d) != gapSides || axial != 4 {
		t.Errorf("%d sides, %d of them square to an axis", len(d), axial)
	}
}

// TestSweepAgainstCutting: the intersection of the moved sides of a convex polygon, by
// the sweep, is what cutting a large square by one side after the other leaves.
func TestSweepAgainstCutting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := hull(t, "c")
		sum := newSum(c, make([]bool, len(c)))
		step := rapid.SampledFrom([]float64{0.125, 0.5, 2}).Draw(t, "step")
		loose := sum.loosened(step, step/4)
		const far = 1e6 // where sides meet that are nearly parallel
		want := convex{{-far, -far}, {far, -far}, {far, far}, {-far, far}}
		for _, h := range sum.planes {
			if h.nx != 0 && h.ny != 0 {
				h.c += (math.Abs(h.nx)+math.Abs(h.ny))*step + step/4
			}
			want = want.cut(h, nil)
		}
		got := plane.Area(closed(loose.vertices))
		if area := plane.Area(closed(want)); math.Abs(got-area) > 1e-6*area {
			t.Fatalf("area %v, by cutting %v: %v", got, area, c)
		}
		for k, p := range loose.vertices {
			if d := loose.depthOf(p[0], p[1]); math.Abs(d) > 1e-9 {
				t.Fatalf("corner %d, %v, is %v deep", k, p, d)
			}
		}
	})
}

// TestDistanceToASegment: against many places along it.
func TestDistanceToASegment(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) orb.Point {
			return orb.Point{rapid.Float64Range(-9, 9).Draw(t, name+" x"), rapid.Float64Range(-9, 9).Draw(t, name+" y")}
		}
		p, a, b := draw("p"), draw("a"), draw("b")
		least := math.Inf(1)
		for k := range 1001 {
			u := float64(k) / 1000
			least = min(least, math.Hypot(p[0]-a[0]-u*(b[0]-a[0]), p[1]-a[1]-u*(b[1]-a[1])))
		}
		if a == b {
			return
		}
		if d := planar.DistanceFromSegment(a, b, p); d > least+1e-12 || d < least-math.Sqrt(dist2(a, b))/1000 {
			t.Fatalf("%v, want %v", d, least)
		}
	})
}
