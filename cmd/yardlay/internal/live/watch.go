package live

import (
	"context"
	"time"

	"yardlay/cmd/yardlay/internal/plan"
)

// Await returns the first snapshot of a version after the given one. While it waits somebody watches.
// Errors are those of the context, and ErrClosed.
func (k *Desk) Await(ctx context.Context, after int) (Snapshot, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.watching++
	defer func() {
		k.watching--
		k.seen = time.Now()
	}()
	for {
		if k.closed {
			return Snapshot{}, ErrClosed
		}
		k.attend()
		if k.version > after {
			return k.snapshot(), nil
		}
		next := k.changed
		k.mu.Unlock()
		select {
		case <-next:
		case <-ctx.Done():
		}
		k.mu.Lock()
		if k.version <= after && ctx.Err() != nil {
			return Snapshot{}, ctx.Err()
		}
	}
}

// Watch counts somebody who looks, between asking too, until they leave: what is searched for goes on for them.
func (k *Desk) Watch() (leave func()) {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.attend()
	k.watching++
	return func() {
		k.mu.Lock()
		defer k.mu.Unlock()
		k.watching--
		k.seen = time.Now()
	}
}

// attend notes that somebody asks, and goes on with what was ended because nobody did.
func (k *Desk) attend() {
	k.seen = time.Now()
	if k.paused && !k.closed {
		k.paused = false
		k.begin()
		k.change()
		k.idle.Reset(k.options.Idle)
	}
}

// Rests says whether searches were ended because nobody has asked for long enough. Asking for that is
// no asking.
func (k *Desk) Rests() bool {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.paused
}

// lookAround ends all searches when nobody has asked for long enough.
func (k *Desk) lookAround() {
	k.mu.Lock()
	defer k.mu.Unlock()
	left := k.options.Idle - time.Since(k.seen)
	switch {
	case k.closed:
	case k.watching > 0:
		k.idle.Reset(k.options.Idle)
	case left > 0:
		k.idle.Reset(left)
	default:
		k.paused = true
		for _, l := range k.kept {
			l.end()
		}
		k.change()
	}
}

// tellEvery is the time between two versions that tell of progress alone.
const tellEvery = 500 * time.Millisecond

// progress notes how a search goes.
func (k *Desk) progress(l *laying, p plan.Progress) {
	k.mu.Lock()
	defer k.mu.Unlock()
	l.now = p
	if time.Since(k.told) >= tellEvery {
		k.told = time.Now()
		k.change()
	}
}
