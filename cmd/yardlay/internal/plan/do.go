package plan

import (
	"cmp"
	"context"
	"slices"
	"time"

	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/say"
)

// Laid is a task with its layouts, each of which has passed nest.Verify in its
// stretch, and all together opened out on the single cloth.
type Laid struct {
	Task     Task          // with the stretches of what is cut from bought cloth
	Shelf    *shelf.Use    // of a cloth with leftovers; else nil
	Lengths  *Lengths      // of a cloth that comes in whole bolts too; else nil
	Rest     nest.Problem  // of the single, open bought cloth: Task.Problem but for what the shelf and bolts give
	Results  []nest.Result // one a stretch; none when the shelf, or bolts, are enough
	Opened   nest.Layout   // of Rest: what cutting the stretches gives
	Needed   float64       // mm, with all that is lost, of all lengths together
	Spare    float64       // mm of Needed, to spare for what is cut from the shelf
	Buy      cost.Purchase // for Needed
	LeastBuy float64       // mm, bought at the least, however the pieces are shared out over stretches and shelf
	// mm, bought at the least with the pieces shared out as they are, however each stretch is laid
	LeastFor float64
	Plain    *Laid // the same without the cloth's repeat, to compare; may be nil
	Alone    *Laid // one gown alone, to compare; may be nil
	Elapsed  time.Duration

	// Ways to share the pieces out over the stretches of a fold that were weighed besides; 0 where none were
	SharesTried int
}

// Start is a laying to begin another one from, where it is allowed there.
type Start struct {
	stretches []nest.Layout
	opened    nest.Layout
	task      Task // that was laid
}

// OpenStart returns the layouts from which another search for the same pieces can
// start: one for each stretch of t, and one of all pieces on the open cloth. It returns
// nil for a laying cut from several lengths, since each of these has its own marker.
func (t Task) OpenStart(l Laid) *Start {
	if l.Several() {
		return nil
	}
	return &Start{stretches: t.Layouts(l), opened: l.Opened, task: l.Task}
}

// Layouts returns the layouts of a laying of the same pieces, moved onto the stretches
// of t. Where t has another number of stretches, the layouts are returned unmoved.
func (t Task) Layouts(l Laid) []nest.Layout {
	var list []nest.Layout
	for i, r := range l.Results {
		one := r.Layout
		if len(l.Results) == len(t.Stretches) {
			one = l.Task.Stretches[i].Onto(t.Stretches[i], one)
		}
		list = append(list, one)
	}
	return list
}

// Like returns the task with its pieces shared out over folded and open stretch
// as in another of the same pieces and lay; false where it cannot be spread so.
func (t Task) Like(other Task) (Task, bool) {
	if t.Lay == nest.Open || t.Lay != other.Lay {
		return t, false
	}
	return t.SharedBy(other.share())
}

// of returns the layouts to begin the stretches of a task from; nil where the
// judge does not allow them there.
func (s *Start) of(t Task) []nest.Layout {
	if s == nil {
		return nil
	}
	if t.holds(s.stretches) {
		return s.stretches
	}
	if opened := []nest.Layout{s.opened}; t.Lay == nest.Open && t.holds(opened) {
		return opened
	}
	return nil
}

// holds says whether layouts, one a stretch, pass the judge.
func (t Task) holds(layouts []nest.Layout) bool {
	if len(layouts) != len(t.Stretches) {
		return false
	}
	for i, l := range layouts {
		if nest.Verify(t.Stretches[i].Problem, l) != nil {
			return false
		}
	}
	return true
}

// NoLayoutError is the error of a search that ended without a layout.
type NoLayoutError struct{ Err error }

func (e *NoLayoutError) Error() string { return e.Err.Error() }

// Parts says it as its cause does, with lengths as shown.
func (e *NoLayoutError) Parts(show say.Show) (what, hint string) { return say.Parts(e.Err, show) }
func (e *NoLayoutError) Unwrap() error                           { return e.Err }

// Do lays a task, beginning from start where that is allowed there; nil begins
// anew. Leftovers are used where they save cloth. A context that is cancelled or
// comes to its deadline gives the best layouts so far, and they say so. Errors are
// a *NoLayoutError, a layout that does not hold, and a length that cannot be bought.
func Do(ctx context.Context, t Task, o Options, start *Start) (Laid, error) {
	began := time.Now()
	l, err := t.layFrom(ctx, t.leftovers(), o, start)
	l.Elapsed = time.Since(began)
	return l, err
}

func (t Task) layFrom(ctx context.Context, strips []shelf.Length, o Options, start *Start) (Laid, error) {
	if start == nil {
		start = t.start
	}
	if t.Pinned() > 0 {
		return t.layShared(ctx, o, start)
	}
	if len(strips) > 0 || t.InLengths() {
		return atLeastAsNormal(ctx, o, func(ctx context.Context, o Options) (Laid, error) {
			if len(strips) > 0 {
				return t.withShelf(ctx, strips, o, start)
			}
			return t.layBought(ctx, o, start)
		})
	}
	if start != nil && start.task.Stretches != nil && start.of(t) == nil {
		if like, ok := t.Like(start.task); ok && like.holds(start.stretches) {
			t = like
		}
	}
	return t.layShared(ctx, o, start)
}

// atLeastAsNormal lays what is cut from several lengths. Thorough work shares the pieces out over them otherwise than
// normal work does, and need not be the better for it: both are done, and the better purchase is kept.
func atLeastAsNormal(ctx context.Context, o Options, lay func(ctx context.Context, o Options) (Laid, error)) (Laid,
	error) {
	if o.Effort != nest.Thorough {
		return lay(ctx, o)
	}
	normal := o
	normal.Effort = nest.Normal
	first, done := within(ctx, 1./4)
	l, err := lay(first, normal)
	done()
	if err != nil || l.Proved() && !o.Exact {
		return l, err
	}
	o.Better = l.Task.onlyBetter(o.Better, l)
	switch again, err := lay(ctx, o); {
	case err != nil:
		return l, nil
	case again.costsNoMore(l):
		return again, nil
	default:
		return l.endedAs(again), nil
	}
}

// costsNoMore says whether a purchase costs no more than another of the same cloth and, where they cost the same,
// whether no more is needed.
func (l Laid) costsNoMore(other Laid) bool {
	return cmp.Or(cmp.Compare(l.Buy.Cost.Minor, other.Buy.Cost.Minor), cmp.Compare(l.Buy.Bought, other.Buy.Bought),
		cmp.Compare(l.Needed, other.Needed)) <= 0
}

// layFresh lays a task on one length of bought cloth. A length that is longer than
// anything sold comes with a cost.ErrTooShort.
func (t Task) layFresh(ctx context.Context, o Options, start *Start) (best Laid, err error) {
	orders := t.orders()
	show := o.Better
	for n, order := range orders {
		within, done := InTurn(ctx, len(orders)-n)
		o.Better = t.onlyBetter(show, best)
		l, bad := t.layInOrder(within, order, o, start)
		done()
		if n == 0 || bad == nil && (err != nil || l.Needed < best.Needed) {
			best, err = l, bad
		}
	}
	if err != nil {
		return best, err
	}
	return best.atTheLeast(ctx, o), nil
}

// layInOrder lays the stretches one by one: each keeps to the phases on the repeat that
// those before it have found.
func (t Task) layInOrder(ctx context.Context, order []int, o Options, start *Start) (Laid, error) {
	from := start.of(t)
	l := Laid{Task: t, Rest: t.Problem, Results: make([]nest.Result, len(t.Stretches))}
	l.Task.Stretches = slices.Clone(t.Stretches)
	used := make([]float64, len(t.Stretches))
	var laid []nest.Stretch
	var layouts []nest.Layout
	for n, i := range order {
		options := t.searchOn(i, o)
		if n == len(t.Stretches)-1 {
			options.Bought = t.boughtFor(i, used, o)
		}
		s := t.Stretches[i].Matching(laid, layouts)
		if from != nil && nest.Verify(s.Problem, from[i]) == nil {
			options.Start = &from[i]
		}
		if n == len(t.Stretches)-1 && o.Better != nil {
			options.Better = l.completedBy(i, s, o.Better)
		}
		within, done := InTurn(ctx, len(t.Stretches)-n)
		r, err := nest.Solve(within, s.Problem, options)
		done()
		if err != nil {
			return Laid{}, &NoLayoutError{err}
		}
		l.take(i, s, r)
		r = l.Results[i]
		used[i] = r.Layout.Length
		laid, layouts = append(laid, s), append(layouts, r.Layout)
	}
	return l.judged()
}

// boughtFor returns what is bought, mm, for a length of stretch i, once the others are laid: it
// follows from the last one alone. What is not under Options.under counts alike. It is nil where
// the used length counts.
func (t Task) boughtFor(i int, used []float64, o Options) func(last float64) float64 {
	if o.Exact {
		return nil
	}
	return func(last float64) float64 {
		lengths := slices.Clone(used)
		lengths[i] = last
		bought := t.Bought(lengths)
		if o.under > 0 {
			return min(bought, o.under)
		}
		return bought
	}
}

// take takes up what was found for stretch i, in order.
func (l *Laid) take(i int, s nest.Stretch, r nest.Result) {
	if len(s.Problem.Pins) == 0 {
		r.Layout = shelf.SideBySide(s.Problem, inBlocks(s.Problem, r.Layout))
	}
	r.Utilisation = s.Problem.Utilisation(r.Layout)
	l.Results[i], l.Task.Stretches[i] = r, s
}

// searchOn returns the options of the search on a stretch. The few pieces that are left
// over from a fold, fewer than half of all, take less than the work of the effort: less
// in proportion, down to a quarter, and it does not grow.
func (t Task) searchOn(i int, o Options) nest.Options {
	so := t.search(o)
	all, on := 0, 0
	for k, s := range t.Stretches {
		for _, p := range s.Problem.Pieces {
			all += p.Count
			if k == i {
				on += p.Count
			}
		}
	}
	if full := cmp.Or(o.work, o.Effort.Work()); 2*on < all {
		so.Work = max(full/4, full*2*int64(on)/int64(all))
	}
	return so
}

// orders lists the orders in which the stretches are laid. The last one holds what is
// left over, is short, and comes first. Where it has to lie on the repeat as the others do,
// either way is tried: which of them should choose is not known before.
func (t Task) orders() [][]int {
	var order []int
	for i := range t.Stretches {
		order = append(order, i)
	}
	shortFirst := slices.Clone(order)
	slices.Reverse(shortFirst)
	switch n := len(order); {
	case n < 2:
		return [][]int{order}
	case t.Stretches[0].Shares(t.Stretches[n-1]):
		return [][]int{order, shortFirst}
	}
	return [][]int{shortFirst}
}

// search passes the options of a run on to nest.
func (t Task) search(o Options) nest.Options {
	so := nest.Options{
		Effort: o.Effort, Steady: o.Steady, Seed: o.Seed, Workers: o.Workers, Memory: o.Memory, Proofs: o.Proofs,
		Purchase: o.Compare, Work: o.work,
	}
	if o.Progress != nil {
		so.Progress = func(p nest.Progress) { o.Progress(Progress{Progress: p, Cloth: t.Spread.Cloth.ID}) }
	}
	return so
}

// judged judges the layouts once more, in their stretches and opened out, and
// works out what to buy for them.
func (l Laid) judged() (Laid, error) {
	t := l.Task
	var layouts []nest.Layout
	for i, r := range l.Results {
		if err := nest.Verify(t.Stretches[i].Problem, r.Layout); err != nil {
			return Laid{}, thrownAway(err)
		}
		layouts = append(layouts, r.Layout)
	}
	l.Opened = nest.Unfold(l.Rest, t.Stretches, layouts)
	if err := nest.Verify(l.Rest, l.Opened); err != nil {
		return Laid{}, thrownAway(say.Errorf("opened out: %w", err))
	}
	used, least := LengthsOf(l.Results)
	l.Needed, l.LeastFor = t.Needed(used), t.Bought(least)
	l.LeastBuy = l.LeastFor
	var err error
	l.Buy, err = t.buy(l.Needed)
	return l, err
}

func thrownAway(err error) error {
	return say.Errorf("the layout does not hold and is thrown away: %w", err)
}
