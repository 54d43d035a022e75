package search

import "testing"

// TestBudget: each meeting is after one unit more of work.
func TestBudget(t *testing.T) {
	gaining := func(evals int64) float64 { return 1000 - 2*float64(evals) }
	still := func(int64) float64 { return 1000 }
	from := func(share float64) func(_, share float64) bool { // cheaper from that share on
		return func(_, s float64) bool { return s >= share }
	}
	for _, c := range []struct {
		name     string
		length   func(evals int64) float64 // of each search
		cheaper  func(length, share float64) bool
		work     int64
		searches int
	}{
		{"gains for ever", gaining, from(0.05), 64, 1},
		{"gains for ever, and all that is shorter is cheaper", gaining, nil, 64, 1},
		{"gains until half of the exploring is done", func(e int64) float64 { return gaining(min(e, 6)) }, from(0.05),
			64, 3},
		{"gains a ten-thousandth", func(e int64) float64 { return 1000 - 0.01*float64(e) }, from(0.05), 64, 3},
		{"stands still", still, from(0.005), 64, 3},
		{"nothing in reach is cheaper", gaining, from(0.2), 16, 1},
	} {
		b := budget{work: 16, grow: Growth{Most: 64, Cheaper: c.cheaper}}
		searches, began := 1, int64(0)
		for evals := int64(0); b.used(evals) < 1; evals++ {
			length := c.length(evals - began)
			if b.met(evals, length, length) == beginAnew {
				searches, began = searches+1, evals
			}
		}
		if b.work != c.work || searches != c.searches {
			t.Errorf("%s: grew to %d in %d searches, want %d in %d", c.name, b.work, searches, c.work, c.searches)
		}
	}
}
