package report

import (
	"context"
	"errors"
	"strings"
	"testing"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// onlyCloth lays a job of one cloth and reports it.
func onlyCloth(t *testing.T, src string, o plan.Options) Cloth {
	t.Helper()
	r, err := Run(context.Background(), testjobs.Read(t, src), o)
	if err != nil {
		t.Fatalf("%v\n%s", err, src)
	}
	return r.Cloths[0]
}

// On 30 cm folded lengthwise, 1 cm apart, 18 x 13 twice, 23 x 8 twice and 8 x 3
// thrice take 60 cm with all cut double that can be, and no markers of those stretches take less. But
// with the panels of 23 x 8 on the open stretch, where they lie side by side with a
// panel of 8 x 3, 50 cm are enough, and are found. By a trial, which takes the first share alone,
// nothing is proved of the purchase.
func TestAnotherShareIsFound(t *testing.T) {
	src := testjobs.Panelled("width = 30\nlay = \"lengthwise-fold\"\nsold_by = \"10 cm\"\ngap = 1",
		[3]float64{18, 13, 2}, [3]float64{23, 8, 2}, [3]float64{8, 3, 3})
	if c := onlyCloth(t, src, plan.Options{Workers: 1, Effort: often.Full(nest.Quick, nest.Normal)}); c.Bought != 500 {
		t.Errorf("bought %v, want 500", c.Bought)
	}
	c := onlyCloth(t, src, plan.Options{Workers: 1, Effort: nest.Trial})
	if c.Bought != 600 || c.Proved || c.Steps < 1 {
		t.Errorf("by a trial bought %v, proved %v, steps %d; want 600, at least one step", c.Bought, c.Proved, c.Steps)
	}
	if c.Status == "proved" {
		t.Errorf("status %q", c.Status)
	}
	fold := onlyCloth(t, testjobs.Panelled("width = 30\nlay = \"lengthwise-fold\"\nsold_by = \"1 mm\"",
		[3]float64{18, 13, 2}), plan.Options{Workers: 1, Effort: nest.Quick})
	rest := onlyCloth(t, testjobs.Panelled("width = 30\nsold_by = \"1 mm\"\ngap = 1", [3]float64{23, 8, 2},
		[3]float64{8, 3, 3}), plan.Options{Workers: 1, Effort: nest.Quick})
	if total := fold.Bought + 10 + rest.Bought; total > 500 { // the gap between
		t.Errorf("the other share takes %v + 10 + %v mm, want 500 or less", fold.Bought, rest.Bought)
	}
}

// A purchase on a fold is proved where no share of the pieces can undercut it: four
// panels of half or a quarter of the width fill the cloth, folded or open.
func TestPurchaseOnAFoldIsProved(t *testing.T) {
	for lay, width := range map[string]float64{"lengthwise-fold": 40, "crosswise-fold": 40, "double-fold": 20} {
		src := testjobs.Panelled("width = 80\nnap = \"two-way\"\nlay = \""+lay+"\"\nends = 1\nsold_by = \"1 cm\"",
			[3]float64{50, width, 4})
		if c := onlyCloth(t, src, plan.Options{Workers: 1}); !c.Proved || !c.ProvedAsShared || c.Steps != 0 ||
			c.Status != "proved" {
			t.Errorf("%s: bought %v, proved %v, as shared %v, steps %d, status %q", lay, c.Bought, c.Proved,
				c.ProvedAsShared, c.Steps, c.Status)
		}
	}
}

// Around a flaw nothing may lie on an open stretch, so that the one share there is
// is covered by the bounds of its stretch.
func TestForcedShareIsProved(t *testing.T) {
	src := testjobs.Panelled(
		"width = 30\nlay = \"lengthwise-fold\"\nsold_by = \"10 cm\"\nflaws = [ { from = 0, to = 6, low = 0, high = "+
			"30 } ]", [3]float64{18, 13, 2}, [3]float64{23, 8, 2})
	if c := onlyCloth(t, src, plan.Options{Workers: 1}); c.Proved != c.ProvedAsShared || !c.Proved {
		t.Errorf("bought %v, proved %v, as shared %v", c.Bought, c.Proved, c.ProvedAsShared)
	}
}

// Over all lays, losses and leftovers status and proved never disagree, what is
// proved of the purchase is proved of the stretches too, and no bound lies above
// what is bought.
func TestStatusAndProvedAgree(t *testing.T) {
	laid, folded := 0, 0
	for seed := range often.Jobs(12, 24) {
		src := testjobs.Gown(testjobs.RandomCloth.Example(seed))
		r, err := Run(context.Background(), testjobs.Read(t, src), plan.Options{Effort: nest.Quick, Workers: 1})
		var bad strict.Errors
		if errors.As(err, &bad) {
			continue
		} else if err != nil {
			t.Fatal(err)
		}
		laid++
		if c := r.Cloths[0]; (c.Status == "proved") != c.Proved || c.Proved && !c.ProvedAsShared ||
			c.Laid.LeastBuy > c.Bought+measure.Guard || c.Laid.LeastFor > c.Bought+measure.Guard {
			t.Errorf("seed %d: status %q, proved %v, as shared %v, bought %v, at least %v and %v\n%s",
				seed, c.Status, c.Proved, c.ProvedAsShared, c.Bought, c.Laid.LeastBuy, c.Laid.LeastFor, src)
		} else if len(c.Stretches) > 0 && strings.Contains(src, "fold") {
			folded++
		}
	}
	if laid < 4 || folded < 2 {
		t.Errorf("only %d laid, %d folded", laid, folded)
	}
}

// Twelve rectangles of 11.1 x 3.1 in leave nothing of 33.3 in free but what the lattice
// takes, which is no cloth.
func TestAnExactFitIsReportedFull(t *testing.T) {
	for _, cloth := range []string{"width = 84.582", "width = 84.582\nhave = [ { length = 15.748 } ]",
		"width = 84.582\nprice = \"9/m\"\nwhole_bolts = true\nbolt = { length = 15.748, price = \"2\" }"} {
		c := onlyCloth(t, testjobs.Panelled(cloth, [3]float64{7.874, 28.194, 12}), plan.Options{Workers: 1})
		if c.Utilisation != 1 {
			t.Errorf("%s: %v filled", cloth, c.Utilisation)
		}
	}
}
