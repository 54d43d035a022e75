package plan

import (
	"context"
	"errors"
	"time"

	"yardlay/nest"
)

// A deadline of the context is the ceiling on a run; a cancellation is the wish to
// end it now. Both keep the best layouts so far.

// ErrInterrupted is that of a run that was cancelled while there was nothing yet
// to keep.
var ErrInterrupted = errors.New("interrupted before there was anything to keep")

// uncapped is the key of the context that a ceiling was put on.
type uncapped struct{}

// WithCeiling returns a context that ends at a moment and still knows when the run
// is interrupted after that.
func WithCeiling(ctx context.Context, end time.Time) (context.Context, context.CancelFunc) {
	return context.WithDeadline(context.WithValue(ctx, uncapped{}, ctx), end)
}

// Lapsed returns a context for what is still to be laid of several jobs when the run was interrupted and some are laid:
// as if its time were up, what is drawn is waited for.
func Lapsed(ctx context.Context) (context.Context, context.CancelFunc) {
	return WithCeiling(context.WithoutCancel(ctx), time.Now())
}

// InTurn returns a context for the first of so many parts that follow each other
// and share what time is left alike.
func InTurn(ctx context.Context, parts int) (context.Context, context.CancelFunc) {
	return within(ctx, 1/float64(max(parts, 1)))
}

// within returns a context for a part, 0 to 1, of the time that is left.
func within(ctx context.Context, part float64) (context.Context, context.CancelFunc) {
	end, ok := ctx.Deadline()
	if !ok || part >= 1 {
		return ctx, func() {}
	}
	return context.WithTimeout(ctx, time.Duration(float64(time.Until(end))*part))
}

// Unless does what cannot be cut short, and leaves it to itself when the context is
// cancelled meanwhile: then the error is ErrInterrupted. A deadline is waited
// beyond, since there is nothing to keep without what is done.
func Unless[T any](ctx context.Context, do func() (T, error)) (T, error) {
	type result struct {
		found T
		err   error
	}
	var none T
	if whole, ok := ctx.Value(uncapped{}).(context.Context); ok {
		ctx = whole
	}
	if errors.Is(ctx.Err(), context.Canceled) {
		return none, ErrInterrupted
	}
	done := make(chan result, 1)
	go func() {
		found, err := do()
		done <- result{found, err}
	}()
	interrupted := ctx.Done()
	for {
		select {
		case r := <-done:
			return r.found, r.err
		case <-interrupted:
			if errors.Is(ctx.Err(), context.Canceled) {
				return none, ErrInterrupted
			}
			interrupted = nil
		}
	}
}

// cutShort says whether the search for any of the layouts was ended early.
func (l Laid) cutShort() bool {
	for _, r := range l.Results {
		if r.Status == nest.Stopped || r.Status == nest.OutOfTime {
			return true
		}
	}
	return l.Lengths != nil && l.Lengths.Ended != nest.Finished
}
