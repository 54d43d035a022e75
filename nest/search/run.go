package search

import (
	"context"
	"errors"
	"math"
	"time"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Options steers Run.
type Options struct {
	Seed     uint64
	Workers  int           // goroutines that search at once, at least 1
	Memory   int64         // bytes for no-fit regions and what their collection takes
	Work     int64         // evaluations for each lane; 0: until Time or the context ends it
	Time     time.Duration // ceiling; 0: none
	Start    *Layout       // a layout to begin from, free of overlap; nil: construct one
	Progress func(length, done float64, phase string)
	// Begun is called once, when the first layout stands.
	Begun func()
	// Prove returns a length that no layout is shorter than, mm, at least
	// Problem.Bound. It is called once, when the lanes first meet, and may take a while.
	Prove func() float64
	// Enough says whether a layout of that length needs no shortening, given the bound.
	Enough func(length, bound float64) bool
	// Judge looks at a layout on the lattice.
	Judge func(Layout) Verdict
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

// Run searches for a short layout. With Work set and neither Time nor a
// cancellation coming in between, the outcome depends on problem, seed and
// work alone, whatever the number of workers.
func Run(ctx context.Context, p Problem, o Options) (Outcome, error) {
	started := time.Now()
	stop := func() bool { return ctx.Err() != nil }
	in := newInstance(p, setting{memory: o.Memory, workers: o.Workers, stop: stop, tell: func(float64) {}})
	if in == nil {
		return Outcome{}, ctx.Err()
	}
	first := in.start(o.Start, stop)
	if first == nil {
		return Outcome{}, ctx.Err()
	}
	out := Outcome{First: time.Since(started), FirstLength: first.length}
	o.Begun()
	c := &crew{work: o.Work, started: started, time: o.Time, best: first}
	c.prove = func() { in.bound = max(in.bound, o.Prove()) }
	c.reached = func(best *placement) bool { return o.Enough(best.length, in.bound) || in.reached(best, o.Judge) }
	c.turn.L = &c.mu
	if o.Progress != nil {
		c.report = func(best *placement, done float64, phase string) { o.Progress(best.length, done, phase) }
		o.Progress(first.length, 0, "first layout")
	}
	for k := range lanesInCrew {
		l := newLane(in, o.Seed, k)
		l.crew, l.best, l.rate, l.nextMeet = c, first, boldest, meetEvery
		if o.Work > 0 {
			l.nextMeet = min(meetEvery, o.Work) // the budget is looked at when lanes meet
		}
		c.lanes = append(c.lanes, l)
	}
	timed := make(chan struct{})
	if o.Time > 0 {
		timer := time.AfterFunc(o.Time-time.Since(started), func() { close(timed); c.stop() })
		defer timer.Stop()
	}
	defer context.AfterFunc(ctx, c.stop)()
	if len(in.items) > 0 && first.length > in.enough() {
		c.run(max(1, o.Workers))
	}
	for _, l := range c.lanes {
		out.Evaluations += l.evals
	}
	select {
	case <-timed:
		out.OutOfTime = true
	default:
		out.Stopped = ctx.Err() != nil
	}
	var err error
	out.Layout, err = in.finish(append(c.earlier, c.best), o.Judge)
	if err == nil && p.MaxLength > 0 && out.Layout.Length > p.MaxLength {
		err = ErrTooLong
	}
	return out, err
}

// start takes over a given layout or constructs one.
func (in *instance) start(given *Layout, stop func() bool) *placement {
	if given == nil {
		return in.construct(stop)
	}
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

// finish brings the best layout, which stands last, onto the lattice and before the
// judge. Where rounding does not do and following the judge's word does not
// either, the shortest of these counts: the latest earlier layout that rounding does
// for, and the items of the best lined up anew at their places, spread by some share
// of the length, or one after the other.
func (in *instance) finish(bests []*placement, judge func(Layout) Verdict) (Layout, error) {
	earlier, best := bests[:len(bests)-1], bests[len(bests)-1]
	if q := in.rounded(best, judge); q != nil {
		return in.layout(q), nil
	}
	var out Layout
	err := ErrUnsettled
	for k := len(earlier) - 1; k >= 0 && err != nil; k-- {
		if q := in.rounded(earlier[k], judge); q != nil {
			out, err = in.layout(q), nil
		}
	}
	for _, spread := range []float64{0, 1e-7, 1e-6, 1e-5, 1e-4, 1} {
		q := best.clone()
		for i := range in.movable {
			q.x[i] *= 1 + spread
		}
		if l := in.layout(in.lineUp(q, spread == 1)); (err != nil || l.Length < out.Length) && judge(l).OK {
			out, err = l, nil
		}
	}
	return out, err
}

// rounded returns the layout on the lattice, or nil when the judge is not content
// with any. Coarse steps come first: outlines with round coordinates fit exactly at
// round places only.
func (in *instance) rounded(p *placement, judge func(Layout) Verdict) *placement {
	for quantum := in.quantum(); quantum > plane.Lattice; quantum /= 2 {
		if q := in.settle(p, quantum, 0, judge); q != nil && q.length <= p.length {
			return q
		}
	}
	return in.settle(p, plane.Lattice, settleNudges, judge)
}

// reached reports whether a layout is as short as the bound, if need be once it
// lies on the lattice: the loosened regions keep slanted edges a little apart,
// and only rounding to coarse steps closes an exact fit.
func (in *instance) reached(p *placement, judge func(Layout) Verdict) bool {
	if p.length <= in.enough() || p.length > in.bound*(1+1e-4) {
		return p.length <= in.enough()
	}
	l, err := in.finish([]*placement{p}, judge)
	return err == nil && l.Length <= in.enough()
}

// settleNudges bounds how often the judge is asked again; a handful is usual.
const settleNudges = 100

// quantum returns the largest power of two, from the lattice up to 1024 times
// it, that divides every bounding box.
func (in *instance) quantum() float64 {
	q := 1024 * plane.Lattice
	divides := func(v float64) bool { return math.Mod(v, q) == 0 }
	for _, it := range in.items {
		for _, w := range it.ways {
			for !divides(in.shapes[w.shape].w) || !divides(in.shapes[w.shape].h) {
				q /= 2
				if q <= plane.Lattice {
					return plane.Lattice
				}
			}
		}
	}
	return q
}

func (in *instance) layout(p *placement) Layout {
	out := Layout{Length: p.length}
	for i := range in.movable {
		w := in.items[i].ways[p.way[i]]
		out.Choice = append(out.Choice, w.choice)
		out.At = append(out.At, orb.Point{p.x[i] - w.origin[0], p.y[i] - w.origin[1]})
	}
	return out
}
