package nofit

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// A loosened polygon holds the one it was made of, and is hardly larger, also where a
// long side is nearly parallel to a side of the disc of the gap: their crossing is
// lost in rounding, and a side drawn anew through it leant 0.3 mm into the polygon.
func TestLoosenedHoldsWhatItIsMadeOf(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		off := math.Pow(10, -rapid.Float64Range(5, 15).Draw(t, "power of ten off a side of the disc"))
		angle := 2*math.Pi/gapSides*float64(rapid.IntRange(0, gapSides-1).Draw(t, "side")) + off
		sin, cos := math.Sincos(angle)
		long := rapid.Float64Range(10, 2000).Draw(t, "length")
		x, y := rapid.Float64Range(-2000, 2000).Draw(t, "x"), rapid.Float64Range(-2000, 2000).Draw(t, "y")
		given := convex{{x, y}, {x + long*cos, y + long*sin}, {x - 40*sin, y + 40*cos}}
		var corners convex
		merge(given, disc(3.175, gapSides), func(v orb.Point, _, _ int, _, _ bool) { corners = append(corners, v) })
		wide := newSum(corners, make([]bool, len(corners)))
		loose := wide.loosened(1.0/1024, 1.0/4096)
		for k, h := range loose.planes {
			for _, v := range []orb.Point{loose.vertices[k], loose.vertices[(k+1)%len(loose.vertices)]} {
				if d := h.c - h.nx*v[0] - h.ny*v[1]; math.Abs(d) > rounding(4000) {
					t.Fatalf("side %d ends %v beside its line", k, d)
				}
			}
		}
		for k, v := range wide.vertices {
			u := wide.vertices[(k+1)%len(wide.vertices)]
			for _, at := range []orb.Point{v, {(u[0] + v[0]) / 2, (u[1] + v[1]) / 2}} {
				if d := loose.depthOf(at[0], at[1]); d < -1e-9 || d > 0.01 {
					t.Fatalf("%v lies %v deep in the loosened polygon", at, d)
				}
			}
		}
	})
}
