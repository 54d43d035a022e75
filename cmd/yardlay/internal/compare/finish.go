package compare

import (
	"context"
	"slices"

	"yardlay/cmd/yardlay/internal/plan"
)

// finish searches to its end what the row that costs least is cut from, where that was
// laid as rows are compared, with less work and left off when nothing more could be
// hoped for: its markers are those that are cut, and come out as they do when the row is
// laid by itself.
func (r *Result) finish(ctx context.Context, l *layer) error {
	best := r.least()
	if best == nil || ctx.Err() != nil {
		return nil
	}
	var open []*lot
	for _, one := range best.lots {
		if one.unfinished() {
			open = append(open, one)
		}
	}
	var better []*lot
	l.each(ctx, open, func(within context.Context, one *lot, o plan.Options) {
		o.Compare = false
		laid, err := plan.Do(within, one.task, o, nil)
		if err != nil || within.Err() != nil || one.laid.Buy.Precedes(laid.Buy) {
			return
		}
		l.telling.Lock()
		defer l.telling.Unlock()
		one.laid, one.compared, better = laid, false, append(better, one)
	})
	if len(better) == 0 {
		return nil
	}
	changed := func(w *Row) bool {
		return slices.ContainsFunc(w.lots, func(one *lot) bool { return slices.Contains(better, one) })
	}
	if err := r.fill(l.options, changed); err != nil {
		return err
	}
	r.price(ctx, l.options)
	return nil
}

// unfinished says whether a search of a lot's own by itself would go on.
func (l *lot) unfinished() bool {
	return l.compared && l.other == nil && !l.laid.Proved()
}
