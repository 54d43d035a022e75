package plane

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// TestOrientIsThatOfRationalNumbers: on the lattice, off it, nearly in line, and far
// out.
func TestOrientIsThatOfRationalNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scale := rapid.SampledFrom([]float64{Lattice, 1, 1e-3, 0.1, 1.0 / 3, 1e30, 1e-200}).Draw(t, "scale")
		draw := func(name string) float64 {
			return scale * float64(rapid.IntRange(-1<<24, 1<<24).Draw(t, name))
		}
		a, b := orb.Point{draw("ax"), draw("ay")}, orb.Point{draw("bx"), draw("by")}
		part := rapid.Float64Range(-1, 2).Draw(t, "part")
		c := orb.Point{a[0] + part*(b[0]-a[0]), a[1] + part*(b[1]-a[1])}
		for axis := range c { // the nearest few numbers to a point in line
			for range rapid.IntRange(0, 3).Draw(t, "ulps") {
				c[axis] = math.Nextafter(c[axis], math.Inf(1))
			}
		}
		if rapid.Bool().Draw(t, "snapped") {
			c = orb.Point{Snap(c[0]), Snap(c[1])}
		}
		if got, want := Orient(a, b, c), orientRational(a, b, c); got != want {
			t.Errorf("Orient(%v, %v, %v) = %d, rational %d", a, b, c, got, want)
		}
	})
}
