package plan

import (
	"context"
	"errors"
	"runtime"
	"slices"
	"sync"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/nest"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Options steer a run. The zero value searches with nest's defaults on all
// processors and shows lengths in inches.
type Options struct {
	Effort  nest.Effort
	Steady  bool // do the effort's work and no more
	Seed    uint64
	Workers int          // processors; 0: all. The layouts do not depend on it
	Unit    measure.Unit // to show lengths in
	Gowns   int          // laid together; 0: one
	Compare bool         // end searches that will hardly let less be bought: see nest.Options.Purchase
	Proofs  *nest.Proofs // remembers bounds for all runs that share it; nil: none
	Exact   bool         // go on shortening the used length when no less can be bought

	// Progress, when set, is told how the search on a cloth goes, and before that
	// what is being done, for no cloth. It is called by one goroutine at a time.
	Progress func(cloth string, p nest.Progress)
}

// Run takes a job through the whole pipeline and returns its cloths as they are laid.
// Every layout has passed nest.Verify. A cancelled context keeps the best layouts so
// far, and so does its deadline, and they say so. Errors about the job are a
// job.Errors; ErrInterrupted is that of a run cancelled before its pieces were
// drawn.
func Run(ctx context.Context, j *job.Job, o Options) ([]Laid, error) {
	shown := *j
	shown.Unit = o.Unit
	gowns := max(o.Gowns, 1)
	if o.Progress != nil {
		o.Progress("", nest.Progress{Phase: "drafting"})
	}
	var alone []Task
	tasks, err := Unless(ctx, func() (tasks []Task, err error) {
		if tasks, err = Tasks(&shown, gowns); err == nil && gowns > 1 {
			alone, err = Tasks(&shown, 1)
		}
		return tasks, err
	})
	if err != nil {
		return nil, err
	}
	all := slices.Concat(tasks, alone)
	laid, err := doAll(ctx, &shown, all, o)
	if err != nil {
		return nil, err
	}
	if err := besidePlain(ctx, &shown, laid[:len(tasks)], o); err != nil {
		return nil, err
	}
	for i := range laid[len(tasks):] {
		if one := &laid[len(tasks)+i]; !one.cutShort() { // else it would tell nothing
			laid[i].Alone = one
		}
	}
	return laid[:len(tasks)], nil
}

// besidePlain lays what lies on a repeat once more on plain cloth, beginning
// from the layout at hand, as long as there is time.
func besidePlain(ctx context.Context, j *job.Job, laid []Laid, o Options) error {
	var plain []Task
	var starts []*Start
	var of []int
	for i, l := range laid {
		if t, ok := l.Task.Plain(); ok {
			plain, starts, of = append(plain, t), append(starts, t.OpenStart(l)), append(of, i)
		}
	}
	if ctx.Err() != nil {
		return nil
	}
	found, err := doAll(ctx, j, plain, o, starts...)
	if err != nil {
		return err
	}
	for n, i := range of {
		laid[i].Plain = &found[n]
	}
	return nil
}

// doAll lays every task: as many at a time as there are processors, which they
// share out evenly. There is a start for each task, or none.
func doAll(ctx context.Context, j *job.Job, tasks []Task, o Options, starts ...*Start) ([]Laid, error) {
	workers := o.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	abreast := max(1, min(workers, len(tasks)))
	share := o
	share.Workers = max(1, workers/abreast)
	share.Progress = oneAtATime(o.Progress)
	laid, errs := make([]Laid, len(tasks)), make([]error, len(tasks))
	free := make(chan struct{}, abreast)
	var all sync.WaitGroup
	for i, t := range tasks {
		var start *Start
		if len(starts) > 0 {
			start = starts[i]
		}
		free <- struct{}{}
		all.Go(func() {
			defer func() { <-free }()
			within, done := InTurn(ctx, (len(tasks)-i+abreast-1)/abreast)
			defer done()
			laid[i], errs[i] = Do(within, t, share, start)
		})
	}
	all.Wait()
	var bad strict.Errors
	for i, err := range errs {
		s := tasks[i].Spread
		var none *NoLayoutError
		var unsold *BuyError
		switch {
		case errors.As(err, &unsold):
			what, _ := say.Parts(unsold.Err, nil)
			bad = append(bad, briefly(what, j.ErrorAt(s.Cloth.At, unsold.Err)))
		case errors.As(err, &none):
			bad = append(bad, s.unlaid(j, tasks[i].Problem, none.Err))
		case err != nil:
			return nil, say.Errorf("cloth `%s`: %w", s.Cloth.ID, err)
		}
	}
	if len(bad) > 0 {
		return nil, bad
	}
	return laid, nil
}

// oneAtATime returns what passes on how a search goes, by one goroutine at a time;
// nil when nobody listens.
func oneAtATime(tell func(string, nest.Progress)) func(string, nest.Progress) {
	if tell == nil {
		return nil
	}
	var telling sync.Mutex
	return func(cloth string, p nest.Progress) {
		telling.Lock()
		defer telling.Unlock()
		tell(cloth, p)
	}
}
