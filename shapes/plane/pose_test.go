package plane

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// On a fold an outline cuts its reflection as well: that one, turned the other
// way, must be the same bit for bit, about either axis.
func TestReflectionsAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		turn := rapid.OneOf(rapid.Float64Range(-720, 720),
			rapid.SampledFrom([]float64{0, 45, 90, 135, 180, 270, -90})).Draw(t, "turn")
		half := float64(rapid.IntRange(-1440, 1440).Draw(t, "quarter degrees")) / 4 // 180 less it is exact
		x, y := rapid.Float64Range(-999, 999).Draw(t, "x"), rapid.Float64Range(-999, 999).Draw(t, "y")
		ring := orb.Ring{{x, y}, {x + 50, y}, {x + 20, y + 30}, {x, y}}
		same := func(turn, other float64, flip func(orb.Point) orb.Point) {
			drawn, mirrored := Pose{Turn: turn}.Apply(ring), Pose{Turn: other, Mirrored: true}.Apply(ring)
			slices.Reverse(mirrored)
			for i := range drawn {
				if flip(drawn[i]) != mirrored[i] {
					t.Fatalf("turned %v: %v, its reflection turned %v: %v", turn, drawn[i], other, mirrored[i])
				}
			}
		}
		same(turn, -turn, func(p orb.Point) orb.Point { return orb.Point{p[0], -p[1]} })
		same(half, 180-half, func(p orb.Point) orb.Point { return orb.Point{-p[0], p[1]} })
		sin, cos := SinCos(turn)
		want, wantCos := math.Sincos(turn * math.Pi / 180)
		if math.Abs(sin-want) > 1e-14 || math.Abs(cos-wantCos) > 1e-14 {
			t.Fatalf("turned %v: %v, %v, want %v, %v", turn, sin, cos, want, wantCos)
		}
	})
}
