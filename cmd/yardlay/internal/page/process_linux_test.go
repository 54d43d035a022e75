package page

import (
	"fmt"
	"os"
	"strings"
	"syscall"
	"time"
)

// spent is the processor time of this process so far (getrusage(2)), which does not depend on what else the machine
// does.
func spent() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// peak is the most memory that this process has had, MB (proc_pid_status(5), VmHWM).
func peak() (mb float64) {
	text, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return 0
	}
	_, after, _ := strings.Cut(string(text), "VmHWM:")
	fmt.Sscan(after, &mb)
	return mb / 1024
}
