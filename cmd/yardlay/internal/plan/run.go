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
	Weighed *Weighed     // remembers what places of cuts were weighed by, likewise
	Steps   Steps        // that pieces lie on, for layouts drawn by tape and chalk
	Cloths  []string     // ids of those to lay; none: all
	Exact   bool         // go on shortening the used length when no less can be bought
	Memory  int64        // bytes that no-fit regions of a search may take; 0: nest's default. Changes no layout

	// Check, when set, says what keeps a job from being laid that can be drawn: what
	// follows from its drafts alone is refused before the search.
	Check func(*job.Job) error

	// Begin, when set, is given each task that is to be laid, and may pin pieces on its
	// stretches (Task.WithPins) or say what to begin from (Task.From).
	Begin func(Task) Task

	// Progress, when set, is told how the search goes. It is called by one goroutine at
	// a time.
	Progress func(Progress)
	// Better, when set, is shown layings of a task as they get better, each judged as the last one is;
	// better.go says which. It is called by one goroutine at a time, for which the search waits.
	Better func(Laid)

	under   float64 // mm; a search ends once it is proved that less than this cannot be bought; 0: nothing is known
	work    int64   // evaluations in place of those of the effort; 0: these
	oneFold bool    // all is cut double that can be, and no other share is tried: to weigh many layings
}

// Takes says whether a cloth is to be laid.
func (o Options) Takes(id string) bool { return len(o.Cloths) == 0 || slices.Contains(o.Cloths, id) }

func (o Options) check(j *job.Job) error {
	if o.Check == nil {
		return nil
	}
	return o.Check(j)
}

// Progress is how the search on a cloth goes, or what is being done before that.
type Progress struct {
	nest.Progress
	Cloth        string // id; "" before the search
	Finished, Of int    // layings, or rows before that; Of is 0 where they are not counted
}

// Run takes a job through the whole pipeline and returns its cloths as they are laid.
// Every layout has passed nest.Verify. A cancelled context keeps the best layouts so
// far, and so does its deadline, and they say so. Errors about the job are a
// strict.Errors; ErrInterrupted is that of a run cancelled before its pieces were
// drawn.
func Run(ctx context.Context, j *job.Job, o Options) ([]Laid, error) {
	gowns := []int{max(o.Gowns, 1)}
	if gowns[0] > 1 {
		gowns = append(gowns, 1)
	}
	j = j.ShownIn(o.Unit)
	laid, err := lay(ctx, j, o, gowns...)
	if err != nil {
		return nil, err
	}
	cloths := len(laid) / len(gowns)
	if err := besidePlain(ctx, j, laid[:cloths], o); err != nil {
		return nil, err
	}
	for i := range laid[cloths:] {
		laid[i].besideOne(&laid[cloths+i])
	}
	return laid[:cloths], nil
}

// Lay is Run without what the cloths are set beside: one gown alone, and plain cloth.
func Lay(ctx context.Context, j *job.Job, o Options) ([]Laid, error) {
	return lay(ctx, j.ShownIn(o.Unit), o, max(o.Gowns, 1))
}

// lay lays the cloths of a job once for each number of gowns.
func lay(ctx context.Context, j *job.Job, o Options, gowns ...int) ([]Laid, error) {
	if o.Progress != nil {
		o.Progress(Progress{Progress: nest.Progress{Phase: "drafting"}})
	}
	tasks, err := Unless(ctx, func() (all []Task, err error) {
		for _, n := range gowns {
			tasks, err := Tasks(j, n)
			if err != nil {
				return nil, err
			}
			if tasks, err = onSteps(j, tasks, o.Steps); err != nil {
				return nil, err
			}
			tasks = slices.DeleteFunc(tasks, func(t Task) bool { return !o.Takes(t.Spread.Cloth.ID) })
			if o.Begin != nil && n == gowns[0] {
				for i, t := range tasks {
					tasks[i] = o.Begin(t)
				}
			}
			all = append(all, tasks...)
		}
		return all, o.check(j)
	})
	if err != nil {
		return nil, err
	}
	return doAll(ctx, j, tasks, o)
}

// besidePlain lays what lies on a repeat once more on plain cloth, beginning
// from the layout at hand, as long as there is time.
func besidePlain(ctx context.Context, j *job.Job, laid []Laid, o Options) error {
	var plain []Task
	var starts []*Start
	var of []int
	for i, l := range laid {
		if t, ok := l.Task.Plain(); ok && l.Task.Pinned() == 0 { // pins would count as what the repeat takes
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
	share := o
	share.Progress = oneAtATime(o.Progress)
	laid, errs := make([]Laid, len(tasks)), make([]error, len(tasks))
	SideBySide(ctx, len(tasks), o.Workers, func(within context.Context, i, workers int) {
		var start *Start
		if len(starts) > 0 {
			start = starts[i]
		}
		one := share
		one.Workers = workers
		laid[i], errs[i] = Do(within, tasks[i], one, start)
	})
	var bad strict.Errors
	for i, err := range errs {
		var placed *strict.Error
		if err = tasks[i].Refusal(j, err); errors.As(err, &placed) {
			bad = append(bad, placed)
		} else if err != nil {
			return nil, err
		}
	}
	if len(bad) > 0 {
		return nil, bad
	}
	return laid, nil
}

// Refusal places the error of Do in the job file: a *strict.Error where the job asks for
// what cannot be laid.
func (t Task) Refusal(j *job.Job, err error) error {
	s := t.Spread
	var none *NoLayoutError
	var unsold *BuyError
	switch {
	case err == nil:
		return nil
	case errors.As(err, &unsold):
		what, _ := say.Parts(unsold.Err, j.Show())
		return briefly(what, j.ErrorAt(s.Cloth.At, unsold.Err))
	case errors.As(err, &none):
		return s.unlaid(j, t.Problem, none.Err)
	}
	return say.Errorf("cloth `%s`: %w", s.Cloth.ID, err)
}

// SideBySide does so many things, as many at a time as there are processors to work with
// (0: all there are), which they share out evenly, and the time that is left in turn.
func SideBySide(ctx context.Context, things, workers int, do func(within context.Context, i, workers int)) {
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	abreast := max(1, min(workers, things))
	free := make(chan struct{}, abreast)
	var all sync.WaitGroup
	for i := range things {
		free <- struct{}{}
		all.Go(func() {
			defer func() { <-free }()
			within, done := InTurn(ctx, (things-i+abreast-1)/abreast)
			defer done()
			do(within, i, max(1, workers/abreast))
		})
	}
	all.Wait()
}

// oneAtATime returns what passes on how a search goes, by one goroutine at a time;
// nil when nobody listens.
func oneAtATime(tell func(Progress)) func(Progress) {
	if tell == nil {
		return nil
	}
	var telling sync.Mutex
	return func(p Progress) {
		telling.Lock()
		defer telling.Unlock()
		tell(p)
	}
}
