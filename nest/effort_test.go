package nest

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
)

// Thorough effort begins with all that normal effort does, whatever bounds the work, and does more
// besides. That search then ends no longer is TestGoingOnIsNoWorse of package search.
func TestThoroughBeginsAsNormal(t *testing.T) {
	p := Problem{Strip: Strip{Width: 100}, Pieces: []Piece{{Outline: orb.Ring{{0, 0}, {30, 0}, {30, 40}, {0, 40},
		{0, 0}}, Count: 2}}}
	for _, o := range []Options{
		{}, {Steady: true}, {Purchase: true}, {Seed: 7},
		{Bought: func(used float64) float64 { return used }},
	} {
		s := newSearcher(p, nil)
		normal := o.toSearch(s, time.Time{})
		o.Effort = Thorough
		through := o.toSearch(s, time.Time{})
		if through.InAll <= through.Work || through.InAll != o.Effort.Work() {
			t.Errorf("%+v: %d evaluations in all, %d to begin with", o, through.InAll, through.Work)
		}
		if normal.Work != through.Work || normal.Seed != through.Seed || normal.Growth.Most != through.Growth.Most {
			t.Errorf("%+v: normal effort does %d, up to %d; thorough begins with %d, up to %d", o,
				normal.Work, normal.Growth.Most, through.Work, through.Growth.Most)
		}
	}
	// The share of the work that the few pieces left over from a fold get is the same of either.
	for _, share := range []int64{3, 7, 100} {
		part := func(e Effort) int64 { return Options{Effort: e, Work: e.Work() * 2 / share}.work() }
		if d := cmp.Diff(part(Normal), part(Thorough)); d != "" {
			t.Errorf("2/%d: %s", share, d)
		}
	}
}
