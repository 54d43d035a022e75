// Package shelf shares the copies of a layout problem out over lengths of cloth that are
// there already, leftovers or whole bolts, and what has to be bought besides. It knows
// layouts and lengths, and neither gowns nor prices.
package shelf

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/nest"
	"yardlay/shapes/say"
)

// Length is a length of a cloth that is there already. It is laid open, and
// Strip.MaxLength, how long it is, is a hard limit. A repeat starts at its cut
// end and lower edge, as that of bought cloth does.
type Length struct {
	Name    string
	Strip   nest.Strip
	NoCloth float64 // mm2 of Strip that are no cloth: forbidden zones that lie apart from each other
}

// Options steers ShareOut.
type Options struct {
	Effort  nest.Effort
	Seed    uint64
	Workers int // processors; 0: all. Does not change the result
	// Bought says which length is bought for a used one, both mm, never less for
	// more; nil means the used length itself.
	Bought func(used float64) float64
	// Fresh lays a share of it that is cut from bought cloth and says which length it uses, mm,
	// and the phases of its groups on the repeat; nil lays it open on the whole problem's
	// strip. It must depend on the problem and the options' effort and seed alone.
	Fresh func(ctx context.Context, s Share, o nest.Options) (used float64, at map[int]orb.Point, err error)

	Progress func(nest.Progress) // told how each search goes, by one goroutine at a time; may be nil

	// Spare is what the spare of the pieces cut from the shelf adds to a used length,
	// mm; nil: nothing.
	Spare func(cuts []Cut) float64

	// Keep names the copies of a piece that must come from one length: those of one
	// name; "" leaves a copy by itself, nil leaves all.
	Keep Keeping

	Memory *Memory // of earlier uses of the same problem, kept alike; nil: none

	solve solver // nil: nest.Solve
}

// solver lays a problem as nest.Solve does.
type solver func(ctx context.Context, p nest.Problem, o nest.Options) (nest.Result, error)

// Verdict says what the shelf is good for.
type Verdict uint8

const (
	Idle   Verdict = iota // it saves nothing and is left alone: all is cut from bought cloth
	Helps                 // less is bought
	Enough                // nothing is bought
)

// String returns the verdict in words.
func (v Verdict) String() string {
	return [...]string{"leave the shelf alone", "buy less", "the shelf is enough"}[v]
}

// Cut is what is cut from one strip of the shelf.
type Cut struct {
	Length
	Share
	Layout nest.Layout // of Share.Problem; it has passed nest.Verify
}

// Use is the best use found of a shelf.
type Use struct {
	Verdict Verdict
	Cuts    []Cut   // of the strips that are used, in the order of the shelf
	Rest    Share   // to be cut from bought cloth
	Bought  float64 // mm, for the rest; 0 when the shelf is enough or was not worth trying
	Whole   float64 // mm, that would be bought for everything; 0 when that was not worth laying
	Stopped bool    // ended early: another use of the shelf may save more
}

// ShareOut says whether the shelf is enough for the open problem of a cloth, and
// if it is not, which copies to cut from which strip so that less is bought than
// without the shelf. When nothing is saved the shelf is left alone; a strip that
// adds nothing to what is saved is too.
//
// Few copies are shared out in every way, more of them by several rules of thumb
// (see rules); layouts are trials of nest.Solve, and what is bought is compared at
// the asked effort. The result depends on the arguments alone, not on the number
// of workers, unless the context is cancelled or comes to its deadline: then the
// best use so far is kept.
func ShareOut(ctx context.Context, whole nest.Problem, strips []Length, o Options) (Use, error) {
	f, err := NewFiller(whole, strips, o)
	if err != nil {
		return Use{}, err
	}
	plans := f.plans(ctx)
	use := f.idle()
	if len(plans) > 0 {
		best := plans[0]
		if !best.Complete() {
			best = f.Squeeze(ctx, best)
		}
		if best.Complete() {
			use, err := f.Use(best)
			use.Verdict, use.Stopped = Enough, ctx.Err() != nil
			return use, err
		}
		if use, err = f.compare(ctx, plans); err != nil {
			return Use{}, err
		}
	}
	use.Stopped = ctx.Err() != nil
	return use, nil
}

// Plan says how many copies of each kind go on each strip.
type Plan struct {
	on     []packing // by strip; empty where the strip is left alone
	rest   counts
	phases phases  // of the groups that several of them share; of others it does not matter
	used   float64 // mm, a trial of the rest takes on bought cloth
	bought float64 // mm, for that
}

// Uses says whether something lies on a strip.
func (p Plan) Uses(strip int) bool { return len(p.on[strip].places) > 0 }

// Complete says that nothing is left over.
func (p Plan) Complete() bool { return p.rest.total() == 0 }

// with returns the plan with something laid on a strip, at the phases that it settles.
func (p Plan) with(strip int, on packing) Plan {
	p.on, p.phases = slices.Clone(p.on), p.phases.and(on.phases)
	p.on[strip] = on
	return p
}

// strips counts those that are used.
func (p Plan) strips() int {
	n := 0
	for i := range p.on {
		if p.Uses(i) {
			n++
		}
	}
	return n
}

// better orders plans: what is bought, then fewer strips, then what is used.
func (p Plan) better(q Plan) int {
	return cmp.Or(cmp.Compare(p.bought, q.bought), cmp.Compare(p.strips(), q.strips()), cmp.Compare(p.used, q.used))
}

// idle leaves the shelf alone.
func (f *Filler) idle() Use {
	return Use{Rest: newDealer(f.whole, f.kinds, f.bundles).share(f.whole.Strip, f.all, nil)}
}

// finals is the most plans that are laid at the asked effort.
const finals = 2

// compare lays the best plans and everything at the asked effort, and takes the
// first plan for which less is bought.
func (f *Filler) compare(ctx context.Context, plans []Plan) (Use, error) {
	idle := f.idle()
	used, _, err := f.o.Fresh(ctx, AllOf(f.whole), f.options(f.o.Effort))
	if err == nil {
		idle.Whole = f.o.Bought(used)
	} else {
		idle.Whole = math.Inf(1) // a plan may keep what cannot be laid off the bought cloth
	}
	idle.Bought = idle.Whole
	left := finals
	for i, p := range plans {
		alike := i > 0 && p.used == plans[i-1].used // left and right the other way round
		if left == 0 {
			break
		}
		if alike || f.leastBought(p.rest) >= idle.Whole {
			continue
		}
		left--
		use, bad := f.Use(p)
		if bad != nil {
			return Use{}, bad
		}
		used, _, bad := f.o.Fresh(ctx, use.Rest, f.options(f.o.Effort))
		if f.o.Spare != nil {
			used += f.o.Spare(use.Cuts)
		}
		if bad != nil || f.o.Bought(used) >= idle.Whole {
			continue
		}
		use.Verdict, use.Bought, use.Whole = Helps, f.o.Bought(used), idle.Whole
		if err != nil {
			use.Whole = 0
		}
		return use, nil
	}
	return idle, err
}

// leastBought is never more than what is bought for so many copies.
func (f *Filler) leastBought(c counts) float64 {
	if f.foreign { // folded lays may need less than the strip's width says
		return 0
	}
	return f.o.Bought(c.area(f.bundles) / f.whole.Strip.Width)
}

// Use deals the copies out as planned and judges every layout and the sum of them.
func (f *Filler) Use(p Plan) (Use, error) {
	var u Use
	d := newDealer(f.whole, f.kinds, f.bundles)
	var shares []Share
	for i, on := range p.on {
		if !p.Uses(i) {
			continue
		}
		cut := Cut{Length: f.strips[i], Share: d.share(f.strips[i].Strip, on.counts, p.phases)}
		cut.Layout = SideBySide(cut.Problem, cut.lay(f.kinds, on.places))
		if err := nest.Verify(cut.Problem, cut.Layout); err != nil {
			return Use{}, say.Errorf("leftover %q: the layout does not hold and is thrown away: %w", cut.Name, err)
		}
		u.Cuts = append(u.Cuts, cut)
		shares = append(shares, cut.Share)
	}
	u.Rest = d.share(f.whole.Strip, p.rest, p.phases)
	shares = append(shares, u.Rest)
	if err := errors.Join(checkShares(f.whole, shares), checkKept(f.o.Keep, shares)); err != nil {
		return Use{}, say.Errorf("shelf: %w", err)
	}
	return u, nil
}

// Squeeze tries at the asked effort to lay the rest on one strip as well: trials
// give up early, and whether the shelf is enough should not hang on that.
func (f *Filler) Squeeze(ctx context.Context, p Plan) Plan {
	order := f.byRoom(func(i int) float64 { return f.room(i) - p.on[i].counts.area(f.bundles) })
	for _, i := range order {
		c := p.rest
		if p.on[i].counts != nil {
			c = c.plus(p.on[i].counts, 1)
		}
		if c.area(f.bundles) > f.room(i) || !f.eachFits(i, c) || ctx.Err() != nil {
			continue
		}
		if on := f.pack(ctx, i, c, p.phases, f.o.Effort, true); on.counts.total() == c.total() {
			p = p.with(i, on)
			p.rest = make(counts, len(f.bundles))
			return p
		}
	}
	return p
}

// numbered counts n numbers up from 0.
func numbered(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = i
	}
	return list
}

// byRoom lists the strips, the one of most room first.
func (f *Filler) byRoom(room func(i int) float64) []int {
	order := numbered(len(f.strips))
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(room(b), room(a)) })
	return order
}

// NewFiller checks that there is something to share out and to lay it on, and
// which kind of copy fits on which strip at all.
func NewFiller(whole nest.Problem, strips []Length, o Options) (*Filler, error) {
	f := &Filler{whole: whole, strips: strips, o: o, kinds: kindsOf(whole), foreign: o.Fresh != nil, Memory: o.Memory}
	f.bundles = bundlesOf(f.kinds, o.Keep)
	if o.Workers <= 0 {
		f.o.Workers = runtime.GOMAXPROCS(0)
	}
	if o.Bought == nil {
		f.o.Bought = func(used float64) float64 { return used }
	}
	if o.solve == nil {
		f.o.solve = nest.Solve
	}
	if o.Fresh == nil {
		f.o.Fresh = f.open
	}
	if f.Memory == nil {
		f.Memory = NewMemory()
	}
	f.all = make(counts, len(f.bundles))
	for b, bundle := range f.bundles {
		f.all[b] = len(bundle.each)
	}
	for i, s := range strips {
		if !(s.Strip.MaxLength > 0) {
			return nil, say.Errorf("leftover %q: its length is %v, must be above 0", s.Name, say.MM(s.Strip.MaxLength))
		}
		f.keys = append(f.keys, fmt.Sprint(s.Strip))
		f.fits = append(f.fits, make([]bool, len(f.bundles)))
		for k := range f.bundles {
			one := make(counts, len(f.bundles))
			one[k] = 1
			alone := newDealer(whole, f.kinds, f.bundles).share(s.Strip, one, nil).Problem // its group may come along
			alone.Phases = nil
			err := alone.Check()
			var size *nest.SizeError
			if err != nil && !errors.As(err, &size) {
				return nil, say.Errorf("leftover %q: %w", s.Name, err)
			}
			f.fits[i][k] = err == nil
		}
	}
	return f, nil
}

// open lays copies on bought cloth as it lies open.
func (f *Filler) open(ctx context.Context, s Share, o nest.Options) (float64, map[int]orb.Point, error) {
	r, err := f.o.solve(ctx, s.Problem, o)
	return r.Layout.Length, s.Problem.PhasesOf(r.Layout), err
}

// options for laying on bought cloth while it is being shared out.
func (f *Filler) options(e nest.Effort) nest.Options {
	return nest.Options{Effort: e, Steady: true, Seed: f.o.Seed, Workers: f.o.Workers, Bought: f.o.Bought,
		Progress: f.o.Progress}
}
