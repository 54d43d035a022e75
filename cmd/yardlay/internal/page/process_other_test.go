//go:build !linux

package page

import "time"

// spent takes the processor time for that on the clock.
func spent() time.Duration { return time.Since(began) }

var began = time.Now()

// peak is not told here.
func peak() float64 { return 0 }
