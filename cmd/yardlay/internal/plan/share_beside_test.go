package plan_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"testing"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/plane"
)

// length is a leftover, or a bolt of which there is one, that lies open beside a fold, cm. Its price is that of so
// many cm of the counter.
type length struct{ along, across, price int }

// beside draws a length that holds some of the panels of a job, and not all.
func (j foldedJob) beside(seed uint64) length {
	r := rand.New(rand.NewPCG(seed, 29))
	longest := 0
	for _, p := range j.panels {
		longest = max(longest, p.along)
	}
	along := longest/2 + r.IntN(longest+1) + 3
	return length{along, j.width/2 + r.IntN(j.width/2+1), along/2 + r.IntN(along)}
}

// least is the least that is paid, in cm of the counter, for the panels of a job with a length beside the fold:
// whatever lies on the length is tried in every way, and so is every share of the rest. A length that is bought may
// also be folded, and hold all of them.
func (l length) least(j foldedJob, bought bool) int {
	price, best := 0, -1
	take := func(cost int) {
		if best < 0 || cost < best {
			best = cost
		}
	}
	if whole := j.least(j.all(), nil); whole >= 0 {
		take(j.stepped(whole))
		if bought && whole <= l.along {
			take(l.price)
		}
	}
	if bought {
		price = l.price
	}
	on, rest := make([]int, len(j.panels)), j.all()
	var deal func(i int)
	deal = func(i int) {
		if i < len(j.panels) {
			for n := range j.panels[i].count + 1 {
				on[i], rest[i] = n, j.panels[i].count-n
				deal(i + 1)
			}
			return
		}
		var rects, left [][2]int
		for k, p := range j.panels {
			for n := range p.count {
				if grown := [2]int{p.along + j.gap, p.across + j.gap}; n < on[k] {
					rects = append(rects, grown)
				} else {
					left = append(left, grown)
				}
			}
		}
		if len(rects) == 0 || !fit(nil, rects, l.along+j.gap, l.across+j.gap) {
			return
		}
		if len(left) == 0 {
			take(price)
			return
		}
		cut := j.least(rest, nil)
		if cut < 0 { // of which nothing can be cut double: it lies open
			cut = shortest(nil, left, j.width+j.gap) - j.gap
		}
		take(price + j.stepped(cut))
	}
	deal(0)
	return best
}

// found is how often a job was laid, and how.
type found struct{ laid, proved, missed, shares int }

// held holds a laying to the least that is paid for it, whatever the pieces are shared out over.
func (f *found) held(t *testing.T, seed int, src string, l plan.Laid, paid, least, claimed float64) {
	t.Helper()
	f.laid++
	f.shares += l.SharesTried
	switch {
	case paid < least-0.1:
		t.Errorf("seed %d: %v is paid, and the least of all shares is %v\n%s", seed, paid, least, src)
	case paid > least+0.1 && l.Proved():
		t.Errorf("seed %d: %v proved, and another share takes %v\n%s", seed, paid, least, src)
	case claimed > least+0.1:
		t.Errorf("seed %d: no less than %v is paid, and a share takes %v\n%s", seed, claimed, least, src)
	case paid > least+0.1:
		f.missed++
		t.Logf("seed %d: missed, %v for %v\n%s", seed, paid, least, src)
	}
	if l.Proved() {
		f.proved++
	}
}

// besideJobs lays random jobs with a length beside the fold; in a run by hand those of a few seeds.
func besideJobs(t *testing.T, bought bool, byHand ...int) (f found) {
	for _, seed := range often.Seeds(byHand, often.Jobs(2, 100)) {
		j := randomFolded(uint64(seed))
		l := j.beside(uint64(seed))
		cloth := fmt.Sprintf("lots = \"all\"\nhave = [ { length = %d, width = %d } ]", l.along, l.across)
		if bought {
			l.across = j.width
			cloth = fmt.Sprintf("price = \"100.00/m\"\nbolt = { length = %d, price = \"%d.00\", in_stock = 1 }", l.along,
				l.price)
		}
		src := j.source(cloth)
		all, err := plan.Run(context.Background(), testjobs.Read(t, src), plan.Options{Effort: nest.Quick, Workers: 1})
		var bad strict.Errors
		if errors.As(err, &bad) {
			continue // nothing can be cut double
		} else if err != nil {
			t.Fatal(err)
		}
		one := all[0]
		if least := float64(l.least(j, bought)); bought {
			f.held(t, seed, src, one, float64(one.Buy.Cost.Minor)/100, least, float64(one.LeastCost().Minor)/100)
		} else {
			f.held(t, seed, src, one, one.Buy.Bought/10, least, one.LeastBuy/10)
		}
	}
	return f
}

// What is cut beside a fold from a leftover: every share of the panels between that, the fold and the open stretch
// is tried, and all layouts of each.
func TestNoShareUndercutsAProvedPurchaseBesideALeftover(t *testing.T) {
	f := besideJobs(t, false, 0, 2, 6, 7)
	t.Logf("%+v", f)
}

// The same with a bolt that is sold beside the counter's length, in money.
func TestNoShareUndercutsAProvedPurchaseOfABolt(t *testing.T) {
	f := besideJobs(t, true, 0, 2, 3, 7)
	t.Logf("%+v", f)
}

// The same with a panel pinned in the corner of one of the stretches.
func TestNoShareUndercutsAProvedPurchaseRoundAPin(t *testing.T) {
	var f found
	for _, seed := range often.Seeds([]int{0, 2, 7, 8}, often.Jobs(3, 100)) {
		j := randomFolded(uint64(seed))
		src := j.source("")
		var pin corner
		pinned := func(task plan.Task) plan.Task {
			r := rand.New(rand.NewPCG(uint64(seed), 31))
			n := r.IntN(len(task.Stretches))
			s := task.Stretches[n].Problem
			one := nest.Placed{Piece: r.IntN(len(s.Pieces))}
			box := plane.Bounds(s.Outline(one))
			one.At[0], one.At[1] = -box.Min[0], -box.Min[1]
			if n == 0 {
				one.At[1] += float64(10*j.gap) / 2
			}
			pin.folded = n == 0
			fmt.Sscanf(s.Pieces[one.Piece].Name, "panel %d", &pin.panel)
			pin.panel--
			pins := make([][]nest.Placed, len(task.Stretches))
			pins[n] = []nest.Placed{one}
			return task.WithPins(pins)
		}
		all, err := plan.Run(context.Background(), testjobs.Read(t, src), plan.Options{
			Effort: nest.Quick, Workers: 1, Begin: pinned,
		})
		var bad strict.Errors
		if errors.As(err, &bad) {
			continue // nothing can be cut double
		} else if err != nil {
			t.Fatal(err)
		}
		least := float64(j.stepped(j.least(j.all(), &pin)))
		f.held(t, seed, src, all[0], all[0].Buy.Bought/10, least, all[0].LeastFor/10)
	}
	t.Logf("%+v", f)
}
