//go:build !unix

package processor

import "time"

// Time takes the clock for the processor time of this process.
func Time() time.Duration { return time.Since(began) }
