package chart

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Round ticks from 0 up to the greatest value, few enough to be read.
func TestTicks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		most := math.Pow(10, rapid.Float64Range(-3, 6).Draw(t, "power"))
		at, decimals := ticks(most)
		if at[0] != 0 || at[len(at)-1] < most*(1-1e-9) || len(at) < 3 || len(at) > 7 {
			t.Fatalf("%v for %v", at, most)
		}
		for _, v := range at {
			if shown := number(v, decimals); math.Abs(
				v*math.Pow10(decimals)-math.Round(v*math.Pow10(decimals))) > 1e-6 {
				t.Fatalf("%v is shown as %s", v, shown)
			}
		}
	})
}

// Labels never cover each other, and values stand apart.
func TestLabelsAndPlacesStandApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var labels []label
		p := Points{}
		for range rapid.IntRange(2, 8).Draw(t, "n") {
			labels = append(labels, label{y: rapid.Float64Range(0, 90).Draw(t, "y")})
			value := rapid.OneOf(rapid.Float64Range(1, 3000), rapid.Just(25.4)) // some are equal
			p.Places = append(p.Places, Place{Value: value.Draw(t, "value")})
		}
		const top = 20 // of some points, as where cloths take alike
		was := slices.Clone(labels)
		spread(labels, top)
		for i, l := range labels {
			if l.y < top || i > 0 && labels[i-1].y-l.y < tall-1e-9 {
				t.Fatalf("labels at %v", labels)
			}
		}
		alone := slices.Clone(was[:1])
		if spread(alone, top)[0].y != max(top, was[0].y) {
			t.Fatalf("a label alone at %v is moved to %v", was[0], alone)
		}
		slices.SortFunc(p.Places, func(a, b Place) int { return cmp.Compare(a.Value, b.Value) })
		at, _ := p.spaced()
		for i := 1; i < len(at); i++ {
			if !(at[i]-at[i-1] >= leastStep-1e-9) {
				t.Fatalf("values at %v", at)
			}
		}
	})
}
