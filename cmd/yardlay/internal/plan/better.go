package plan

import (
	"context"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/nest"
)

// What Options.Better is shown: whatever is laid on one length. Of the stretches of a fold that is as
// soon as the last of them has a layout; with leftovers, once it is settled how they are used. A
// purchase of several lengths is looked for in many searches that end alike, and is not shown
// before it is known.

// completedBy returns what shows the laying with each better layout of its last stretch, i.
func (l *Laid) completedBy(i int, s nest.Stretch, show func(Laid)) func(nest.Result) {
	return func(r nest.Result) {
		so := *l
		so.Results, so.Task.Stretches = slices.Clone(l.Results), slices.Clone(l.Task.Stretches)
		so.take(i, s, r)
		if so, err := so.judged(); err == nil {
			show(so)
		}
	}
}

// onlyBetter returns what passes on layings that need less than one laid before, with what is bought
// at the least however the pieces are shared out; nil when nobody looks.
func (t Task) onlyBetter(show func(Laid), before Laid) func(Laid) {
	if show == nil {
		return nil
	}
	return func(l Laid) {
		if before.Results != nil && l.Needed >= before.Needed {
			return
		}
		show(l.atTheLeast(context.Background(), Options{Effort: nest.Trial}))
	}
}

// Whole lays one task of a job with all that Run sets it beside: alone, the same of one
// gown, may be nil. Its layouts are those that Run finds. Errors are those of Run.
func Whole(ctx context.Context, j *job.Job, t Task, alone *Task, o Options) (Laid, error) {
	laid, err := doAll(ctx, j, []Task{t}, o)
	if err != nil {
		return Laid{}, err
	}
	o.Better = nil
	if alone != nil {
		one, err := doAll(ctx, j, []Task{*alone}, o)
		if err != nil {
			return Laid{}, err
		}
		laid[0].besideOne(&one[0])
	}
	return laid[0], besidePlain(ctx, j, laid, o)
}

// besideOne sets a laying of several gowns beside one gown, if that was laid to the end: else it would
// tell nothing.
func (l *Laid) besideOne(one *Laid) {
	if !one.cutShort() {
		l.Alone = one
	}
}

// Undercuts says whether a laying is better than another of the same task: less is needed or,
// where several lengths are sold, it is the better purchase.
func (l Laid) Undercuts(other Laid) bool {
	if l.Lengths != nil && other.Lengths != nil {
		return l.Buy.Precedes(other.Buy)
	}
	return l.Needed < other.Needed
}

// Of returns the laying as one of another task of the same key: what is cut may be called
// otherwise there, and bear other lines.
func (l Laid) Of(t Task) Laid {
	l.Task.Spread = t.Spread
	if plain, ok := t.Plain(); ok && l.Plain != nil {
		beside := *l.Plain
		beside.Task.Spread = plain.Spread
		l.Plain = &beside
	}
	return l
}
