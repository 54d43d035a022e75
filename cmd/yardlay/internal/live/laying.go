package live

import (
	"context"
	"slices"
	"sync"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/nest"
)

// laying is one task on its way. Desk.mu guards what changes of it.
type laying struct {
	key    string
	job    *job.Job
	task   plan.Task
	alone  *plan.Task // the same of one gown, beside several
	search Search

	stop  context.CancelFunc // of what runs; nil: nothing does
	best  *plan.Laid
	found *plan.Laid // what report.Run finds, once it is found
	err   error
	now   plan.Progress
	spent bool // the ceiling of searching on and on
}

// end ends what runs for the laying, and keeps what it has.
func (l *laying) end() {
	if l.stop != nil {
		l.stop()
		l.stop = nil
	}
}

// over says whether there is nothing more to look for, if need be on and on.
func (l *laying) over(onAndOn bool) bool {
	return l.err != nil || l.found != nil && (!onAndOn || l.spent || l.best.Proved())
}

// shown is the laying to be shown; nil while there is none.
func (l *laying) shown(onAndOn bool) *plan.Laid {
	if l.found != nil && !onAndOn {
		return l.found
	}
	return l.best
}

// begin begins the searches of all that lies on the desk and is not over: first layouts come before
// all else.
func (k *Desk) begin() {
	if k.paused || k.closed || k.refused != nil {
		return
	}
	var begun []*laying
	for _, p := range k.places {
		if l := p.laying; l != nil && l.stop == nil && !l.over(k.onAndOn()) && !slices.Contains(begun, l) {
			begun = append(begun, l)
		}
	}
	first := new(sync.WaitGroup)
	first.Add(len(begun))
	for _, l := range begun {
		ctx, stop := context.WithCancel(k.all)
		l.stop = stop
		k.running.Go(func() { k.run(ctx, l, first) })
	}
}

// onAndOn says whether searches are to go on when the effort is spent.
func (k *Desk) onAndOn() bool { return k.drawn.search.OnAndOn }

// run lays a task from its trial to the end.
func (k *Desk) run(ctx context.Context, l *laying, first *sync.WaitGroup) {
	k.mu.Lock()
	tried, found := l.best != nil, l.found != nil
	k.mu.Unlock()
	if !tried {
		k.try(ctx, l)
	}
	first.Done()
	first.Wait()
	if !found {
		k.inTurn(ctx, func(workers int) { k.whole(ctx, l, workers) })
	}
	k.goOn(ctx, l)
	k.mu.Lock()
	defer k.mu.Unlock()
	if ctx.Err() == nil {
		l.end()
		k.change()
	}
}

// inTurn does something when there is a processor for it, with as many as fall to it; nothing when
// the context ends before.
func (k *Desk) inTurn(ctx context.Context, do func(workers int)) {
	select {
	case k.turns <- struct{}{}:
	case <-ctx.Done():
		return
	}
	defer func() { <-k.turns }()
	k.mu.Lock()
	n := 0
	for _, one := range k.kept {
		if one.stop != nil && !one.over(k.onAndOn()) {
			n++
		}
	}
	k.mu.Unlock()
	do(max(1, k.options.Workers/max(1, n)))
}

// try finds a first layout. What it cannot lay the laying proper may.
func (k *Desk) try(ctx context.Context, l *laying) {
	select {
	case k.trials <- struct{}{}:
	case <-ctx.Done():
		return
	}
	defer func() { <-k.trials }()
	o := l.options(k.options)
	o.Effort, o.Workers = nest.Trial, k.options.Workers
	if laid, err := plan.Do(ctx, l.task, o, nil); err == nil {
		k.found(ctx, l, laid)
	}
}

// whole lays a task as report.Run does.
func (k *Desk) whole(ctx context.Context, l *laying, workers int) {
	o := k.watched(ctx, l)
	o.Workers = workers
	laid, err := plan.Whole(ctx, l.job, l.task, l.alone, o)
	if ctx.Err() != nil {
		if err == nil {
			k.found(ctx, l, laid)
		}
		return
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if l.err = err; err == nil {
		l.best, l.found = &laid, &laid
	}
	k.change()
}

// options are those of report.Run, with the memory that falls to one search.
func (l *laying) options(o Options) plan.Options {
	so := l.search.options(l.job)
	so.Memory = max(1, o.Memory/int64(o.Workers))
	return so
}

// options are those of report.Run for a job.
func (s Search) options(j *job.Job) plan.Options {
	return plan.Options{Effort: s.Effort, Seed: s.Seed, Gowns: max(s.Gowns, 1), Unit: j.Unit}
}

// watched are the options of a search that shows how it goes.
func (k *Desk) watched(ctx context.Context, l *laying) plan.Options {
	o := l.options(k.options)
	o.Better = func(laid plan.Laid) { k.found(ctx, l, laid) }
	o.Progress = func(p plan.Progress) { k.progress(l, p) }
	return o
}

// found takes up a laying, unless there is a better one.
func (k *Desk) found(ctx context.Context, l *laying, laid plan.Laid) {
	k.mu.Lock()
	defer k.mu.Unlock()
	gains := l.best == nil || laid.Undercuts(*l.best)
	if !gains && (l.found != nil || l.best.Undercuts(laid) || ctx.Err() != nil) {
		return // what needs as much is taken up for its bound, but for that of report.Run
	}
	if l.found != nil {
		laid.Plain, laid.Alone = l.found.Plain, l.found.Alone
	}
	l.best = &laid
	k.change()
}
