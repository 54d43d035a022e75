package plan

import (
	"context"
	"errors"
	"testing"
	"time"
)

// What cannot be cut short is waited for beyond the ceiling, and given up at an
// interrupt, also one that comes after the ceiling.
func TestInterruptsCountBeyondTheCeiling(t *testing.T) {
	ctx, interrupt := context.WithCancel(t.Context())
	capped, done := WithCeiling(ctx, time.Now().Add(time.Millisecond))
	defer done()
	if got, err := Unless(capped, func() (int, error) { time.Sleep(20 * time.Millisecond); return 7, nil }); got != 7 ||
		err != nil {
		t.Errorf("beyond the ceiling: %v, %v", got, err)
	}
	never := make(chan struct{})
	defer close(never)
	time.AfterFunc(20*time.Millisecond, interrupt)
	if _, err := Unless(capped, func() (int, error) { <-never; return 0, nil }); !errors.Is(err, ErrInterrupted) {
		t.Errorf("interrupted: %v", err)
	}
}

// Cancelled before it begins, nothing is done, however quick it would be.
func TestUnlessCancelledBefore(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for range 200 {
		if got, err := Unless(ctx, func() (int, error) { return 7, nil }); got != 0 || !errors.Is(err, ErrInterrupted) {
			t.Fatalf("got %d, %v", got, err)
		}
	}
}
