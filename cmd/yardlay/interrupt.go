package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
	"time"

	"yardlay/cmd/yardlay/internal/folder"
)

// interruptible returns a context that the first interrupt cancels: what there is
// by then is kept. A second one ends the program at once, though not while files
// change places, which takes an instant.
func interruptible() (ctx context.Context, release func()) {
	ctx, cancel := context.WithCancel(context.Background())
	signals := make(chan os.Signal, 2)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM)
	// A closed pipe is told to who writes to it and ends nothing half done.
	signal.Ignore(syscall.SIGPIPE)
	over := make(chan struct{})
	go func() {
		for n := 0; ; n++ {
			select {
			case <-signals:
			case <-over:
				return
			}
			if n > 0 {
				folder.Await(200 * time.Millisecond)
				os.Exit(exitFailed)
			}
			cancel()
		}
	}()
	return ctx, func() {
		signal.Stop(signals)
		close(over)
		cancel()
	}
}
