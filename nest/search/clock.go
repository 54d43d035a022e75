package search

import (
	"context"
	"sync/atomic"
	"time"
)

// clock says when a run is to end. A cancelled context, or time that is all but up,
// halts it: it finishes the best layout it has. That has an end of its own, after
// which the last layout that the judge has passed counts.
type clock struct {
	halted atomic.Bool // the search is over
	late   atomic.Bool // and so is what comes after it
	ending atomic.Bool // the search is over by itself, the best layout is brought before the judge
	timed  atomic.Bool // it was time that halted it

	end     time.Time // of all; zero: none
	reserve *time.Timer
	onHalt  atomic.Pointer[func()]
	undo    []func() bool
}

// grace is how long finishing may take once the run is cancelled. With what it
// takes to notice, an answer comes within 0.3 s.
const grace = 100 * time.Millisecond

// leastReserve is kept of a ceiling for finishing until it is known what that takes.
const leastReserve = 20 * time.Millisecond

func newClock(ctx context.Context) *clock {
	end, limited := ctx.Deadline()
	k := &clock{end: end}
	k.undo = append(k.undo, context.AfterFunc(ctx, func() {
		k.halt()
		time.AfterFunc(grace, func() { k.late.Store(true) })
	}))
	if ctx.Err() != nil {
		k.halted.Store(true) // at once, not when the function above comes to run
	}
	if limited {
		left := time.Until(end)
		k.reserve = time.AfterFunc(left-min(leastReserve, left/4), k.timeUp)
		k.undo = append(k.undo, k.reserve.Stop, time.AfterFunc(left, func() { k.late.Store(true) }).Stop)
		if left <= 0 {
			k.timeUp()
			k.late.Store(true)
		}
	}
	return k
}

func (k *clock) timeUp() {
	k.timed.Store(true)
	k.halt()
}

func (k *clock) halt() {
	k.halted.Store(true)
	if f := k.onHalt.Load(); f != nil {
		(*f)()
	}
}

// whenHalted calls f once halted, or now if it is.
func (k *clock) whenHalted(f func()) {
	k.onHalt.Store(&f)
	if k.halted.Load() {
		f()
	}
}

// keepBack makes the search end early enough for a layout to be finished, which
// took so long for another, a few times over.
func (k *clock) keepBack(took time.Duration) {
	if k.end.IsZero() {
		return
	}
	left := time.Until(k.end)
	k.reserve.Reset(left - min(max(leastReserve, 3*took), left/4))
}

// over says whether the search is to end.
func (k *clock) over() bool { return k.halted.Load() }

// tooLate says whether what goes on must end: the search, or, after it, finishing.
func (k *clock) tooLate() bool {
	if k.ending.Load() {
		return k.late.Load()
	}
	return k.halted.Load()
}

func (k *clock) stop() {
	for _, undo := range k.undo {
		undo()
	}
}
