package nest

import (
	"context"
	"errors"
	"math"
	"runtime"
	"time"

	"yardlay/nest/bound"
	"yardlay/nest/judge"
	"yardlay/nest/search"
	"yardlay/shapes/say"
)

// Options steers Solve. The zero value is a normal search with seed 0 on all
// processors.
type Options struct {
	Effort   Effort
	Work     int64          // evaluations for each of the search's two lanes in place of the effort's; 0: the effort's
	Steady   bool           // do the effort's work and no more
	Seed     uint64         // another seed, another search
	Workers  int            // goroutines; 0 means one for each processor. Does not change the result
	Memory   int64          // bytes that no-fit regions may take; 0 means 300 MB. Does not change the result
	Time     time.Duration  // ceiling of the whole of Solve; 0 means none. Cut short, results may differ between runs
	Start    *Layout        // a layout of the same problem to begin from; it must pass Verify
	Proofs   *Proofs        // remembers bounds, shared with other calls; nil: none. Does not change the result
	Progress func(Progress) // called from the first moment, a few times a second, from one goroutine at a time
	// Better is shown the best layout so far, which has passed the judge: the first one, shorter ones as
	// they are found, and the best once more when its bound is; see showing. Does not change the result.
	Better func(Result)
	// Bought says which length is bought for a used one, both mm, never less; nil
	// means the used length itself. The search ends as soon as it is proved that
	// nothing shorter can be bought.
	Bought func(used float64) float64
	// Purchase ends the search, too, once what is left of its budget gains too little
	// by experience for anything shorter to be bought, or before it begins where nothing is: for
	// layouts that are compared by what is bought. The former takes no effect without a budget.
	Purchase bool
}

// Progress tells how a search stands. Phase is at first "preparing", then "first
// layout"; until that stands Length is 0, and Done is the share of the phase.
type Progress struct {
	Length      float64 // of the best layout so far, mm
	Utilisation float64 // of the best layout so far, 0 to 1
	Done        float64 // share of the budget used, 0 to 1
	Laid        int     // pieces that have their place
	Pieces      int     // pieces in all
	Phase       string  // what the search does now
}

// Status says how a search ended.
type Status uint8

const (
	Finished  Status = iota // the budget was used, or nothing shorter is possible
	Stopped                 // the context was cancelled: this is the best layout so far
	OutOfTime               // Options.Time was up: this is the best layout so far
	Proved                  // nothing shorter can be bought
)

// String returns the status in words.
func (s Status) String() string {
	return [...]string{"finished", "stopped", "out of time", "proved"}[s]
}

// Result is a layout that has passed Verify, and how it came about.
type Result struct {
	Layout      Layout
	Utilisation float64     // piece area over width times used length, 0 to 1
	Bound       bound.Bound // no layout is shorter than Bound.Length, and why
	Status      Status
	Stats       Stats
}

// Stats are figures about a search.
type Stats struct {
	First       time.Duration // from the call to the first layout
	FirstLength float64       // used length of the first layout, mm
	Elapsed     time.Duration
	Evaluations int64 // places tried, with the pairs looked at
	Hopeless    bool  // Options.Purchase ended it
}

// Solve lays the pieces on the strip. The result depends on problem, effort and
// seed alone, not on the number of workers, as long as neither Time nor the
// context cuts the work short. Then the best layout so far is returned, with status
// Stopped or OutOfTime; where there is none yet, the simplest: rows by bounding
// boxes. Cancelled, Solve returns within 0.3 s.
//
// Errors are those of Check, a layout to start from that fails Verify, and a
// MaxLength in which no layout was found.
func Solve(ctx context.Context, p Problem, o Options) (Result, error) {
	began := time.Now()
	if o.Progress != nil {
		o.Progress(Progress{Phase: search.Preparing})
	}
	if err := p.Check(); err != nil {
		return Result{}, err
	}
	if o.Workers <= 0 {
		o.Workers = runtime.GOMAXPROCS(0)
	}
	if o.Time > 0 {
		limited, cancel := context.WithDeadline(ctx, began.Add(o.Time))
		defer cancel()
		ctx = limited
	}
	settled, err := p.grainsFor(ctx, o)
	if err != nil {
		return Result{}, err
	}
	s := newSearcher(p, settled)
	show := newShowing(s, o)
	so := o.toSearch(s, began)
	so.Better = show.layout()
	first := search.Construct(ctx, s.problem, so)
	lower, endProof := p.boundBeside(ctx, o, first.Stands())
	defer endProof()
	besides := o.besides(s)
	out, err := search.Improve(first, search.Goal{
		Bound:    func() float64 { return show.proved(lower()) - s.walls },
		Needless: func(length float64) bool { return besides.needless(length, lower().Length-s.walls) },
		Enough:   besides.enough,
		Hopeless: besides.hopeless(),
	})
	if err != nil {
		return Result{}, s.refused(out, err)
	}
	r := Result{Layout: s.layout(out.Layout), Bound: lower()}
	if err := consistent(r.Bound, r.Layout); err != nil {
		return Result{}, err
	}
	r.Utilisation = p.Utilisation(r.Layout)
	r.Status = o.status(out, r)
	r.Stats = Stats{
		First: out.First, FirstLength: s.whole(out.FirstLength), Elapsed: time.Since(began),
		Evaluations: out.Evaluations, Hopeless: out.Hopeless,
	}
	return r, nil
}

// grainsFor returns the grains of pairs: those of the layout to start from, or settled
// by short searches.
func (p Problem) grainsFor(ctx context.Context, o Options) (grains, error) {
	if o.Start == nil {
		return p.settleGrains(ctx, o), nil
	}
	if err := Verify(p, *o.Start); err != nil {
		return nil, say.Errorf("layout to start from: %w", err)
	}
	return p.grainsOf(*o.Start), nil
}

// toSearch returns the options of a search of s that began at a moment.
func (o Options) toSearch(s *searcher, began time.Time) search.Options {
	so := search.Options{
		Seed: o.Seed, Workers: o.Workers, Memory: o.memory(), Began: began,
		Work: o.work(), Growth: o.besides(s).growth(), InAll: o.inAll(),
		Judge:    s.judgedBy(judge.New(s.of.toJudge())),
		Progress: o.progress(s),
	}
	if o.Start != nil {
		so.Start = s.start(*o.Start)
	}
	return so
}

// besides returns the options for what is laid besides the walls: lengths there are shorter by what those take.
func (o Options) besides(s *searcher) Options {
	if s.walls > 0 {
		bought := o.bought
		o.Bought = func(used float64) float64 { return bought(s.whole(used)) }
	}
	return o
}

// bought returns the length that is bought for a used one.
func (o Options) bought(used float64) float64 {
	if o.Bought == nil {
		return used
	}
	return o.Bought(used)
}

// enough says whether nothing shorter than a layout of that length can be bought.
func (o Options) enough(length, bound float64) bool { return o.bought(length) <= o.bought(bound) }

// needless says whether a first layout of that length needs no search: it reaches the bound, but for rounding, or
// what is bought for it does where that is all that counts.
func (o Options) needless(length, bound float64) bool {
	return length <= bound*(1+1e-6) || o.Purchase && o.enough(length, bound)
}

// hopeless says whether, at that share of the budget, what is left gains too little for
// less to be bought; nil: a search is never given up for that.
func (o Options) hopeless() func(length, done float64) bool {
	if !o.Purchase {
		return nil
	}
	return func(length, done float64) bool {
		return done >= hopeFrom && done < 1 && o.bought(length*(1-hopePart*(1-done))) >= o.bought(length)
	}
}

// status says how the search that found a result ended.
func (o Options) status(out search.Outcome, r Result) Status {
	switch {
	case o.enough(r.Layout.Length, r.Bound.Length):
		return Proved
	case out.Stopped:
		return Stopped
	case out.OutOfTime:
		return OutOfTime
	}
	return Finished
}

// From a half of the budget on a search shortens its layout by less than three
// hundredths of the share that is left: 1.5 % after a half, 0.7 % after three quarters,
// the most seen on the cloths of chorus-gown in twelve ways; half of them by a fifth of
// that (benchmarks/README.md, comparisons).
const (
	hopeFrom = 0.5
	hopePart = 0.03
)

// refused says why there is no layout.
func (s *searcher) refused(out search.Outcome, err error) error {
	least := s.whole(math.Max(out.FirstLength, out.Layout.Length))
	switch {
	case errors.Is(err, search.ErrTooLong):
		return say.Errorf("%w: the shortest found takes %.1f, the strip has %.1f", err,
			say.MM(s.whole(out.Layout.Length)), say.MM(s.of.Strip.MaxLength))
	case errors.Is(err, search.ErrUnsettled) && least > Reach:
		return say.Errorf("the pieces take %.0f of cloth, one marker holds at most %v", say.MM(least), say.MM(Reach))
	}
	return err
}

// progress passes on how a search stands; nil when nobody wants to know.
func (o Options) progress(s *searcher) func(search.Progress) {
	if o.Progress == nil {
		return nil
	}
	area, pieces := s.of.LeastArea()/s.of.Strip.Width, len(s.order)
	return func(now search.Progress) {
		told := Progress{Done: now.Done, Phase: now.Phase, Laid: now.Laid + pieces - len(s.copies), Pieces: pieces}
		if now.Length > 0 {
			told.Length, told.Laid = s.whole(now.Length), pieces
			told.Utilisation = area / told.Length
		}
		o.Progress(told)
	}
}

// memory returns the bytes that no-fit regions may take.
func (o Options) memory() int64 {
	if o.Memory > 0 {
		return o.Memory
	}
	return 300e6
}

// work returns the evaluations for each lane; 0 means no limit. Thorough work begins as normal
// work does.
func (o Options) work() int64 {
	work := o.Work
	if work <= 0 {
		work = o.Effort.Work()
	}
	if o.Effort == Thorough {
		return max(1, work/thorough)
	}
	return work
}

// inAll returns the evaluations for each lane once what normal effort does is done; 0: no more.
func (o Options) inAll() int64 {
	if o.Effort != Thorough {
		return 0
	}
	return thorough * o.work()
}

// growth returns what those may grow to.
func (o Options) growth() search.Growth {
	if o.Steady || o.Purchase || o.Work > 0 {
		return search.Growth{}
	}
	g := o.Effort.growth()
	if o.Bought != nil {
		g.Cheaper = func(length, share float64) bool { return o.bought(length*(1-share)) < o.bought(length) }
	}
	return g
}

// judgedBy returns what the search asks of a judge: whether a layout is in order, or
// which two items are too near each other.
func (s *searcher) judgedBy(j *judge.Judge) func(l search.Layout, stop func() bool) search.Verdict {
	return func(l search.Layout, stop func() bool) search.Verdict {
		err := j.Verify(s.layout(l).toJudge(), stop)
		if b, ok := errors.AsType[*Broken](err); ok && (b.Rule == Overlap || b.Rule == TooClose) {
			pair := [2]int{s.items[b.Pair[0]], s.items[b.Pair[1]]}
			return search.Verdict{Pair: pair, Near: min(pair[0], pair[1]) >= 0}
		}
		return search.Verdict{OK: err == nil}
	}
}

// simpleBound returns the larger of the least area over the width and the least
// extent along the strip that some piece must take up.
func simpleBound(p Problem) float64 {
	bound := p.LeastArea() / p.Strip.Width
	for _, some := range p.leastOf(func(w Placed) float64 { along, _ := p.extent(w); return along }) {
		bound = max(bound, some.least)
	}
	return bound
}
