package search

import (
	"context"
	"errors"
	"time"
)

// Options steers Run.
type Options struct {
	Seed     uint64
	Workers  int       // goroutines that search at once, at least 1
	Memory   int64     // bytes for no-fit regions and what their collection takes
	Work     int64     // evaluations for each lane; 0: until End or the context ends it
	Growth   Growth    // of Work, while that pays
	Began    time.Time // when the work began that End is a ceiling of
	End      time.Time // of everything; zero: none
	Start    *Layout   // a layout to begin from that the judge has passed; nil: construct one
	Progress func(Progress)
	// Begun is called once, when the first layout stands.
	Begun func()
	// Prove returns a length that no layout is shorter than, mm, at least
	// Problem.Bound. It is called once, when the lanes first meet, and may take a while.
	Prove func() float64
	// Enough says whether a layout of that length needs no shortening, given the bound.
	Enough func(length, bound float64) bool
	// Hopeless says whether going on is not worth it once that share of the budget
	// is used; nil: it always is.
	Hopeless func(length, done float64) bool
	// Judge looks at a layout on the lattice, until stop says that it is too late for
	// that; then it is not content.
	Judge func(l Layout, stop func() bool) Verdict
}

// Verdict is what the judge says of a layout: in order, or which two items are
// too near each other, or neither.
type Verdict struct {
	OK   bool
	Near bool
	Pair [2]int // items, when Near
}

// Outcome is what Run found.
type Outcome struct {
	Layout      Layout
	First       time.Duration // when the first layout stood
	FirstLength float64       // its length, mm
	Evaluations int64
	Stopped     bool // cancelled before the budget was used
	OutOfTime   bool
}

// ErrUnsettled means that no layout found passed the judge.
var ErrUnsettled = errors.New("no layout found could be brought onto the lattice")

// ErrTooLong means that no layout within Problem.MaxLength was found.
var ErrTooLong = errors.New("no layout within the given length was found")

// Run searches for a short layout. With Work set and neither End nor a
// cancellation coming in between, the outcome depends on problem, seed and
// work alone, whatever the number of workers. However early it is ended, the best
// layout so far comes out; where there is none yet, one of rows.
func Run(ctx context.Context, p Problem, o Options) (Outcome, error) {
	if end, ok := ctx.Deadline(); ok && (o.End.IsZero() || end.Before(o.End)) {
		o.End = end
	}
	r := &run{options: o, clock: newClock(ctx, o.End), teller: newTeller(o.Progress)}
	defer r.clock.stop()
	defer r.teller.end()
	r.instance = newInstance(p, r.clock.tooLate)
	out := Outcome{}
	first := r.first(o.Start)
	if first != nil {
		out.First, out.FirstLength = time.Since(o.Began), first.length
		o.Begun()
		out.Evaluations = r.improve(first)
	}
	out.OutOfTime = r.clock.timed.Load() || errors.Is(ctx.Err(), context.DeadlineExceeded)
	out.Stopped = ctx.Err() != nil && !out.OutOfTime
	var err error
	out.Layout, err = r.best()
	return out, err
}

// run is one call of Run.
type run struct {
	*instance
	options Options
	clock   *clock
	teller  *teller
	bests   []*placement // the best layout, and before it earlier ones
	safe    *Layout      // the shortest that the judge has passed
	sure    *Layout      // the first one, when the judge has passed it: there whatever the clock does
	secured time.Time    // when safe was looked for last
	took    time.Duration
	simple  *placement // of rows, once they are laid
}

// judge asks the judge, and is not content when it is too late to.
func (r *run) judge(l Layout) Verdict {
	if r.clock.late.Load() {
		return Verdict{}
	}
	return r.options.Judge(l, r.clock.late.Load)
}

// first returns the layout to search from; nil when the run ended before it stood.
// Where items were laid already, the others then follow in rows.
func (r *run) first(start *Layout) *placement {
	if start != nil {
		r.safe, r.sure = start, start
	}
	ready := r.ready(r.options.Memory, r.options.Workers, func(share float64) {
		r.teller.note(Progress{Phase: Preparing, Done: share})
	})
	if !ready {
		return nil
	}
	if start != nil {
		return r.taken(start)
	}
	first := r.simplest()
	if first == nil {
		first = r.construct(r.options.Workers, r.clock.over, func(laid int) {
			r.teller.note(Progress{Phase: FirstLayout, Laid: laid, Done: float64(laid) / float64(r.movable)})
		})
	}
	r.secure(first)
	r.sure = r.safe
	if r.clock.over() {
		return nil
	}
	return first
}

// simplest returns rows where there are too many items, or ways of them, for another
// first layout; nil elsewhere.
func (r *run) simplest() *placement {
	if r.firstPairs() > mostCornerPairs || r.movable > mostSearched {
		return r.inRows()
	}
	return nil
}

// taken takes over a given layout.
func (in *instance) taken(given *Layout) *placement {
	p := in.emptyPlacement()
	for i := range in.movable {
		lie := in.items[i].lies[given.Choice[i]]
		p.way[i] = lie.way
		p.x[i], p.y[i] = given.At[i][0]+lie.origin[0], given.At[i][1]+lie.origin[1]
	}
	in.readPhases(p)
	p.length = in.extent(p)
	return p
}

// improve searches from a first layout and returns the evaluations that took.
func (r *run) improve(first *placement) (evaluations int64) {
	if r.movable > mostSearched {
		r.bests = []*placement{first}
		return 0
	}
	o := r.options
	c := &crew{budget: budget{work: o.Work, grow: o.Growth}, first: first, shared: first, best: first, share: func() float64 { return 0 }}
	if !o.End.IsZero() {
		c.share = func() float64 { return float64(time.Since(o.Began)) / float64(o.End.Sub(o.Began)) }
	}
	c.prove = func() { r.bound = max(r.bound, o.Prove()) }
	c.reached = func(best *placement) bool { return o.Enough(best.length, r.bound) || r.reached(best, r.judge) }
	c.hopeless = o.Hopeless
	c.turn.L = &c.mu
	told := 0.0 // of the budget: where it grows, what was told stands until it is true again
	c.report = func(best *placement, done float64, phase string) {
		told = max(told, done)
		r.teller.say(Progress{Phase: phase, Length: best.length, Done: told})
		r.secureAgain(best)
	}
	r.teller.say(Progress{Phase: exploring.String(), Length: first.length})
	for k := range lanesInCrew {
		l := newLane(r.instance, o.Seed, k)
		l.crew, l.best, l.rate, l.nextMeet = c, first, boldest, meetEvery
		l.leaps.stride = firstLeap
		if o.Work > 0 {
			l.nextMeet = min(meetEvery, o.Work) // the budget is looked at when lanes meet
		}
		c.lanes = append(c.lanes, l)
	}
	r.clock.whenHalted(c.stop)
	if len(r.items) > 0 && first.length > r.enough() {
		c.run(max(1, o.Workers))
	}
	for _, l := range c.lanes {
		evaluations += l.evals
	}
	r.bests = append(c.earlier, c.best)
	return evaluations
}
