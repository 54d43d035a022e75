package testjobs

import "os"

// Jobs is how many jobs a test lays: few by default, many with YARDLAY_LONG=1, which
// .ci/run sets.
func Jobs(few, many int) int {
	if os.Getenv("YARDLAY_LONG") != "" {
		return many
	}
	return few
}
