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

// withShelf lays a task with what is on the shelf, as far as that saves cloth.
func (t Task) withShelf(ctx context.Context, strips []ShelfStrip, o Options, start *Start) (Laid, error) {
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
	use, err := UseShelf(ctx, t.Problem, strips, ShelfOptions{
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
	l.LeastBuy = min(l.LeastBuy, t.leastBeside(strips))
	return l, nil
}

// of returns the task of other pieces on the same cloth.
func (t Task) of(p nest.Problem) (Task, error) {
	var err error
	t.Problem = p
	t.Stretches, err = t.Spread.fold(p)
	return t, err
}

// leastBeside is never more than what is bought, however the shelf is used: for
// the area that would be left if every leftover that takes a piece at all were
// filled.
func (t Task) leastBeside(strips []ShelfStrip) float64 {
	area := t.Problem.Area()
	for _, s := range strips {
		for _, piece := range t.Problem.Pieces {
			piece.Count, piece.Mirror = 1, nest.Free // as much freedom as any copy has
			if (nest.Problem{Strip: s.Strip, Pieces: []nest.Piece{piece}}).Check() == nil {
				area -= s.Strip.Width * s.Strip.MaxLength
				break
			}
		}
	}
	if area <= 0 {
		return 0
	}
	p, _ := t.buy(lossOf(t.Spread.Cloth).needed(area/t.Problem.Strip.Width + 2*t.Spread.Cloth.Ends))
	return p.Bought
}
