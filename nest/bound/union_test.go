package bound_test

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/nest/bound"
	"yardlay/shapes/plane"
)

// What convex parts and dented outlines cover together is measured by lines, as the profile of their union says.
func TestUnionChords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var parts []orb.Ring
		for range rapid.IntRange(0, 2).Draw(t, "dented") {
			parts = append(parts, figure(t))
		}
		for range rapid.IntRange(1, 5).Draw(t, "parts") {
			var points []orb.Point
			for range rapid.IntRange(3, 8).Draw(t, "corners") {
				points = append(points, orb.Point{float64(rapid.IntRange(0, 100).Draw(t, "x")),
					float64(rapid.IntRange(0, 20).Draw(t, "y")) * 5})
			}
			if hull := plane.Hull(points); len(hull) > 3 && plane.Area(hull) > 1 {
				parts = append(parts, hull)
			}
		}
		if len(parts) == 0 {
			return
		}
		for axis, at := range []int{1, 0} {
			for range 20 {
				s := rapid.Float64Range(-70, 180).Draw(t, "line")
				want, got := lineNear(parts, at, s, disc{}), bound.UnionOn(parts, bound.Axis(axis), s)
				if math.Abs(want-got) > 1e-6*(1+want) && math.Abs(bound.UnionOn(parts, bound.Axis(axis), s+1e-6)-got) < 1e-3 {
					t.Fatalf("axis %d at %v: %v, by lines %v", axis, s, got, want)
				}
			}
		}
	})
}

// An outline grown by half a gap covers of no line more than what lies so near to it, and all but a little; a little
// more is missing where it loses corners before.
func TestGrownFromBelow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		outline, share := figure(t), 0.98
		if rapid.Bool().Draw(t, "bent") {
			outline = bent(t)
			if len(outline) > 41 {
				share = 0.95
			}
		}
		gap := rapid.Float64Range(0.1, 12).Draw(t, "gap")
		for axis, at := range []int{1, 0} {
			box := plane.Bounds(outline)
			low, high := box.Min[at]-gap, box.Max[at]+gap
			const lines = 120
			on, all, exact := bound.GrownOn(outline, bound.Axis(axis), gap), 0.0, 0.0
			for k := range lines {
				s := low + (high-low)*(float64(k)+0.5)/lines
				got, most := on(s), nearLine(outline, at, s, gap/2)
				if got > most+1e-7 {
					t.Fatalf("axis %d at %v, gap %v: %v, and %v lie so near", axis, s, gap, got, most)
				}
				all, exact = all+got, exact+most
			}
			if all < exact*share {
				t.Errorf("axis %d, gap %v: %v of %v", axis, gap, all, exact)
			}
		}
	})
}

// bent is an outline of many corners, as a curved seam has, turned inward in places.
func bent(t *rapid.T) orb.Ring {
	corners := rapid.IntRange(8, 300).Draw(t, "corners")
	waves, deep := rapid.IntRange(2, 5).Draw(t, "waves"), rapid.Float64Range(0, 0.6).Draw(t, "deep")
	var r orb.Ring
	for k := range corners {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(corners))
		far := 80 * (1 - deep/2*(1+math.Cos(2*math.Pi*float64(k*waves)/float64(corners))))
		r = append(r, orb.Point{far * cos, far * sin})
	}
	return plane.SnapRing(append(r, r[0]))
}

// nearLine measures what of a line lies in a ring or within a radius of its sides. What lies so near to a side is an
// interval: it ends on circles about the ends of the side, or on the sides moved by the radius.
func nearLine(r orb.Ring, t int, s, radius float64) float64 {
	var near [][2]float64
	cuts := cutsOf(nil, r, t, s)
	for i := 1; i < len(cuts); i += 2 {
		near = append(near, [2]float64{cuts[i-1], cuts[i]})
	}
	for i := 1; i < len(r); i++ {
		a, b := r[i-1], r[i]
		var ends []float64
		for _, v := range []orb.Point{a, b} {
			if d := math.Abs(v[t] - s); d <= radius {
				half := math.Sqrt(radius*radius - d*d)
				ends = append(ends, v[1-t]-half, v[1-t]+half)
			}
		}
		length := math.Hypot(b[0]-a[0], b[1]-a[1])
		for _, side := range []float64{-radius, radius} {
			along, over := side*(b[1]-a[1])/length, -side*(b[0]-a[0])/length
			p, q := orb.Point{a[0] + along, a[1] + over}, orb.Point{b[0] + along, b[1] + over}
			if (p[t] <= s) != (q[t] <= s) {
				ends = append(ends, p[1-t]+(q[1-t]-p[1-t])*(s-p[t])/(q[t]-p[t]))
			}
		}
		if len(ends) > 1 {
			near = append(near, [2]float64{slices.Min(ends), slices.Max(ends)})
		}
	}
	slices.SortFunc(near, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	sum, end := 0.0, math.Inf(-1)
	for _, n := range near {
		sum += max(0, n[1]-max(n[0], end))
		end = max(end, n[1])
	}
	return sum
}
