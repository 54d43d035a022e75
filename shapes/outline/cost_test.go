//go:build unix

package outline

import (
	"runtime"
	"syscall"
	"testing"
	"time"
)

// processorTime is that of this process, all its threads.
func processorTime(t testing.TB) time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		t.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// costs runs something and returns the processor time it took and the memory it
// asked for in all, which is more than it ever held at once.
func costs(t testing.TB, run func()) (time.Duration, uint64) {
	runtime.GC()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	start := processorTime(t)
	run()
	took := processorTime(t) - start
	runtime.ReadMemStats(&after)
	return took, after.TotalAlloc - before.TotalAlloc
}
