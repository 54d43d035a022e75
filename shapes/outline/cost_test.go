package outline

import (
	"runtime"
	"testing"
	"time"

	"yardlay/benchmarks/processor"
)

// staysWithin runs something, again where that takes more processor time than the limit, and says what it took. More
// than limit and than so many bytes asked for in all, which is more than it ever held at once, is an error.
func staysWithin(t *testing.T, limit time.Duration, bytes uint64, run func()) {
	t.Helper()
	var before, after runtime.MemStats
	runs := uint64(0)
	runtime.ReadMemStats(&before)
	took := processor.Least(limit, func() { runs++; run() })
	runtime.ReadMemStats(&after)
	asked := (after.TotalAlloc - before.TotalAlloc) / runs
	t.Logf("%v, %d MB in all", took, asked>>20)
	if processor.Exceeds(took, limit) || asked > bytes {
		t.Errorf("it took %v and %d MB, %v and %d MB are the most", took, asked>>20, limit, bytes>>20)
	}
}
