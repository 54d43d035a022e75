package search

import (
	"sync"
	"time"
)

// Progress tells how a run stands.
type Progress struct {
	Phase  string  // what it does now
	Length float64 // of the best layout, mm; 0: there is none yet
	Done   float64 // share of the phase's work, or of the budget, 0 to 1
	Laid   int     // items of the first layout that have their place
}

// Phases of a run. "preparing" and "first layout" tell their own share, the others
// that of the budget.
const (
	Preparing   = "preparing"
	FirstLayout = "first layout"
)

// tellEvery is the time between two words while nothing new comes up.
const tellEvery = 150 * time.Millisecond

// teller passes on how a run stands, a few times a second, from one goroutine at
// a time.
type teller struct {
	mu   sync.Mutex
	tell func(Progress)
	now  Progress
	last time.Time
	done chan struct{}
}

// newTeller begins to tell; nil tells nobody.
func newTeller(tell func(Progress)) *teller {
	t := &teller{tell: tell, done: make(chan struct{})}
	if tell == nil {
		return t
	}
	t.say(Progress{Phase: Preparing})
	go func() {
		ticks := time.NewTicker(tellEvery)
		defer ticks.Stop()
		for {
			select {
			case <-t.done:
				return
			case <-ticks.C:
				t.mu.Lock()
				if time.Since(t.last) >= tellEvery*9/10 && !t.ended() {
					t.pass()
				}
				t.mu.Unlock()
			}
		}
	}()
	return t
}

func (t *teller) ended() bool {
	select {
	case <-t.done:
		return true
	default:
		return false
	}
}

func (t *teller) pass() {
	t.last = time.Now()
	t.tell(t.now)
}

// note keeps how the run stands for the next word; a new phase is told at once.
func (t *teller) note(p Progress) {
	if t.tell == nil {
		return
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	fresh := p.Phase != t.now.Phase
	if t.now = p; fresh {
		t.pass()
	}
}

// say tells at once.
func (t *teller) say(p Progress) {
	if t.tell == nil {
		return
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	t.now = p
	t.pass()
}

// end ends the telling: nothing is told after it has returned.
func (t *teller) end() {
	t.mu.Lock()
	close(t.done)
	t.mu.Unlock()
}
