package plan

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"reflect"
	"slices"

	"yardlay/cost"
	"yardlay/nest"
)

// mostShares is the most ways to share the pieces of a fold out that are all tried; where
// there are more, those are that change one piece of the best one so far.
const mostShares = 128

// mostTried is how many shares of a round are laid, by a trial each, those with the least
// bound first, and mostLaid how many of these by more: at normal effort by a quick one, in all
// three quarters of the work that the first share took, and the best once more by the effort
// of the run.
const mostTried, mostLaid = 24, 4

// mostRounds is how often the best share is changed once more.
const mostRounds = 3

// trialReach is more than a search shortens what a trial needs: a share that needs more is not
// laid again.
const trialReach = 0.2

// SharedBy returns the task with the pieces of its fold shared out as said; false where its
// cloth cannot be spread so, or a copy that is pinned is cut otherwise.
func (t Task) SharedBy(share []nest.Cutting) (Task, bool) {
	if t.Lay == nest.Open {
		return t, false
	}
	stretches, err := nest.FoldBy(t.Problem, t.Lay, t.Spread.WashedAcross(t.Spread.Cloth.Selvedge), share)
	if err != nil {
		return t, false
	}
	pins, ok := t.pinsOn(stretches)
	if !ok {
		return t, false
	}
	t.Stretches, t.shared = stretches, true
	return t.WithPins(pins), true
}

// share says how the pieces are shared out over the stretches of a fold.
func (t Task) share() []nest.Cutting { return nest.ShareOf(t.Stretches, len(t.Problem.Pieces)) }

// layShared lays a task on one length of bought cloth. On a fold the pieces are shared out
// otherwise, too, where that may let less be bought: with all cut double that can be first, then
// as promises the most, and the best of all is searched to the end. A share is not changed for
// one that buys as much, nor by a trial or where options ask for one share. Pinned copies stay where
// they are. A length that is longer than anything sold, however they are shared out, comes with a
// cost.ErrTooShort.
//
// Thorough work goes on from what normal work finds, so that it never needs more.
func (t Task) layShared(ctx context.Context, o Options, start *Start) (Laid, error) {
	if o.Effort == nest.Trial || o.Effort == nest.Endless || o.oneFold || t.shareIsForced() {
		return t.layFresh(ctx, o, start)
	}
	half, done := within(ctx, 1./2)
	defer done()
	if o.Effort == nest.Thorough {
		normal := o
		normal.Effort = nest.Normal
		l, err := t.layShared(half, normal, start)
		if err != nil && !errors.Is(err, cost.ErrTooShort) {
			return l, err
		}
		l = l.searchedOn(ctx, o)
		return l, l.unsold()
	}
	first := o
	first.Steady = o.Steady || !o.Exact
	l, err := t.layFresh(half, first, start)
	if err != nil && !errors.Is(err, cost.ErrTooShort) || err == nil && l.Proved() && !o.Exact {
		return l, err
	}
	best := t.otherShares(ctx, l, o)
	switch {
	case ctx.Err() != nil:
		best = best.endedBy(ctx)
	case best.cutShort() || best.Buy.Bought < l.Buy.Bought || first.Steady && best.mayGrow(o):
		best = best.searchedOn(ctx, o)
	}
	return best, best.unsold()
}

// unsold is a cost.ErrTooShort where nothing sold is as long as needed; nil else.
func (l Laid) unsold() error {
	_, err := l.Task.buy(l.Needed)
	return err
}

// mayGrow says whether more work than that of the effort is to be done for a laying.
func (l Laid) mayGrow(o Options) bool {
	used, _ := LengthsOf(l.Results)
	return slices.ContainsFunc(l.Task.orders(), func(order []int) bool {
		last := order[len(order)-1]
		so := l.Task.searchOn(last, o)
		so.Bought = l.Task.boughtFor(last, used, o)
		return so.Grows(used[last])
	})
}

// searchedOn searches on from a laying.
func (l Laid) searchedOn(ctx context.Context, o Options) Laid {
	if l.ProvedAsShared() && !o.Exact {
		return l.atTheLeast(ctx, o)
	}
	o.Better = l.Task.onlyBetter(o.Better, l)
	again, err := l.Task.layFresh(ctx, o, l.Task.OpenStart(l))
	if err != nil && !errors.Is(err, cost.ErrTooShort) || again.Needed > l.Needed {
		return l
	}
	again.SharesTried = l.SharesTried
	return again
}

// endedBy returns a laying that the end of a context has kept from being looked at further.
func (l Laid) endedBy(ctx context.Context) Laid {
	l.Results = slices.Clone(l.Results)
	for i := range l.Results {
		if l.Results[i].Status == nest.Finished {
			l.Results[i].Status = nest.Stopped
			if errors.Is(ctx.Err(), context.DeadlineExceeded) {
				l.Results[i].Status = nest.OutOfTime
			}
		}
	}
	return l
}

// otherShares lays what is cut from a fold shared out otherwise, and returns the best.
func (t Task) otherShares(ctx context.Context, best Laid, o Options) Laid {
	s := shareSearch{task: t, o: o, best: best, seen: map[string]bool{}}
	full, _ := nest.Fold(t.Problem, t.Lay, t.Spread.WashedAcross(t.Spread.Cloth.Selvedge))
	s.most = nest.ShareOf(full, len(t.Problem.Pieces))
	s.isNew(best.Task.share())
	for range mostRounds {
		before := s.best
		s.round(ctx)
		if ctx.Err() != nil || s.done() || s.best.Buy.Bought >= before.Buy.Bought {
			break
		}
	}
	if s.next.Results != nil && o.Effort != nest.Quick && ctx.Err() == nil && s.best.Buy.Bought >= best.Buy.Bought {
		s.take(s.lay(ctx, []Laid{s.next}, o))
	}
	s.best.SharesTried = len(s.seen) - 1
	return s.best
}

// shareSearch is the search for a better share.
type shareSearch struct {
	task Task
	o    Options
	most []nest.Cutting // the share with all cut double that can be
	best Laid
	next Laid            // of another share, that which promises the most though it does not buy less
	seen map[string]bool // shares that were weighed
}

// done says whether less than the best cannot be bought.
func (s *shareSearch) done() bool { return s.best.unsold() == nil && s.best.Proved() }

// isNew says whether a share was not seen yet. Pieces that are alike but for their names change
// places in it.
func (s *shareSearch) isNew(share []nest.Cutting) bool {
	share = slices.Clone(share)
	for i := range share {
		for k := range i {
			if s.alike(k, i) && fmt.Sprint(share[k]) > fmt.Sprint(share[i]) {
				share[k], share[i] = share[i], share[k]
			}
		}
	}
	key := fmt.Sprint(share)
	was := s.seen[key]
	s.seen[key] = true
	return !was
}

// alike says whether two pieces differ in name alone.
func (s *shareSearch) alike(k, i int) bool {
	a, b := s.task.Problem.Pieces[k], s.task.Problem.Pieces[i]
	b.Name = a.Name
	return reflect.DeepEqual(a, b)
}

// round lays shares that were not seen yet: the most promising by a trial each, of these the best
// by more.
func (s *shareSearch) round(ctx context.Context) {
	o := s.o
	o.Effort = nest.Trial
	tried := s.lay(ctx, s.promising(ctx), o)
	tried = slices.DeleteFunc(tried, func(l Laid) bool {
		_, least := LengthsOf(l.Results)
		return l.Task.Bought(least) >= s.best.Buy.Bought || l.reaching().Bought >= s.best.Buy.Bought
	})
	tried = tried[:min(len(tried), mostLaid)]
	if s.o.Effort == nest.Quick {
		tried = tried[:min(len(tried), mostLaid/2)]
	}
	s.take(tried)
	if o.Effort = nest.Quick; ctx.Err() == nil && !s.done() {
		s.take(s.lay(ctx, tried, o))
	}
}

// reaching is what is bought where a search shortens all that a trial used as far as can be hoped.
func (l Laid) reaching() cost.Purchase {
	used, _ := LengthsOf(l.Results)
	for i := range used {
		used[i] *= 1 - trialReach
	}
	p, _ := l.Task.buy(l.Task.Needed(used))
	return p
}

// take takes over the first of some layings, the best one, where it buys less than the best so far.
func (s *shareSearch) take(laid []Laid) {
	if len(laid) == 0 {
		return
	}
	switch one := laid[0]; {
	case one.Buy.Bought < s.best.Buy.Bought:
		s.best, s.next = one, Laid{}
		if s.o.Better != nil && one.unsold() == nil {
			s.o.Better(one)
		}
	case s.next.Results == nil || one.Needed < s.next.Needed:
		s.next = one
	}
}

// lay lays the tasks of some layings side by side, and returns what could be laid, what buys the
// least first. The searches end as soon as less than the best cannot be bought.
func (s *shareSearch) lay(ctx context.Context, from []Laid, o Options) []Laid {
	o.Better, o.under = nil, s.best.Buy.Bought
	o.Steady, o.Compare, o.Exact = true, true, false
	laid := make([]Laid, len(from))
	SideBySide(ctx, len(from), o.Workers, func(within context.Context, i, workers int) {
		one := o
		if one.Workers = workers; i > 0 {
			one.Progress = nil
		}
		l, err := from[i].Task.layFresh(within, one, from[i].Task.OpenStart(from[i]))
		if err == nil || errors.Is(err, cost.ErrTooShort) {
			laid[i] = l
		}
	})
	laid = slices.DeleteFunc(laid, func(l Laid) bool { return l.Results == nil })
	slices.SortStableFunc(laid, func(a, b Laid) int {
		return cmp.Or(cmp.Compare(a.Buy.Bought, b.Buy.Bought), cmp.Compare(a.Needed, b.Needed))
	})
	return laid
}

// sharesBeside lists shares that were not seen yet: all there are, or those that change one
// piece of a share.
func (s *shareSearch) sharesBeside(from []nest.Cutting) (list [][]nest.Cutting) {
	choices, all := make([][]nest.Cutting, len(s.most)), 1
	for i, m := range s.most {
		choices[i] = s.task.cuttings(i, m)
		all = min(all*len(choices[i]), mostShares+1)
	}
	add := func(share []nest.Cutting) {
		if s.isNew(share) {
			list = append(list, share)
		}
	}
	if all > mostShares {
		for i := range s.most {
			for _, c := range choices[i] {
				share := slices.Clone(from)
				share[i] = c
				add(share)
			}
		}
		return list
	}
	for n := range all {
		share := make([]nest.Cutting, len(s.most))
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

// promising lists the shares that were not seen yet whose bounds allow less to be bought than the
// best laying does, those with the least bound first.
func (s *shareSearch) promising(ctx context.Context) (list []Laid) {
	simple, cancel := context.WithCancel(ctx)
	cancel()
	for _, share := range s.sharesBeside(s.best.Task.share()) {
		one, ok := s.task.SharedBy(share)
		if !ok {
			continue
		}
		var least []float64
		for _, stretch := range one.Stretches {
			least = append(least, s.o.Proofs.LowerBound(simple, stretch.Problem).Length)
		}
		if p, err := one.buy(one.Needed(least)); err == nil && p.Bought < s.best.Buy.Bought {
			list = append(list, Laid{Task: one, Needed: one.Needed(least)})
		}
	}
	slices.SortStableFunc(list, func(a, b Laid) int { return cmp.Compare(a.Needed, b.Needed) })
	return list[:min(len(list), mostTried)]
}
