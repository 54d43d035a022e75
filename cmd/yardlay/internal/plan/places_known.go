package plan

import (
	"context"
	"sync"
)

// Weighed remembers what was laid to weigh places, for jobs that are alike in some of their cloths, such as the rows of
// a comparison. The zero value is ready, and may be shared by any number of goroutines.
type Weighed struct {
	mu   sync.Mutex
	laid map[string]Laid
}

// lay lays a task, or returns what is remembered by a key, as it is bought there. What is cut short is not remembered.
func (w *Weighed) lay(ctx context.Context, key string, t Task, o Options) (Laid, error) {
	w.mu.Lock()
	l, ok := w.laid[key]
	w.mu.Unlock()
	if ok {
		l.Task.Spread.Cloth = t.Spread.Cloth
		var err error
		l.Buy, err = l.Task.buy(l.Needed)
		return l, err
	}
	l, err := Do(ctx, t, o, nil)
	if err != nil || ctx.Err() != nil {
		return l, err
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.laid == nil {
		w.laid = map[string]Laid{}
	}
	w.laid[key] = l
	return l, nil
}

// unpriced returns the task at a price that is the same for all of which a length costs so much for each yard or metre,
// however long it is: how it is laid does not hang on that.
func (t Task) unpriced() Task {
	if o := &t.Spread.Cloth.Offer; t.onOneLength() && o.ByLength() && len(o.Sizes())+len(o.Breaks) == 0 {
		o.Price.Minor = 1
	}
	return t
}
