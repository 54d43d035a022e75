package nest_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/nest"
)

// TestPurchaseEndsWhatIsHopeless: a search for what is bought ends after half of its
// budget where the next length sold is far off, at the same point whatever the number
// of workers, and goes on where it is near.
func TestPurchaseEndsWhatIsHopeless(t *testing.T) {
	p := corsetTwice(t)
	var proofs nest.Proofs
	of := func(step float64, workers int, purchase bool) nest.Result {
		return solve(t, p, nest.Options{
			Work: 2 << 20, // the lanes meet twice
			Seed: 3, Proofs: &proofs, Workers: workers, Purchase: purchase,
			Bought: func(used float64) float64 { return math.Ceil(used/step) * step },
		})
	}
	full := of(750, 2, false)
	half := of(750, 2, true)
	if !half.Stats.Hopeless || full.Stats.Hopeless || half.Stats.Evaluations > full.Stats.Evaluations*3/4 {
		t.Errorf("%d evaluations, %d in full", half.Stats.Evaluations, full.Stats.Evaluations)
	}
	if diff := cmp.Diff(half.Layout, of(750, 1, true).Layout); diff != "" {
		t.Errorf("-two workers +one\n%s", diff)
	}
	if near := of(0.25, 2, true); near.Stats.Hopeless && near.Stats.Evaluations < full.Stats.Evaluations*3/4 {
		t.Errorf("sold by the quarter of a millimetre it ends after %d evaluations of %d", near.Stats.Evaluations, full.Stats.Evaluations)
	}
}
