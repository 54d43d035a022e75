//go:build unix

package processor

import (
	"syscall"
	"time"
)

// Time is the processor time that this process has taken so far, in all its threads (getrusage(2)).
func Time() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return time.Since(began)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
