package plan

import (
	"context"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/nest"
)

// FromShelf says whether a task can be cut from what lies on the shelf alone, and from what. Nothing is laid on
// bought cloth: a quick search either finds room on the shelf or does not, which is no proof that there is none.
func FromShelf(ctx context.Context, t Task, o Options) (use shelf.Use, enough bool, err error) {
	strips, room := t.leftovers(), 0.0
	for _, s := range strips {
		room += s.Strip.MaxLength*s.Strip.Width - s.NoCloth
	}
	if len(strips) == 0 || t.Problem.LeastArea() > room {
		return use, false, nil
	}
	use, err = shelf.ShareOut(ctx, t.Problem, strips, shelf.Options{
		Effort: nest.Quick, Seed: o.Seed, Workers: o.Workers, Keep: t.onShelf(),
		// What would be bought is not asked: its area stands for it.
		Fresh: func(_ context.Context, s shelf.Share, _ nest.Options) (float64, map[int]orb.Point, error) {
			return s.Problem.LeastArea() / t.Problem.Strip.Width, nil, nil
		},
	})
	return use, err == nil && use.Verdict == shelf.Enough, err
}
