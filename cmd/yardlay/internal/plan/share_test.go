package plan_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
)

// panels are rectangles alike, in whole cm.
type panels struct{ along, across, count int }

// foldedJob is a job of rectangles on cloth folded lengthwise, in whole cm.
type foldedJob struct {
	width, gap, step int // gap and width are even
	panels           []panels
}

func randomFolded(seed uint64) foldedJob {
	r := rand.New(rand.NewPCG(seed, 18))
	within := func(from, to int) int { return from + r.IntN(to-from+1) }
	j := foldedJob{width: 2 * within(8, 16), gap: 2 * r.IntN(2), step: within(2, 5)}
	for range within(2, 3) {
		j.panels = append(j.panels, panels{within(3, 24), within(2, j.width*2/3), within(1, 3)})
	}
	return j
}

// source writes it, with further keys of its cloth.
func (j foldedJob) source(more string) string {
	cloth := fmt.Sprintf("width = %d\nlay = \"lengthwise-fold\"\nsold_by = \"%d cm\"\ngap = %d\n%s", j.width, j.step,
		j.gap, more)
	var all [][3]float64
	for _, p := range j.panels {
		all = append(all, [3]float64{float64(p.along), float64(p.across), float64(p.count)})
	}
	return testjobs.Panelled(cloth, all...)
}

// stepped rounds a length up to a step of the counter, cm.
func (j foldedJob) stepped(length int) int { return (length + j.step - 1) / j.step * j.step }

// corner is a panel, by its number, that lies in the lower left corner of the folded stretch, or of the
// open one.
type corner struct {
	panel  int
	folded bool
}

// all counts the panels.
func (j foldedJob) all() (counts []int) {
	for _, p := range j.panels {
		counts = append(counts, p.count)
	}
	return counts
}

// least is the shortest cloth, cm, for so many of each panel over every share of them with at least one pair
// cut double, that in the corner where it is: all layouts of both stretches are tried. -1: none holds them.
func (j foldedJob) least(counts []int, pin *corner) int {
	best := -1
	double := make([]int, len(j.panels))
	var share func(i int)
	share = func(i int) {
		if i < len(j.panels) {
			for double[i] = 0; 2*double[i] <= counts[i]; double[i]++ {
				share(i + 1)
			}
			return
		}
		var folded, open [][2]int
		first := [2][][2]int{} // on the folded stretch, on the open one
		for k, p := range j.panels {
			grown := [2]int{p.along + j.gap, p.across + j.gap}
			on := [2]int{double[k], counts[k] - 2*double[k]}
			if pin != nil && pin.panel == k {
				at := 0
				if !pin.folded {
					at = 1
				}
				if on[at]--; on[at] < 0 {
					return
				}
				first[at] = [][2]int{grown}
			}
			folded = append(folded, slices.Repeat([][2]int{grown}, on[0])...)
			open = append(open, slices.Repeat([][2]int{grown}, on[1])...)
		}
		half := (j.width + j.gap) / 2 // half a gap at the fold, and one beyond the selvedge
		if len(folded)+len(first[0]) == 0 ||
			slices.ContainsFunc(slices.Concat(folded, first[0]), func(r [2]int) bool { return r[1] > half }) {
			return
		}
		total := shortest(first[0], folded, half) - j.gap
		if len(open)+len(first[1]) > 0 {
			total += shortest(first[1], open, j.width+j.gap)
		}
		if best < 0 || total < best {
			best = total
		}
	}
	share(0)
	return best
}

// shortest is the length of the shortest strip of a width that holds rectangles, found by
// trying every place: along the strip each begins where others may end, and then likewise
// across it. One of corner lies in the lower left corner.
func shortest(corner, rects [][2]int, width int) int {
	area, longest := 0, 0
	for _, r := range slices.Concat(corner, rects) {
		area += r[0] * r[1]
		longest = max(longest, r[0])
	}
	for length := max(longest, (area+width-1)/width); ; length++ {
		if fit(corner, rects, length, width) {
			return length
		}
	}
}

// fit says whether rectangles have room on a length of a width, that of corner in the lower left corner.
func fit(corner, rects [][2]int, length, width int) bool {
	rects = slices.Clone(rects)
	slices.SortFunc(rects, func(a, b [2]int) int { return b[0]*b[1] - a[0]*a[1] })
	if slices.ContainsFunc(slices.Concat(corner, rects), func(r [2]int) bool { return r[0] > length || r[1] > width }) {
		return false
	}
	filled, at := make([]int, length), make([][2]int, 0, len(corner)+len(rects))
	for _, r := range corner {
		at = append(at, [2]int{})
		for x := range r[0] {
			filled[x] = r[1]
		}
	}
	return holds(slices.Concat(corner, rects), at, filled, width, len(corner))
}

// sums lists what rectangles come to side by side, up to a limit.
func sums(rects [][2]int, side, most int) (list []int) {
	reached := make([]bool, most+1)
	reached[0] = true
	for _, r := range rects {
		for s := most; s >= r[side]; s-- {
			reached[s] = reached[s] || reached[s-r[side]]
		}
	}
	for s, ok := range reached {
		if ok {
			list = append(list, s)
		}
	}
	return list
}

// holds places the next rectangle along the strip, whose columns are filled so far; so many of the first lie
// in the corner.
func holds(rects, at [][2]int, filled []int, width, corner int) bool {
	n := len(at)
	if n == len(rects) {
		return stacked(rects, at, corner, width)
	}
	r := rects[n]
	from := 0
	if n > corner && rects[n-1] == r {
		from = at[n-1][0]
	}
	for _, x := range sums(rects, 0, len(filled)-r[0]) {
		if x < from || slices.ContainsFunc(filled[x:x+r[0]], func(f int) bool { return f+r[1] > width }) {
			continue
		}
		for k := range filled[x : x+r[0]] {
			filled[x+k] += r[1]
		}
		if holds(rects, append(at, [2]int{x}), filled, width, corner) {
			return true
		}
		for k := range filled[x : x+r[0]] {
			filled[x+k] -= r[1]
		}
	}
	return false
}

// stacked finds places across the strip for rectangle n and those after it.
func stacked(rects, at [][2]int, n, width int) bool {
	if n == len(rects) {
		return true
	}
	for _, y := range sums(rects, 1, width-rects[n][1]) {
		clear := true
		for k := range n {
			clear = clear && (at[k][0]+rects[k][0] <= at[n][0] || at[n][0]+rects[n][0] <= at[k][0] ||
				at[k][1]+rects[k][1] <= y || y+rects[n][1] <= at[k][1])
		}
		if at[n][1] = y; clear && stacked(rects, at, n+1, width) {
			return true
		}
	}
	return false
}

// No purchase on a fold that is called proved is undercut by another share of the panels
// between the fold and the open stretch, and most are the least that any share allows: all
// shares and all layouts of small jobs of rectangles are tried.
func TestNoShareUndercutsAProvedPurchase(t *testing.T) {
	laid, missed, shown := 0, 0, 0
	for _, seed := range often.Seeds([]int{0, 2, 7, 8, 13}, often.Jobs(5, 60)) {
		j := randomFolded(uint64(seed))
		all, err := plan.Run(context.Background(), testjobs.Read(t, j.source("")), plan.Options{
			Effort: nest.Quick, Workers: 1,
		})
		var bad strict.Errors
		if errors.As(err, &bad) {
			continue // nothing can be cut double
		} else if err != nil {
			t.Fatal(err)
		}
		l := all[0]
		least := 10 * float64(j.stepped(j.least(j.all(), nil)))
		laid++
		switch bought := l.Buy.Bought; {
		case bought < least-0.1:
			t.Errorf("seed %d: %v mm bought, and the shortest of all shares is %v\n%s", seed, bought, least, j.source(""))
		case bought > least+0.1 && l.Proved():
			t.Errorf("seed %d: %v mm proved, and another share takes %v\n%s", seed, bought, least, j.source(""))
		case l.LeastBuy > least+0.1:
			t.Errorf("seed %d: no less than %v mm is bought, and a share takes %v\n%s", seed, l.LeastBuy, least,
				j.source(""))
		case bought > least+0.1:
			missed++
		}
		if l.Proved() {
			shown++
		}
	}
	t.Logf("%d laid, %d proved, the best share missed %d times", laid, shown, missed)
}

// Shares are tried side by side; how many at a time changes nothing.
func TestSharesDoNotDependOnWorkers(t *testing.T) {
	tried := 0
	for seed := range uint64(1) {
		var found [2]plan.Laid
		for k, workers := range []int{1, 3} {
			all, err := plan.Run(context.Background(), testjobs.Read(t, randomFolded(seed).source("")), plan.Options{
				Effort: nest.Quick, Steady: true, Workers: workers,
			})
			if err != nil {
				break // nothing can be cut double
			}
			found[k] = all[0]
		}
		tried += found[0].SharesTried
		if d := cmp.Diff(found[0].Opened, found[1].Opened); d != "" || found[0].SharesTried != found[1].SharesTried {
			t.Errorf("seed %d: %d and %d shares tried\n%s", seed, found[0].SharesTried, found[1].SharesTried, d)
		}
	}
	if tried == 0 {
		t.Error("no other share was tried")
	}
}

// Pieces that are alike but for their names change places in a share: of ten panels drawn as five
// pairs there are six shares, not 32, of six as three pairs four, not 8. Each pair takes 24 cm cut double, six or four
// panels open 48 cm.
func TestSharesOfLikePiecesAreWeighedOnce(t *testing.T) {
	pairs, bought := often.Full(3, 5), often.Full(720.0, 960.0)
	j := foldedJob{width: 30, step: 2, panels: slices.Repeat([]panels{{24, 9, 2}}, pairs)}
	all, err := plan.Run(context.Background(), testjobs.Read(t, j.source("")), plan.Options{
		Effort: nest.Quick, Steady: true,
	})
	if err != nil {
		t.Fatal(err)
	}
	if got := all[0].SharesTried; got != pairs || all[0].Buy.Bought != bought {
		t.Errorf("%v mm bought, %d shares tried besides the first, want %v and %d", all[0].Buy.Bought, got, bought, pairs)
	}
}

// Of ten panels drawn as five pairs all cut double take 120 cm, and six of them open besides two pairs 96 cm: a bolt of
// 1 m holds them on its fold.
func TestShareLongerThanSoldGivesWay(t *testing.T) {
	j := foldedJob{width: 30, step: 2, panels: slices.Repeat([]panels{{24, 9, 2}}, 5)}
	const bolt = "whole_bolts = true\nbolt = { length = 100, price = \"9.00\" }"
	for _, effort := range []nest.Effort{nest.Quick, nest.Thorough} {
		all, err := plan.Run(context.Background(), testjobs.Read(t, j.source(bolt)), plan.Options{Effort: effort})
		if err != nil {
			t.Fatal(err)
		}
		if l := all[0]; l.Several() || len(l.Results) != 2 || l.Buy.Bought != 1000 {
			t.Errorf("%v: %v mm bought, on %d stretches", effort, l.Buy.Bought, len(l.Results))
		}
	}
}
