package search

import (
	"context"
	"errors"
	"math"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes/plane"
)

// anyLayout is a judge by the search's own measure: no two items of a layout, nor an item
// and a zone, overlap by more than rounding may leave of regions that are loosened.
func anyLayout(p Problem) func(l Layout, stop func() bool) Verdict {
	in := readyInstance(p)
	return func(l Layout, _ func() bool) Verdict {
		at := in.taken(&l)
		for i := range in.movable {
			for j := range in.items {
				if j < i || j >= in.movable {
					d, _, _ := in.depthAt(in.shapeAt(at, i), in.shapeAt(at, j), at.x[i], at.y[i], at.x[j], at.y[j])
					if d > 64*plane.Lattice {
						return Verdict{}
					}
				}
			}
		}
		return Verdict{OK: true}
	}
}

func options(p Problem, work int64) Options {
	return Options{Seed: 1, Workers: 1, Memory: 1 << 28, Work: work, Began: time.Now(), Judge: anyLayout(p)}
}

// toTheBound goes on until the bound of the problem is reached.
func toTheBound(p Problem) Goal {
	return Goal{
		Bound:  func() float64 { return p.Bound },
		Enough: func(length, bound float64) bool { return length <= bound },
	}
}

// TestGoingOnIsNoWorse: a search that goes on once its work is used does what the same search
// does without, and ends no longer, on any number of workers.
func TestGoingOnIsNoWorse(t *testing.T) {
	problems, further := rapid.Custom(problem), 0
	for seed := range often.Full(8, 15) {
		p := problems.Example(seed)
		var found [3]Outcome
		for k := range found {
			o := options(p, 1<<11)
			if k > 0 {
				o.InAll, o.Workers = 1<<14, 2*k-1
			}
			out, err := Improve(Construct(context.Background(), p, o), toTheBound(p))
			if err != nil && !errors.Is(err, ErrTooLong) {
				t.Fatal(err)
			}
			found[k] = out
		}
		if found[1].Layout.Length > found[0].Layout.Length {
			t.Errorf("seed %d: %v, without going on %v", seed, found[1].Layout.Length, found[0].Layout.Length)
		}
		if d := cmp.Diff(found[1].Layout, found[2].Layout); d != "" {
			t.Errorf("seed %d: another layout on three workers: %s", seed, d)
		}
		if found[1].Evaluations > 3*found[0].Evaluations {
			further++
		}
	}
	if further == 0 {
		t.Error("no search went on")
	}
}

// TestImproveIsNoWorse: the outcome lies on the strip, is no longer than the first layout
// and no shorter than area allows, and does not depend on the number of workers.
func TestImproveIsNoWorse(t *testing.T) {
	problems := rapid.Custom(problem)
	for seed := range 25 {
		p := problems.Example(seed)
		var first Outcome
		for k, workers := range []int{1, 3} {
			o := options(p, 1<<12)
			o.Workers = workers
			f := Construct(context.Background(), p, o)
			if !f.Stands() {
				t.Fatal("no first layout")
			}
			out, err := Improve(f, toTheBound(p))
			if err != nil {
				t.Fatal(err)
			}
			if out.Layout.Length > out.FirstLength+plane.Lattice {
				t.Fatalf("%v mm after %v", out.Layout.Length, out.FirstLength)
			}
			in := f.instance
			at := in.taken(&out.Layout)
			if at.length = out.Layout.Length; !onStrip(p, in, at) {
				t.Fatal("off the strip")
			}
			if least := in.area / in.width; out.Layout.Length < least*(1-1e-9) {
				t.Fatalf("%v mm, the area alone takes %v", out.Layout.Length, least)
			}
			if k == 0 {
				first = out
			} else if !slices.Equal(first.Layout.At, out.Layout.At) ||
				!slices.Equal(first.Layout.Choice, out.Layout.Choice) {
				t.Fatal("another number of workers, another layout")
			}
		}
	}
}

// cards is eight squares, which fill two rows of four.
func cards() Problem {
	p := Problem{Width: 100, Bound: 200}
	for range 8 {
		p.Items = append(p.Items, Item{Choices: []Choice{{Ring: rectangle(50, 50)}}})
	}
	return p
}

// TestImproveEnds: at the bound, when the goal is reached, when it is hopeless; each once
// the lanes have met, and says which it was.
func TestImproveEnds(t *testing.T) {
	p := cards()
	out, err := Improve(Construct(context.Background(), p, options(p, 1<<20)), toTheBound(p))
	if err != nil || out.Layout.Length != 200 || out.Hopeless || out.Stopped || out.OutOfTime {
		t.Errorf("%+v, %v", out, err)
	}
	gores := Problem{Width: 70}
	for k := range 7 {
		ring := orb.Ring{{0, 8}, {50 + 3*float64(k), 0}, {50, 30}, {0, 16}, {0, 8}}
		gores.Items = append(gores.Items, Item{Choices: bothEnds(ring)})
	}
	goal := toTheBound(gores)
	asked := 0
	goal.Bound = func() float64 { asked++; return 0 }
	goal.Hopeless = func(length, done float64) bool { return done >= 0.5 }
	full := int64(2 * meetEvery)
	out, err = Improve(Construct(context.Background(), gores, options(gores, full)), goal)
	if err != nil || !out.Hopeless || asked != 1 || out.Evaluations > lanesInPool*full*3/4 {
		t.Errorf("hopeless: %+v, %v; the bound was asked for %d times", out, err, asked)
	}
	goal.Enough = func(float64, float64) bool { return true }
	out, err = Improve(Construct(context.Background(), gores, options(gores, full)), goal)
	if err != nil || out.Hopeless || out.Evaluations > lanesInPool*(meetEvery+meetEvery/4) {
		t.Errorf("enough: %+v, %v", out, err)
	}
}

// TestImproveStarts: from a layout that is given the outcome is no longer, without a first
// one of its own; where the judge refuses all others, that one comes out.
func TestImproveStarts(t *testing.T) {
	p := cards()
	start := Layout{Length: 400, Choice: make([]int, 8)}
	for i := range 8 {
		start.At = append(start.At, orb.Point{float64(50 * i), 0})
	}
	o := options(p, 1<<14)
	o.Start = &start
	out, err := Improve(Construct(context.Background(), p, o), toTheBound(p))
	if err != nil || out.Layout.Length > 400 || out.FirstLength != 400 {
		t.Errorf("%v mm from %v, %v", out.Layout.Length, out.FirstLength, err)
	}
	o.Judge = func(Layout, func() bool) Verdict { return Verdict{} }
	out, err = Improve(Construct(context.Background(), p, o), toTheBound(p))
	if err != nil || !slices.Equal(out.Layout.At, start.At) {
		t.Errorf("%v, %v", out.Layout, err)
	}
	o.Start = nil
	if _, err = Improve(Construct(context.Background(), p, o), toTheBound(p)); !errors.Is(err, ErrUnsettled) {
		t.Errorf("a judge who refuses everything: %v", err)
	}
	p.MaxLength = 150
	_, err = Improve(Construct(context.Background(), p, options(p, 1<<12)), toTheBound(p))
	if !errors.Is(err, ErrTooLong) {
		t.Errorf("too short a strip: %v", err)
	}
}

// TestCancelledBeforeItBegins: rows come out, and it says why.
func TestCancelledBeforeItBegins(t *testing.T) {
	p := cards()
	cancelled, cancel := context.WithCancel(context.Background())
	cancel()
	f := Construct(cancelled, p, options(p, 0))
	out, err := Improve(f, toTheBound(p))
	if err != nil || f.Stands() || !out.Stopped || out.OutOfTime || out.Layout.Length > 400 {
		t.Errorf("cancelled: %+v, %v", out, err)
	}
	late, end := context.WithDeadline(context.Background(), time.Now().Add(-time.Second))
	defer end()
	out, err = Improve(Construct(late, p, options(p, 0)), toTheBound(p))
	if err != nil || out.Stopped || !out.OutOfTime {
		t.Errorf("out of time: %+v, %v", out, err)
	}
}

// TestReports: every phase once at least, Done never falls while exploring, none comes
// after the end.
func TestReports(t *testing.T) {
	p := cards()
	p.Bound = 0
	var mu sync.Mutex
	var all []Progress
	o := options(p, 1<<16)
	o.Progress = func(now Progress) {
		mu.Lock()
		defer mu.Unlock()
		all = append(all, now)
	}
	if _, err := Improve(Construct(context.Background(), p, o), Goal{
		Bound: func() float64 { return 0 }, Enough: func(float64, float64) bool { return false },
	}); err != nil {
		t.Fatal(err)
	}
	mu.Lock()
	count := len(all)
	mu.Unlock()
	time.Sleep(2 * reportEvery)
	mu.Lock()
	defer mu.Unlock()
	if len(all) != count {
		t.Errorf("%d reports after the end", len(all)-count)
	}
	phases := map[string]bool{}
	done := 0.0
	for _, now := range all {
		phases[now.Phase] = true
		if now.Length > 0 {
			if now.Done < done {
				t.Errorf("done falls from %v to %v", done, now.Done)
			}
			done = now.Done
		}
		if now.Phase == FirstLayout && (now.Laid < 1 || now.Laid > 8) {
			t.Errorf("%d of 8 items are laid", now.Laid)
		}
	}
	if !phases[Preparing] || !phases[FirstLayout] || !phases[exploring.String()] || done != 1 {
		t.Errorf("phases %v, at last %v done", phases, done)
	}
}

// TestClock: a cancellation halts at once and makes what follows late after its grace; a
// deadline leaves a reserve before it; what waits for the halt is called once it comes.
func TestClock(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	k := newClock(ctx)
	defer k.stop()
	began := time.Now()
	halted := make(chan struct{})
	k.whenHalted(func() { close(halted) })
	if k.over() || k.tooLate() {
		t.Error("over before it began")
	}
	cancel()
	<-halted
	if !k.over() || !k.tooLate() || k.timed.Load() {
		t.Error("cancelled, and not over")
	}
	k.ending.Store(true)
	if k.tooLate() && time.Since(began) < grace {
		t.Error("too late for the end within the grace")
	}
	for !k.tooLate() {
		time.Sleep(grace / 10)
	}
	limited, end := context.WithTimeout(context.Background(), time.Hour)
	defer end()
	k = newClock(limited)
	defer k.stop()
	k.keepBack(time.Hour) // all but a quarter of what is left, at the most
	if k.over() {
		t.Error("over with three quarters of an hour to go")
	}
	called := false
	k.timeUp()
	if k.whenHalted(func() { called = true }); !called || !k.timed.Load() || !k.over() {
		t.Error("time is up, and it is not over")
	}
}

// TestLeapsGoMidway: a leap that fails halves the next, one that succeeds goes midway
// again; groups never leap, nor does a lane that spent its share on it.
func TestLeapsGoMidway(t *testing.T) {
	p := cards()
	l := laneOf(readyInstance(p), 1)
	l.bound = 150
	long := l.emptyPlacement()
	for i := range 8 {
		long.x[i] = float64(50 * i)
	}
	long.length = 400
	l.best, l.pool.shared, l.leaps.stride = long, long, firstLeap
	for range stuck {
		if l.mayLeap() {
			t.Error("a leap while steps may still pay")
		}
		l.failed.add(long, 1)
	}
	if !l.mayLeap() {
		t.Error("no leap from far above the bound")
	}
	l.leap()
	if l.best.length > 275+1e-9 || l.leaps.stride != firstLeap || l.leaps.failed != 0 {
		t.Errorf("midway to %v of a bound of 150: %+v", l.best.length, l.leaps)
	}
	l.best, l.pool.shared, l.leaps.stride = long, long, firstLeap/2
	if l.leap(); l.best.length >= 400 || l.leaps.stride != firstLeap {
		t.Errorf("from a shorter leap to %v: %+v", l.best.length, l.leaps)
	}
	l.best, l.pool.shared = long, long
	l.bound = 10 // midway nothing fits: 205 does, and no less than 200
	stride := firstLeap
	for range 3 {
		was := l.best.length
		l.leap()
		if l.best.length < was {
			stride = firstLeap
		} else {
			stride /= 2
		}
		if l.leaps.stride != stride || l.best.length < 200-1e-6 {
			t.Errorf("stride %v, want %v, at %v mm", l.leaps.stride, stride, l.best.length)
		}
	}
	l.leaps.used = math.MaxInt64 / 8
	if l.best.length <= farAbove*l.bound && l.mayLeap() {
		t.Error("it leaps beyond its share")
	}
	l.groups = make([]group, 1)
	if l.mayLeap() {
		t.Error("groups leap")
	}
}

// TestTargets: a share shorter, no shorter than the bound, no longer than the longest
// allowed; where nothing but the bound is shorter, the bound.
func TestTargets(t *testing.T) {
	l := &lane{instance: &instance{bound: 100}, best: &placement{length: 200}}
	for _, c := range []struct{ best, most, share, want float64 }{
		{200, 0, 0.1, 180}, {200, 150, 0.1, 150}, {101, 0, 0.5, 100.001}, {100.0005, 0, 0.5, 100},
	} {
		l.best.length, l.maxLength = c.best, c.most
		if got := l.target(c.share); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%+v: %v", c, got)
		}
	}
}

// TestPoolKeepsTheShortest: what lanes found is gathered, the best before it kept for a
// while, that of another search aside.
func TestPoolKeepsTheShortest(t *testing.T) {
	at := func(length float64) *placement { return &placement{length: length} }
	c := &lanePool{best: at(100), shared: at(100)}
	for k := range lanesInPool {
		c.lanes = append(c.lanes, &lane{number: k, best: at(100)})
	}
	if c.gather() {
		t.Error("nothing new is better")
	}
	c.lanes[0].best, c.lanes[1].aside = at(90), at(80)
	if !c.gather() || c.best.length != 80 || c.shared.length != 90 {
		t.Errorf("best %v, shared %v", c.best.length, c.shared.length)
	}
	c.search++ // the lanes have not begun anew yet
	c.shared = at(100)
	if c.lanes[0].best = at(70); !c.gather() || c.shared.length != 100 || c.best.length != 70 {
		t.Errorf("of the search before: best %v, shared %v", c.best.length, c.shared.length)
	}
	for k := range 2 * mostEarlier {
		c.improve(at(60 - float64(k)))
	}
	if n := len(c.earlier); n != mostEarlier || c.earlier[n-1].length != c.best.length+1 {
		t.Errorf("%d earlier ones, the last %v before %v", n, c.earlier[n-1].length, c.best.length)
	}
}

// TestWhatNeedsNoSearchIsNotSearched: where the first layout is all that is asked for, it is what comes out, whether
// that is known soon or when the lanes meet; known soon, it ends them long before.
func TestWhatNeedsNoSearchIsNotSearched(t *testing.T) {
	const work = 1 << 19 // then they meet
	p := Problem{Width: 70}
	for k := range 7 {
		ring := orb.Ring{{0, 8}, {50 + 3*float64(k), 0}, {50, 30}, {0, 16}, {0, 8}}
		p.Items = append(p.Items, Item{Choices: bothEnds(ring)})
	}
	improve := func(late, needless bool) Outcome {
		isKnown := make(chan struct{})
		out, err := Improve(Construct(context.Background(), p, options(p, work)), Goal{
			Bound:  func() float64 { close(isKnown); return 0 },
			Enough: toTheBound(p).Enough,
			Needless: func(float64) bool {
				if late {
					<-isKnown
				}
				return needless
			},
		})
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	searched, late, soon := improve(false, false), improve(true, true), improve(false, true)
	if searched.Layout.Length >= late.Layout.Length || late.Layout.Length > late.FirstLength+plane.Lattice {
		t.Errorf("%v mm without a search, %v with, %v at first", late.Layout.Length, searched.Layout.Length, late.FirstLength)
	}
	if d := cmp.Diff(late.Layout, soon.Layout); d != "" {
		t.Errorf("known late and soon: %s", d)
	}
	if late.Evaluations < lanesInPool*work || soon.Evaluations > late.Evaluations/2 {
		t.Errorf("%d evaluations until the lanes met, known soon %d", late.Evaluations, soon.Evaluations)
	}
}
