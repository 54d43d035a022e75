package nest

import (
	"fmt"

	"yardlay/nest/search"
)

// Effort says how much work Solve may do. Work is counted in evaluations of
// places, not in seconds, so that a slow machine finds the same layout.
type Effort uint8

const (
	Normal   Effort = iota // a second or two a cloth, half a minute where less might yet be bought
	Quick                  // a fraction of that: for trying things out
	Thorough               // minutes: before buying dear cloth
	Endless                // until Options.Time or the context ends it
	Trial                  // a layout that stands, with the bounds of area and longest piece alone
)

var effortNames = [...]string{"normal", "quick", "thorough", "endless", "trial"}

// String returns the effort's name as ParseEffort takes it.
func (e Effort) String() string { return effortNames[e] }

// ParseEffort reads "quick", "normal" or "thorough".
func ParseEffort(s string) (Effort, error) {
	for _, e := range []Effort{Quick, Normal, Thorough} {
		if e.String() == s {
			return e, nil
		}
	}
	return 0, fmt.Errorf("unknown effort %q: quick, normal or thorough", s)
}

// Work returns the evaluations for each lane of the search; 0 means no limit.
// A lane makes six to fifteen million a second.
func (e Effort) Work() int64 {
	switch e {
	case Quick:
		return 3 << 20
	case Thorough:
		return thorough * Normal.Work()
	case Endless:
		return 0
	case Trial:
		return 1 << 17
	}
	return 16 << 20
}

// growth returns what the work may grow to: normal work only, quick work is asked for by
// what it takes, thorough work begins as normal work does.
func (e Effort) growth() search.Growth {
	if e != Normal && e != Thorough {
		return search.Growth{}
	}
	return search.Growth{Most: 8 * Normal.Work()}
}

// thorough is how many times the work of normal effort thorough effort does. It does all that
// normal effort does, and goes on from there, so that it never ends longer.
const thorough = 32

// Grows says whether Solve does more than the effort's work where the layout that this finds has
// a length, mm.
func (o Options) Grows(length float64) bool {
	return o.growth().Pays(length) && o.growth().Most > o.work()
}
