package sheet

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// No gap between two heights is longer than the widths say.
func TestWidthsRuleOutNoGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var ring orb.Ring
		n := rapid.IntRange(3, 12).Draw(t, "corners")
		for i := range n {
			r := rapid.Float64Range(5, 100).Draw(t, "radius")
			a := 2 * math.Pi * float64(i) / float64(n)
			ring = append(ring, orb.Point{r * math.Cos(a), r * math.Sin(a)})
		}
		ring = append(ring, ring[0])
		f := newFrame(ring, nil, rapid.SampledFrom([]float64{0, 90, 30}).Draw(t, "turn"))
		y0 := rapid.Float64Range(f.bound.Min[1], f.bound.Max[1]).Draw(t, "from")
		y1 := y0 + rapid.Float64Range(0, 40).Draw(t, "height")
		for _, g := range f.gaps(y0, y1, 1, 0) {
			w := g[1] - g[0]
			if most := f.widest.within(y0, y1); w > most {
				t.Fatalf("a gap of %v where %v is the most", w, most)
			}
			if f.widest.rules(w, y1-y0) {
				t.Fatalf("a gap of %v is ruled out", w)
			}
		}
	})
}
