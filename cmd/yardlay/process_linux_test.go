package main

import (
	"fmt"
	"os"
	"strconv"
	"strings"
	"syscall"
	"time"
)

// peakMemory is the most memory that a process has had, bytes.
func peakMemory(p *os.ProcessState) int64 {
	if usage, ok := p.SysUsage().(*syscall.Rusage); ok {
		return usage.Maxrss << 10
	}
	return 0
}

// processorTime is what a process has taken so far; negative when that is not known.
// Source: proc_pid_stat(5), fields 14 and 15, in ticks of 1/100 s.
func processorTime(pid int) time.Duration {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
	if err != nil {
		return -1
	}
	_, after, _ := strings.Cut(string(text), ") ") // the name may hold spaces
	fields := strings.Fields(after)
	user, _ := strconv.Atoi(fields[11])
	system, _ := strconv.Atoi(fields[12])
	return time.Duration(user+system) * 10 * time.Millisecond
}
