package search

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestTrack: nearest, next and empty against all places of the track one by one.
func TestTrack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(0, 50).Draw(t, "lo")
		tr := track{
			lo: lo, hi: lo + rapid.Float64Range(-5, 100).Draw(t, "room"),
			step: rapid.Float64Range(0.3, 40).Draw(t, "step"), phase: rapid.Float64Range(-60, 60).Draw(t, "phase"),
			rounded: rapid.Bool().Draw(t, "rounded"),
		}
		v := rapid.Float64Range(-80, 200).Draw(t, "v")
		next, nearest := math.Inf(1), math.NaN()
		for k := -1000.0; k <= 1000; k++ {
			at := tr.gridPlace(k)
			if (v <= tr.lo || at >= v-min(gridTolerance, tr.slack())) && at >= tr.lo-tr.slack() && at < next {
				next = at
			}
			if at >= tr.lo-tr.slack() && at <= tr.hi+tr.slack() && !(math.Abs(at-v) >= math.Abs(nearest-v)) {
				nearest = at
			}
		}
		if got := tr.next(v); got != next {
			t.Errorf("next(%v) is %v, want %v", v, got, next)
		}
		if tr.empty() != math.IsNaN(nearest) {
			t.Fatalf("empty is %v, nearest place %v", tr.empty(), nearest)
		}
		if got := tr.nearest(v); !tr.empty() && math.Abs(got-v) > math.Abs(nearest-v)+1e-3 {
			t.Errorf("nearest(%v) is %v, want %v", v, got, nearest)
		}
	})
}
