package live

import (
	"context"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/nest"
)

// goOn searches on from what the effort has found, for as long as it is let: in turn it begins
// anew with other seeds, where few pieces end in another basin, and goes on from the best with more
// work, which many pieces gain by.
func (k *Desk) goOn(ctx context.Context, l *laying) {
	capped, done := context.WithTimeout(ctx, k.options.Ceiling)
	defer done()
	for round := uint64(1); k.goesOn(capped, l); round++ {
		k.inTurn(capped, func(workers int) {
			o := k.watched(capped, l)
			o.Seed, o.Workers = o.Seed+round, workers
			var start *plan.Start
			if round%2 == 0 {
				o.Effort, start = nest.Thorough, l.task.OpenStart(k.bestOf(l))
			}
			if laid, err := plan.Do(capped, l.task, o, start); err == nil {
				k.found(capped, l, laid)
			}
		})
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	l.spent = l.spent || capped.Err() != nil && ctx.Err() == nil
}

// goesOn says whether there is more to look for.
func (k *Desk) goesOn(ctx context.Context, l *laying) bool {
	k.mu.Lock()
	defer k.mu.Unlock()
	return ctx.Err() == nil && l.found != nil && !l.over(k.onAndOn())
}

func (k *Desk) bestOf(l *laying) plan.Laid {
	k.mu.Lock()
	defer k.mu.Unlock()
	return *l.best
}
