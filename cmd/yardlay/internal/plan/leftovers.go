package plan

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"
	"sync"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/plane"
)

// leftovers returns the lengths of the cloth that are on the shelf, as they can
// be laid on: ends, skew and washing taken off. One that leaves nothing is left out.
func (t Task) leftovers() []shelf.Length {
	var strips []shelf.Length
	for _, h := range t.Spread.Cloth.Have {
		if l := t.Spread.leftover(h); l.Strip.MaxLength > 0 && l.Strip.Width > 0 {
			strips = append(strips, l)
		}
	}
	return strips
}

// leftover is one of them; its length is not above 0 where nothing is left, or where it is washed and the
// pieces of this job are drawn larger for a wash to come.
func (s Spread) leftover(h job.Have) shelf.Length {
	if h.Washed {
		if c := s.Cloth.Shrinkage; !c.Prewash && (c.Warp != 0 || c.Weft != 0) {
			return shelf.Length{Name: h.Name}
		}
		s = s.asWashed()
	}
	if h.Outline != nil {
		return s.outlined(h)
	}
	width := h.Width
	if width == 0 {
		width = s.Cloth.Width
	}
	strip := s.strip(width, h.Flaws)
	strip.MaxLength = plane.SnapDown(s.WashedAlong(h.Length) - 2*s.Cloth.Ends - s.Cloth.Skew)
	return shelf.Length{Name: h.Name, Strip: strip}
}

// withShelf lays a task with what is on the shelf, as far as that saves cloth. A
// ceiling on the time leaves three quarters to find out how the shelf is best
// used; the rest is for what is bought.
func (t Task) withShelf(ctx context.Context, strips []shelf.Length, o Options, start *Start) (Laid, error) {
	o.Progress = oneAtATime(o.Progress)
	show := o.Better
	o.Better = nil
	sharing, done := within(ctx, 3./4)
	defer done()
	b := beside{task: t, o: o, start: start, laid: map[string]Laid{}, best: map[string]Laid{}}
	use, err := shelf.ShareOut(sharing, t.Problem, strips, shelf.Options{
		Effort: o.Effort, Seed: o.Seed, Workers: o.Workers, Progress: t.search(o).Progress,
		Bought: func(needed float64) float64 {
			p, _ := t.buy(needed)
			return p.Bought
		},
		Keep:  t.onShelf(),
		Spare: t.spareOf,
		Fresh: func(ctx context.Context, s shelf.Share, so nest.Options) (float64, map[int]orb.Point, error) {
			l, err := b.fresh(ctx, s, so)
			return l.Needed, l.phases(), err
		},
	})
	if err != nil {
		return Laid{}, &NoLayoutError{err}
	}
	// with completes what is laid on bought cloth by the shelf.
	with := func(l Laid) (Laid, error) {
		l.Task.Problem, l.Task.source, l.Shelf = t.Problem, nil, &use
		if use.Verdict == shelf.Helps {
			if err := l.addSpare(t.spareOf(use.Cuts)); err != nil {
				return Laid{}, err
			}
		}
		l.atLeast(t.leastBeside(strips, b.best[t.Key()]))
		return l, nil
	}
	if show != nil {
		b.o.Better = func(l Laid) {
			if l, err := with(l); err == nil {
				show(l)
			}
		}
	}
	l := Laid{Task: t}
	l.Task.Stretches = nil
	if len(use.Rest.Problem.Pieces) > 0 {
		rest := use.Rest
		if use.Verdict == shelf.Idle {
			rest = shelf.AllOf(t.Problem)
		}
		if l, err = b.fresh(ctx, rest, nest.Options{Effort: o.Effort, Workers: o.Workers}); err != nil {
			return Laid{}, err
		}
	} else if l.Buy, err = t.buy(0); err != nil {
		return Laid{}, err
	}
	return with(l)
}

// spareOf is what is bought to spare for what is cut from the shelf, mm: the spare is
// a share of all that is needed, and the shelf comes after it.
func (t Task) spareOf(cuts []shelf.Cut) float64 {
	x := LossOf(t.Spread.Cloth)
	sum := 0.0
	for _, c := range cuts {
		sum += (c.Layout.Length + 2*x.Ends + x.Skew) / x.Washed * x.Spare
	}
	return sum
}

// addSpare adds a spare of mm to what is needed and buys it. Where several lengths are
// bought their leftovers may hold the spare; if not, the length cut from the roll is
// longer by it. Where nothing so long is sold there is no spare.
func (l *Laid) addSpare(mm float64) (err error) {
	if mm == 0 {
		return nil
	}
	t, before := l.Task, *l
	l.Spare, l.Needed = mm, l.Needed+mm
	if !l.Several() {
		_, least := LengthsOf(l.Results)
		p, _ := t.buy(t.Needed(least) + mm)
		l.LeastFor = max(l.LeastFor, p.Bought)
		l.Buy, err = t.buy(l.Needed)
	} else {
		offer, set, cutting := t.Spread.Cloth.Offer, l.boltSet(), before.Needed
		for _, c := range l.BoltCuts() {
			cutting -= t.LeastNeeded(c.Layout.Length)
		}
		if len(l.Results) == 0 {
			cutting = 0
		}
		if before.Buy.Leftover < mm && offer.ByLength() {
			cutting += mm
		}
		l.Buy, err = offer.Together(set, cutting, l.Needed, 0)
	}
	if errors.Is(err, cost.ErrTooShort) { // nothing longer is sold: it goes without
		*l, err = before, nil
	}
	return err
}

// atLeast lowers the least purchase that is proved, in length and in money, to that of
// one marker of the given length, mm. Once leftovers are used, no more is proved.
func (l *Laid) atLeast(marker float64) {
	t := l.Task
	p, _ := t.buy(t.LeastNeeded(marker))
	l.LeastBuy = min(l.LeastBuy, p.Bought)
	if l.Lengths == nil {
		return
	}
	lengths := *l.Lengths
	if least := t.leastCost(marker); least < lengths.LeastCost.Minor {
		lengths.LeastCost.Minor = least
	}
	l.Lengths = &lengths
}

// beside lays what is cut from bought cloth beside the shelf.
type beside struct {
	task  Task
	o     Options
	start *Start

	mu   sync.Mutex
	laid map[string]Laid // by the effort and the key of what is left to cut
	best map[string]Laid // whatever the effort, by the key
}

// fresh lays what is left to cut, once for each effort. Where a laying that was cut
// short, or the last one, which is not steady, is outdone by an earlier one of the
// same, that is kept.
func (b *beside) fresh(ctx context.Context, s shelf.Share, so nest.Options) (Laid, error) {
	rest, err := b.task.of(s.Problem)
	if err != nil {
		return Laid{}, err
	}
	rest.source = s.Source
	key := rest.Key()
	with := fmt.Sprint(so.Effort, so.Steady, key)
	b.mu.Lock()
	l, ok := b.laid[with]
	best, tried := b.best[key]
	b.mu.Unlock()
	if ok && (!l.cutShort() || ctx.Err() != nil) {
		return l, nil
	}
	options := b.o
	options.Effort, options.Steady, options.Workers = so.Effort, so.Steady || b.o.Steady, so.Workers
	if l, err = rest.layBought(ctx, options, b.start); err != nil {
		return l, err
	}
	if tried && (l.cutShort() || !so.Steady) && best.Undercuts(l) {
		if l.cutShort() {
			best = best.endedAs(l)
		}
		l = best
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	b.laid[with], b.best[key] = l, l
	return l, nil
}

// phases returns a phase on the repeat for each group of what is laid.
func (l Laid) phases() map[int]orb.Point {
	all := l.Rest.PhasesOf(l.Opened)
	for _, c := range l.BoltCuts() {
		maps.Copy(all, c.Problem.PhasesOf(c.Layout))
	}
	return all
}

// endedAs returns a laying whose search ended as another's of the same task did.
func (l Laid) endedAs(other Laid) Laid {
	l.Results = slices.Clone(l.Results)
	for i := range l.Results {
		if i < len(other.Results) {
			l.Results[i].Status = other.Results[i].Status
		}
	}
	if l.Lengths != nil && other.Lengths != nil {
		lengths := *l.Lengths
		lengths.Ended, l.Lengths = other.Lengths.Ended, &lengths
	}
	return l
}

// of returns the task of other pieces on the same cloth. When none of them can be
// cut double on its fold they are cut from an open lay.
func (t Task) of(p nest.Problem) (Task, error) {
	var err error
	t.Problem = p
	if t.Stretches, err = t.Spread.fold(p); err != nil && t.Lay != nest.Open {
		t.Stretches, err = nest.Fold(p, nest.Open, 0)
	}
	return t, err
}

// leastBeside returns a length of bought cloth, mm, that no use of the shelf can go
// below. It is the longer of two:
//
//   - by area: each leftover takes at most the area of what fits on it and is kept
//     together; the rest has to be bought;
//   - by the bound of whole, which is everything laid on bought cloth: the bought cloth
//     and the leftovers, laid end to end with the gap between them and as much as brings
//     each onto the repeat, hold all pieces, so that together they are at least as long
//     as that bound. This holds on an open lay without flaws, and where no leftover is
//     broader than the cloth.
func (t Task) leastBeside(strips []shelf.Length, whole Laid) float64 {
	area, behind, bounded := t.Problem.LeastArea(), 0.0, t.Lay == nest.Open && len(t.Problem.Strip.Forbidden) == 0
	open, shift := 0.0, 0.0
	switch {
	case whole.Lengths != nil:
		open = whole.Lengths.Bound.Length
	case len(whole.Results) == 1:
		b := whole.Results[0].Bound
		if open = b.Length; b.OnRepeat() {
			shift = t.Problem.Strip.Repeat.Along
		}
	}
	f, err := shelf.NewFiller(t.Problem, strips, shelf.Options{Keep: t.onShelf()})
	if err != nil {
		return 0
	}
	for i, s := range strips {
		most := f.Most(i)
		if most == 0 {
			continue
		}
		area -= most
		behind += s.Strip.MaxLength + t.Problem.Gap + shift
		bounded = bounded && s.Strip.Width <= t.Problem.Strip.Width
	}
	least := area / t.Problem.Strip.Width
	if bounded {
		least = max(least, open-behind)
	}
	return max(least, 0)
}
