package nest_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/benchmarks/often"
	"yardlay/nest"
)

// TestPurchaseEndsWhatIsHopeless: a search for what is bought ends after half of its
// budget where the next length sold is far off, at the same point whatever the number
// of workers.
func TestPurchaseEndsWhatIsHopeless(t *testing.T) {
	p := often.Full(mixed(), corsetTwice(t))
	of := func(step float64, workers int) nest.Result {
		return solve(t, p, nest.Options{
			Effort: unproved, Work: 2 << 20, // the lanes meet twice
			Seed: 3, Proofs: &proofs, Workers: workers, Purchase: true,
			Bought: func(used float64) float64 { return math.Ceil(used/step) * step },
		})
	}
	const full = 4 << 20 // of both lanes
	half := of(750, 2)
	if !half.Stats.Hopeless || half.Stats.Evaluations > full*3/4 {
		t.Errorf("%d evaluations, %d in full", half.Stats.Evaluations, full)
	}
	if diff := cmp.Diff(half.Layout, of(750, 1).Layout); diff != "" {
		t.Errorf("-two workers +one\n%s", diff)
	}
}
