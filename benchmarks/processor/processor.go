// Package processor measures what work takes so that it can be held on any machine, busy ones too: in processor time,
// which what else runs takes nothing of, beside that of reference work at the same moment, since processors that others
// share are slower.
package processor

import (
	"slices"
	"strconv"
	"time"
)

// quiet is what the reference work takes where little else runs, on a core of 2.1 to 2.5 GHz as rented machines have
// them (measured on one).
const quiet = 8 * time.Millisecond

// Exceeds says whether work took more than a limit that is meant for a quiet core of 2.5 GHz. Where it did, reference
// work is done at once, and the limit grows as this takes longer than it would there; it never shrinks.
func Exceeds(took, limit time.Duration) bool {
	if took <= limit {
		return false
	}
	return float64(took) > float64(limit)*slowness()
}

// Least runs work and returns the processor time that it took, by the quickest of three runs where the first exceeds
// the limit: what others did meanwhile counts for as little as can be.
func Least(limit time.Duration, run func()) time.Duration {
	var least time.Duration
	for try := range 3 {
		began := Time()
		run()
		if took := Time() - began; try == 0 || took < least {
			least = took
		}
		if !Exceeds(least, limit) {
			break
		}
	}
	return least
}

// began is when this process did, for systems that do not tell its processor time.
var began = time.Now()

// slowness is how many times as long as on a quiet machine work takes now, 1 at least.
func slowness() float64 {
	began := Time()
	reference()
	return max(1, float64(Time()-began)/float64(quiet))
}

// reference is work of several kinds: numbers read and written, sorted and kept, as readers and searches do.
func reference() int {
	sum := 0
	for round := range 10 {
		numbers := make([]float64, 6000)
		for i := range numbers {
			numbers[i] = float64((i*7919+round)%10_007) / 16
		}
		slices.Sort(numbers)
		for _, x := range numbers {
			text := strconv.FormatFloat(x, 'f', -1, 64)
			y, err := strconv.ParseFloat(text, 64)
			if err == nil && y == x {
				sum += len(text)
			}
		}
	}
	return sum
}
