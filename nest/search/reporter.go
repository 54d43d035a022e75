package search

import (
	"sync"
	"time"
)

// Progress says how a search stands.
type Progress struct {
	Phase  string  // what it does now
	Length float64 // of the best layout, mm; 0: there is none yet
	Done   float64 // share of the phase's work, or of the budget, 0 to 1
	Laid   int     // items of the first layout that have their place
}

// Phases of a run. "preparing" and "first layout" count their own share, the others
// that of the budget.
const (
	Preparing   = "preparing"
	FirstLayout = "first layout"
)

// reportEvery is the time between two reports while nothing new comes up.
const reportEvery = 150 * time.Millisecond

// reporter passes on how a search stands, a few times a second, from one goroutine at
// a time.
type reporter struct {
	mu     sync.Mutex
	report func(Progress)
	now    Progress
	last   time.Time
	done   chan struct{}
}

// newReporter begins to report; with nil there is nobody to report to.
func newReporter(report func(Progress)) *reporter {
	r := &reporter{report: report, done: make(chan struct{})}
	if report == nil {
		return r
	}
	r.reportNow(Progress{Phase: Preparing})
	go func() {
		ticks := time.NewTicker(reportEvery)
		defer ticks.Stop()
		for {
			select {
			case <-r.done:
				return
			case <-ticks.C:
				r.mu.Lock()
				if time.Since(r.last) >= reportEvery*9/10 && !r.ended() {
					r.pass()
				}
				r.mu.Unlock()
			}
		}
	}()
	return r
}

func (r *reporter) ended() bool {
	select {
	case <-r.done:
		return true
	default:
		return false
	}
}

func (r *reporter) pass() {
	r.last = time.Now()
	r.report(r.now)
}

// update keeps how the search stands for the next report; a new phase is reported at once.
func (r *reporter) update(p Progress) {
	if r.report == nil {
		return
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	fresh := p.Phase != r.now.Phase
	if r.now = p; fresh {
		r.pass()
	}
}

// reportNow reports at once.
func (r *reporter) reportNow(p Progress) {
	if r.report == nil {
		return
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.now = p
	r.pass()
}

// end ends the reports: there is none after it has returned.
func (r *reporter) end() {
	r.mu.Lock()
	close(r.done)
	r.mu.Unlock()
}
