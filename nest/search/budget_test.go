package search

import "testing"

// TestBudgetGrowsWhileItPays: each meeting is after one unit more of work.
func TestBudgetGrowsWhileItPays(t *testing.T) {
	always := func(_, share float64) bool { return share > nearby } // cheaper, but not by a little
	for _, c := range []struct {
		name    string
		length  func(evals int64) float64
		cheaper func(length, share float64) bool
		want    int64
	}{
		{"gains by the same step for ever", func(e int64) float64 { return 1000 - 2*float64(e) }, always, 64},
		{"gains until 12", func(e int64) float64 { return 1000 - 2*float64(min(e, 12)) }, always, 32},
		{"gains until 6, half of the exploring of 16", func(e int64) float64 { return 1000 - 2*float64(min(e, 6)) }, always, 16},
		{"gains a ten-thousandth", func(e int64) float64 { return 1000 - 0.01*float64(e) }, always, 16},
		{"nothing shorter is cheaper", func(e int64) float64 { return 1000 - 2*float64(e) },
			func(float64, float64) bool { return false }, 16},
		{"gains much, and much less is cheaper", func(e int64) float64 { return 1000 - 20*float64(min(e, 12)) },
			func(length, share float64) bool { return length*(1-share) <= 690 }, 32},
		{"gains for ever, and nothing says what is cheaper", func(e int64) float64 { return 1000 - 2*float64(e) }, nil, 64},
		{"stands still, and a little less is cheaper", func(int64) float64 { return 1000 },
			func(length, share float64) bool { return length*(1-share) <= 996 }, 128},
		{"stands still, and a little more than that less is cheaper", func(int64) float64 { return 1000 },
			func(length, share float64) bool { return length*(1-share) <= 970 }, 32},
		{"stands still, and a good deal less is cheaper", func(int64) float64 { return 1000 },
			func(length, share float64) bool { return length*(1-share) <= 950 }, 16},
	} {
		b := budget{work: 16, grow: Growth{Gaining: 64, Near: 128, Cheaper: c.cheaper}}
		for evals := int64(0); b.used(evals) < 1; evals++ {
			b.met(evals, c.length(evals), c.length(evals))
		}
		if b.work != c.want {
			t.Errorf("%s: grew to %d, want %d", c.name, b.work, c.want)
		}
	}
}
