package plan

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"yardlay/nest"
)

// mostShares is the most ways to share the pieces of a fold out that are all tried; where
// there are more, those are that change one piece of the best one so far.
const mostShares = 128

// mostTried is how many shares of a round are laid, by a trial each, those with the least
// bound first, and mostLaid how many of these by the effort of the run, so that the search for
// a share takes no more than twice what the first one did.
const mostTried, mostLaid = 24, 2

// mostRounds is how often the best share is changed once more.
const mostRounds = 3

// SharedBy returns the task with the pieces of its fold shared out as said; false where its
// cloth cannot be spread so.
func (t Task) SharedBy(share []nest.Cutting) (Task, bool) {
	if t.Lay == nest.Open {
		return t, false
	}
	stretches, err := nest.FoldBy(t.Problem, t.Lay, t.Spread.WashedAcross(t.Spread.Cloth.Selvedge), share)
	if err != nil {
		return t, false
	}
	t.Stretches, t.shared = stretches, true
	return t, true
}

// share says how the pieces are shared out over the stretches of a fold.
func (t Task) share() []nest.Cutting { return nest.ShareOf(t.Stretches, len(t.Problem.Pieces)) }

// otherShares lays what is cut from a fold shared out otherwise, where that may let less be
// bought: a laying with all cut double that can be is not changed for one that buys as much.
func (t Task) otherShares(ctx context.Context, best Laid, o Options) Laid {
	if o.Effort == nest.Trial || t.shareIsForced() || t.Pinned() > 0 || best.Lengths != nil {
		return best
	}
	seen := map[string]bool{fmt.Sprint(best.Task.share()): true}
	full, _ := nest.Fold(t.Problem, t.Lay, t.Spread.WashedAcross(t.Spread.Cloth.Selvedge))
	most := nest.ShareOf(full, len(t.Problem.Pieces))
	for range mostRounds {
		before := best
		for _, one := range t.tried(ctx, t.sharesBeside(best.Task.share(), most, seen), best, o) {
			if ctx.Err() != nil || best.Proved() {
				break
			}
			so := o
			so.Better = one.onlyBetter(o.Better, best)
			l, err := one.layFresh(ctx, so, nil)
			if err == nil && l.Buy.Bought < best.Buy.Bought {
				best = l
			}
		}
		if best.Buy.Bought >= before.Buy.Bought {
			break
		}
	}
	best.SharesTried = len(seen) - 1
	return best
}

// sharesBeside lists shares that were not seen yet: all there are, or those that change one
// piece of a share.
func (t Task) sharesBeside(from, most []nest.Cutting, seen map[string]bool) (list [][]nest.Cutting) {
	choices, all := make([][]nest.Cutting, len(most)), 1
	for i, m := range most {
		choices[i] = t.cuttings(i, m)
		all = min(all*len(choices[i]), mostShares+1)
	}
	add := func(share []nest.Cutting) {
		if key := fmt.Sprint(share); !seen[key] {
			seen[key] = true
			list = append(list, share)
		}
	}
	if all > mostShares {
		for i := range most {
			for _, c := range choices[i] {
				share := slices.Clone(from)
				share[i] = c
				add(share)
			}
		}
		return list
	}
	for n := range all {
		share := make([]nest.Cutting, len(most))
		for i, c := range choices {
			share[i], n = c[n%len(c)], n/len(c)
		}
		add(share)
	}
	return list
}

// cuttings lists the ways to cut piece i, of which the first share cuts as much on the fold as can be.
func (t Task) cuttings(i int, most nest.Cutting) []nest.Cutting {
	ways := []nest.Cutting{most}
	double := most.Double - 1
	if most.OnFold {
		double = t.Problem.Pieces[i].Count / 2
	}
	for ; double >= 0; double-- {
		ways = append(ways, nest.Cutting{Double: double})
	}
	return ways
}

// trial is a share laid at once.
type trial struct {
	task          Task
	least, bought float64 // mm
	needed        float64
}

// tried returns the shares that promise to let less be bought than the best laying does, the
// best first: those whose bounds allow it, by what a trial needs for them.
func (t Task) tried(ctx context.Context, shares [][]nest.Cutting, best Laid, o Options) (list []Task) {
	var trials []trial
	simple, cancel := context.WithCancel(ctx)
	cancel()
	for _, share := range shares {
		one, ok := t.SharedBy(share)
		if !ok {
			continue
		}
		var least []float64
		for _, s := range one.Stretches {
			least = append(least, o.Proofs.LowerBound(simple, s.Problem).Length)
		}
		if one.Bought(least) < best.Buy.Bought {
			trials = append(trials, trial{task: one, least: one.Needed(least)})
		}
	}
	slices.SortStableFunc(trials, func(a, b trial) int { return cmp.Compare(a.least, b.least) })
	trials = trials[:min(len(trials), mostTried)]
	o.Effort, o.Better, o.Progress = nest.Trial, nil, nil
	var laid []trial
	for _, one := range trials {
		if ctx.Err() != nil {
			break
		}
		if l, err := one.task.layFresh(ctx, o, nil); err == nil {
			one.needed, one.bought = l.Needed, l.Buy.Bought
			laid = append(laid, one)
		}
	}
	slices.SortStableFunc(laid, func(a, b trial) int {
		return cmp.Or(cmp.Compare(a.bought, b.bought), cmp.Compare(a.needed, b.needed))
	})
	for _, one := range laid[:min(len(laid), mostLaid)] {
		list = append(list, one.task)
	}
	return list
}
