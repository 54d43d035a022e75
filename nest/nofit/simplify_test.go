package nofit

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// slowOutward is the slow twin: of all changes at hand the one that strays least is
// looked for anew each time.
func slowOutward(ring orb.Ring, tolerance float64) orb.Ring {
	o := newOuter(plane.Tidy(ring), tolerance)
	for o.left > 3 {
		best := change{at: -1, strays: math.Inf(1)}
		for i := range o.corners {
			if o.corners[i].gone {
				continue
			}
			if c, ok := o.change(i); ok && c.strays < best.strays {
				best = c
			}
		}
		if best.at < 0 {
			break
		}
		o.make(best)
	}
	return o.ring()
}

// TestOutwardAgainstSlowTwin: the heap finds the same changes in the same order.
func TestOutwardAgainstSlowTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := outline(t, "a")
		tolerance := rapid.SampledFrom([]float64{0.1, 0.8, 3, 20}).Draw(t, "tolerance")
		got, want := Outward(ring, tolerance), slowOutward(ring, tolerance)
		if plane.CheckSimple(want) != nil {
			want = plane.Tidy(ring)
		}
		if !slices.Equal(got, want) {
			t.Fatalf("%v, want %v", got, want)
		}
	})
}
