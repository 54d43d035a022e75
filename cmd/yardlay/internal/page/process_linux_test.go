package page

import (
	"fmt"
	"os"
	"strings"
)

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
