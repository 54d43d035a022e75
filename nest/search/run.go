package search

import (
	"context"
	"errors"
	"sync"
	"time"
)

// Options steers a search. The deadline of its context is a ceiling of everything.
type Options struct {
	Seed     uint64
	Workers  int       // goroutines that search at once, at least 1
	Memory   int64     // bytes for no-fit regions and what their collection takes
	Work     int64     // evaluations for each lane; 0: until the context ends
	Growth   Growth    // of Work, while that pays
	InAll    int64     // evaluations for each lane: once Work, as it grew, is used, the rest goes on from the best
	Began    time.Time // when the work began that the deadline is a ceiling of
	Start    *Layout   // a layout to begin from that the judge has passed; nil: construct one
	Progress func(Progress)
	// Better is shown layouts that the judge has passed, each shorter than those before; see show.go.
	Better func(Layout)
	// Judge looks at a layout on the lattice, until stop says that it is too late for
	// that; then it is not content.
	Judge func(l Layout, stop func() bool) Verdict
}

// Goal says how far a layout is to be improved.
type Goal struct {
	// Bound returns a length that no layout is shorter than, mm, at least
	// Problem.Bound. It is called once, when the lanes first meet, and may take a while.
	Bound func() float64
	// Needless waits until the bound is known and says whether a first layout of that length needs no search, as
	// where it reaches the bound. It is asked by a goroutine of its own, beside the search; nil: all need one.
	Needless func(length float64) bool
	// Enough says whether a layout of that length needs no shortening, given the bound.
	Enough func(length, bound float64) bool
	// Hopeless says whether going on is not worth it once that share of the budget
	// is used; nil: it always is.
	Hopeless func(length, done float64) bool
}

// Verdict is what the judge says of a layout: in order, or which two items are
// too near each other, or neither.
type Verdict struct {
	OK   bool
	Near bool
	Pair [2]int // items, when Near; what is pinned comes after all items and zones
}

// Outcome is what a search found.
type Outcome struct {
	Layout      Layout
	First       time.Duration // when the first layout stood
	FirstLength float64       // its length, mm
	Evaluations int64
	Stopped     bool // cancelled before the budget was used
	OutOfTime   bool
	Hopeless    bool // Goal.Hopeless ended it
}

// ErrUnsettled means that no layout found passed the judge.
var ErrUnsettled = errors.New("no layout found could be brought onto the lattice")

// ErrTooLong means that no layout within Problem.MaxLength was found.
var ErrTooLong = errors.New("no layout within the given length was found")

// First is a search with its first layout.
type First struct {
	*instance
	options        Options
	ctx            context.Context
	clock          *clock
	reporter       *reporter
	start          *placement    // the first layout; nil: ended before it stood
	stood          time.Duration // when it did
	bests          []*placement  // the best layout, and before it earlier ones
	shortestPassed *Layout       // the shortest that the judge has passed
	firstPassed    *Layout       // that the judge has passed, whatever the clock does: the first one, or what Work found
	secured        time.Time     // when shortestPassed was looked for last
	shown          float64       // length of the last layout that Options.Better was shown; 0: none yet
	took           time.Duration
	simple         *placement // of rows, once they are laid
}

// Construct makes a problem ready and lays a first layout. Improve is to follow.
func Construct(ctx context.Context, p Problem, o Options) *First {
	f := &First{options: o, ctx: ctx, clock: newClock(ctx), reporter: newReporter(o.Progress)}
	f.instance = newInstance(p, f.clock.tooLate)
	f.start = f.first(o.Start)
	f.stood = time.Since(o.Began)
	return f
}

// Stands reports whether the first layout stands: the search ended before, else.
func (f *First) Stands() bool { return f.start != nil }

// Improve searches on from a first layout for a short one, and ends the search. With
// Work set, and neither a deadline nor a cancellation coming in between, the outcome
// depends on problem, seed and work alone, whatever the number of workers. However
// early it is ended, the best layout so far comes out; where there is none yet, one of
// rows.
func Improve(f *First, g Goal) (Outcome, error) {
	defer f.clock.stop()
	defer f.reporter.end()
	out := Outcome{}
	if f.Stands() {
		out.First, out.FirstLength = f.stood, f.start.length
		out.Evaluations, out.Hopeless = f.improve(g)
	}
	out.OutOfTime = f.clock.timed.Load() || errors.Is(f.ctx.Err(), context.DeadlineExceeded)
	out.Stopped = f.ctx.Err() != nil && !out.OutOfTime
	var err error
	out.Layout, err = f.best()
	return out, err
}

// judge asks the judge, and is not content when it is too late to.
func (f *First) judge(l Layout) Verdict {
	if f.clock.late.Load() {
		return Verdict{}
	}
	return f.options.Judge(l, f.clock.late.Load)
}

// first returns the layout to search from; nil when the run ended before it stood.
// Where items were laid already, the others then follow in rows.
func (f *First) first(start *Layout) *placement {
	if start != nil {
		f.shortestPassed, f.firstPassed = start, start
	}
	ready := f.ready(f.options.Memory, f.options.Workers, func(share float64) {
		f.reporter.update(Progress{Phase: Preparing, Done: share})
	})
	if !ready {
		return nil
	}
	if start != nil {
		return f.taken(start)
	}
	first := f.simplest()
	if first == nil {
		first = f.construct(f.options.Workers, f.clock.over, func(laid int) {
			f.reporter.update(Progress{Phase: FirstLayout, Laid: laid, Done: float64(laid) / float64(f.movable)})
		})
	}
	f.secure(first)
	f.firstPassed = f.shortestPassed
	f.show()
	if f.clock.over() {
		return nil
	}
	return first
}

// simplest returns rows where there are too many items, or ways of them, for another
// first layout; nil elsewhere.
func (f *First) simplest() *placement {
	if f.firstPairs() > mostCornerPairs || !f.searched() {
		return f.inRows()
	}
	return nil
}

// taken takes over a given layout.
func (in *instance) taken(given *Layout) *placement {
	p := in.emptyPlacement()
	for i := range in.movable {
		w := in.items[i].byChoice[given.Choice[i]]
		p.way[i] = w.way
		p.x[i], p.y[i] = given.At[i][0]+w.origin[0], given.At[i][1]+w.origin[1]
	}
	in.readPhases(p)
	p.length = in.extent(p)
	return p
}

// improve searches from the first layout and returns the evaluations that took, and
// whether it was given up as hopeless.
func (f *First) improve(g Goal) (evaluations int64, hopeless bool) {
	if !f.searched() {
		f.bests = []*placement{f.start}
		return 0, false
	}
	c := f.newPool(g)
	f.reporter.reportNow(Progress{Phase: exploring.String(), Length: f.start.length})
	f.run(c)
	evaluations = c.evaluations()
	if left := f.options.InAll - c.work; left > 0 && !c.halt.Load() && !c.gaveUp && !c.reached(c.best) {
		if l, err := f.finish(append(c.earlier, c.best), f.judge); err == nil && f.isShorter(l) {
			f.firstPassed = &l
		}
		c = f.goingOn(g, c, left)
		f.run(c)
		evaluations += c.evaluations()
	}
	f.bests = append(c.earlier, c.best)
	return evaluations, c.gaveUp
}

// run lets the lanes of a pool search until it ends.
func (f *First) run(c *lanePool) {
	for k := range lanesInPool {
		c.lanes = append(c.lanes, c.newLane(f.instance, f.options.Seed, k))
	}
	f.clock.whenHalted(c.stop)
	if len(f.items) == 0 || c.first.length <= f.enough() {
		return
	}
	if c.inVain != nil {
		go c.endInVain()
	}
	c.run(max(1, f.options.Workers))
	if c.needless.Load() { // whether that was known soon or late
		c.prove()
		c.best, c.earlier = c.first, nil
	}
}

// isShorter says whether a layout is shorter than the one that is there whatever the clock does.
func (f *First) isShorter(l Layout) bool {
	return f.firstPassed == nil || l.Length < f.firstPassed.Length
}

// goingOn returns a pool that goes on from the best of another with so much work: what it
// finds is no longer.
func (f *First) goingOn(g Goal, from *lanePool, work int64) *lanePool {
	c := f.newPool(g)
	c.budget = budget{work: work}
	c.before = from.before + from.work
	c.prove, c.inVain = func() {}, nil // it is known
	c.first, c.shared, c.best, c.earlier = from.best, from.best, from.best, from.earlier
	return c
}

// newPool returns a pool without lanes that is to search from the first layout.
func (f *First) newPool(g Goal) *lanePool {
	o, first := f.options, f.start
	c := &lanePool{budget: budget{work: o.Work, grow: o.Growth}, first: first, shared: first, best: first}
	c.share = func() float64 { return 0 }
	if end, ok := f.ctx.Deadline(); ok {
		c.share = func() float64 { return float64(time.Since(o.Began)) / float64(end.Sub(o.Began)) }
	}
	c.prove = sync.OnceFunc(func() { f.bound = max(f.bound, g.Bound()) })
	if g.Needless != nil {
		c.inVain = func() bool { return g.Needless(first.length) }
	}
	c.reached = func(best *placement) bool { return g.Enough(best.length, f.bound) || f.reached(best, f.judge) }
	ofAll := func(done float64) float64 {
		return (float64(c.before) + done*float64(c.work)) / float64(max(o.InAll, c.before+c.work))
	}
	if o.Work == 0 {
		ofAll = func(done float64) float64 { return done }
	}
	if g.Hopeless != nil {
		c.hopeless = func(length, done float64) bool { return g.Hopeless(length, ofAll(done)) }
	}
	c.turn.L = &c.mu
	reported := 0.0 // of the budget: where it grows, what was reported stands until it is true again
	c.report = func(best *placement, done float64, phase string) {
		reported = max(reported, ofAll(done))
		f.reporter.reportNow(Progress{Phase: phase, Length: best.length, Done: reported})
		f.secureAgain(best)
	}
	return c
}
