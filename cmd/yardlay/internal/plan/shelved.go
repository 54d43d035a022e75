package plan

import (
	"context"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// leftovers returns the lengths of the cloth that are on the shelf, as they can
// be laid on: ends, skew and washing taken off. One that leaves nothing is left out.
func (t Task) leftovers() []ShelfStrip {
	s := t.Spread
	var strips []ShelfStrip
	for _, h := range s.Cloth.Have {
		width := h.Width
		if width == 0 {
			width = s.Cloth.Width
		}
		strip := s.strip(width, h.Flaws)
		strip.MaxLength = plane.SnapDown(s.washedAlong(h.Length) - 2*s.Cloth.Ends - s.Cloth.Skew)
		if strip.MaxLength > 0 {
			strips = append(strips, ShelfStrip{Name: h.Name, Strip: strip})
		}
	}
	return strips
}

// withShelf lays a task with what is on the shelf, as far as that saves cloth. A
// ceiling on the time leaves three quarters to find out how the shelf is best
// used; the rest is for what is bought.
func (t Task) withShelf(ctx context.Context, strips []ShelfStrip, o Options, start *Start) (Laid, error) {
	within := ctx
	if o.Time > 0 {
		var cancel context.CancelFunc
		within, cancel = context.WithTimeout(ctx, o.Time*3/4)
		defer cancel()
		o.Time = max(o.Time/4, 1)
	}
	laid := map[string]Laid{} // by the key of what is left to cut from bought cloth, at the asked effort
	fresh := func(ctx context.Context, p nest.Problem, so nest.Options) (Laid, error) {
		rest, err := t.of(p)
		if err != nil {
			return Laid{}, err
		}
		key := rest.Key()
		if l, ok := laid[key]; ok && so.Effort == o.Effort {
			return l, nil
		}
		options := o
		options.Effort, options.Workers = so.Effort, so.Workers
		l, err := rest.layFresh(ctx, options, start)
		if err == nil && so.Effort == o.Effort {
			laid[key] = l
		}
		return l, err
	}
	use, err := UseShelf(within, t.Problem, strips, ShelfOptions{
		Effort: o.Effort, Seed: o.Seed, Workers: o.Workers,
		Bought: func(needed float64) float64 {
			p, _ := t.buy(needed)
			return p.Bought
		},
		Fresh: func(ctx context.Context, p nest.Problem, so nest.Options) (float64, error) {
			l, err := fresh(ctx, p, so)
			return l.Needed, err
		},
	})
	if err != nil {
		return Laid{}, &NoLayoutError{err}
	}
	l := Laid{Task: t}
	l.Task.Stretches = nil
	if len(use.Rest.Problem.Pieces) > 0 {
		rest := use.Rest.Problem
		if use.Verdict == ShelfIdle {
			rest = t.Problem
		}
		if l, err = fresh(ctx, rest, nest.Options{Effort: o.Effort, Workers: o.Workers}); err != nil {
			return Laid{}, err
		}
		l.Task.Problem = t.Problem
	} else if l.Buy, err = t.buy(0); err != nil {
		return Laid{}, err
	}
	l.Shelf = &use
	l.LeastBuy = min(l.LeastBuy, t.leastBeside(strips, laid[t.Key()]))
	return l, nil
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

// leastBeside is never more than what is bought, however the shelf is used. If
// every leftover that takes a piece at all were filled, the rest of the area would
// have to be bought. And bought cloth with such leftovers behind it, the gap
// between them, is open cloth that the bound of everything holds for, as long as
// none is broader than it or freer of flaws; whole is everything laid on bought
// cloth, where that was laid.
func (t Task) leastBeside(strips []ShelfStrip, whole Laid) float64 {
	area, behind, bounded := t.Problem.LeastArea(), 0.0, t.Lay == nest.Open && len(whole.Results) == 1 && len(t.Problem.Strip.Forbidden) == 0
	for _, s := range strips {
		if t.useless(s) {
			continue
		}
		area -= s.Strip.Width * s.Strip.MaxLength
		behind += s.Strip.MaxLength + t.Problem.Gap
		bounded = bounded && s.Strip.Width <= t.Problem.Strip.Width
	}
	least := area / t.Problem.Strip.Width
	if bounded {
		least = max(least, whole.Results[0].Bound.Length-behind)
	}
	if least <= 0 {
		return 0
	}
	p, _ := t.buy(lossOf(t.Spread.Cloth).needed(least + 2*t.Spread.Cloth.Ends))
	return p.Bought
}

// useless says whether no piece of the task fits on a leftover.
func (t Task) useless(s ShelfStrip) bool {
	for _, piece := range t.Problem.Pieces {
		piece.Count = 1
		piece.Mirror = nest.Free // as much freedom as any copy has
		if (nest.Problem{Strip: s.Strip, Pieces: []nest.Piece{piece}}).Check() == nil {
			return false
		}
	}
	return true
}
