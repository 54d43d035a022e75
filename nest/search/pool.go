package search

import (
	"math/rand/v2"
	"sync"
	"sync/atomic"
)

// lanesInPool is the fixed number of lanes. It does not follow the number of
// workers: the same lanes run on one worker or two, so the bytes agree.
const lanesInPool = 2

// meetEvery is the number of evaluations between two meetings of the lanes: a
// tenth of a second or so.
const meetEvery = 1 << 20

// lanePool holds the lanes together: it hands out the right to run, lets them meet
// after equal work to share the best layout, and keeps the budget.
type lanePool struct {
	tokens chan struct{} // one for each worker
	halt   atomic.Bool   // cancelled or out of time

	before int64 // evaluations of each lane in pools before this one

	budget                             // without one: until halted
	share   func() float64             // of the time that there is, used so far; 0 without a ceiling
	prove   func()                     // finds the bound, once, with all lanes at rest
	inVain  func() bool                // waits for the bound: whether the first layout needs no search; may be nil
	reached func(best *placement) bool // whether nothing shorter is worth looking for

	hopeless func(length, done float64) bool // whether going on is not; may be nil
	report   func(best *placement, done float64, phase string)

	mu      sync.Mutex
	turn    sync.Cond // on mu
	lanes   []*lane
	active  int
	waiting int
	round   int
	first   *placement   // to begin from
	search  int          // how often they began anew
	shared  *placement   // the best of the present search
	best    *placement   // of all
	earlier []*placement // the last few that were the best before, shortest last
	done    float64      // share of the budget used, 0 to 1
	gaveUp  bool         // going on was found hopeless
	over    atomic.Bool

	needless atomic.Bool // the first layout was found to need no search
}

// newLane returns lane number k of the pool, at the first layout.
func (c *lanePool) newLane(in *instance, seed uint64, k int) *lane {
	l := newLane(in, seed, k)
	if c.before > 0 {
		l.rng = rand.New(rand.NewPCG(seed, uint64(lanesInPool+k)+1)) // not what lanes before did once more
	}
	l.pool, l.best, l.rate, l.nextMeet = c, c.first, boldest, meetEvery
	l.leaps.stride = firstLeap
	if c.work > 0 {
		l.nextMeet = min(meetEvery, c.work) // the budget is looked at when lanes meet
	}
	return l
}

func (c *lanePool) evaluations() (sum int64) {
	for _, l := range c.lanes {
		sum += l.evals
	}
	return sum
}

func (c *lanePool) stopped() bool { return c.halt.Load() || c.over.Load() }

// meet returns at once unless the lane has done its share of work; then it
// waits for the others, and all go on with the best layout known.
func (c *lanePool) meet(l *lane) {
	if l.evals < l.nextMeet || c.stopped() {
		return
	}
	l.nextMeet += meetEvery
	c.tokens <- struct{}{}
	c.mu.Lock()
	c.waiting++
	if c.waiting == c.active {
		c.exchange()
	} else {
		round := c.round
		for round == c.round && !c.halt.Load() {
			c.turn.Wait()
		}
		if round == c.round {
			c.waiting--
		}
	}
	c.mu.Unlock()
	<-c.tokens
}

// leave is called by a lane that ends.
func (c *lanePool) leave() {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.active--
	if c.active > 0 && c.waiting == c.active && !c.halt.Load() {
		c.exchange()
	}
}

// mostEarlier bounds how many earlier layouts are kept for the case that the best
// cannot be brought onto the lattice. Before nudge knew what it does now, two in a
// row could not, now and then, with two lots of shirts.
const mostEarlier = 8

// improve takes over a layout shorter than the best.
func (c *lanePool) improve(p *placement) {
	if c.earlier = append(c.earlier, c.best); len(c.earlier) > mostEarlier {
		c.earlier = c.earlier[1:]
	}
	c.best = p.clone()
}

// exchange runs with all lanes at rest.
func (c *lanePool) exchange() {
	c.waiting = 0
	c.round++
	better := c.round == 1
	if better {
		c.prove()
		c.endInVain()
	}
	better = c.gather() || better
	c.done = 0
	if c.work > 0 {
		evals := c.lanes[0].nextMeet - meetEvery
		switch c.met(evals, c.shared.length, c.best.length) {
		case beginAnew:
			c.search++
			c.shared = c.first
		case conclude:
			c.shared = c.best
		}
		c.done = c.used(evals)
	} else {
		c.done = c.share()
	}
	ended := c.done >= 1 || better && c.reached(c.best)
	c.gaveUp = !ended && c.work > 0 && c.hopeless != nil && c.hopeless(c.best.length, c.done)
	if ended || c.gaveUp {
		c.done = 1
		c.over.Store(true)
	}
	c.report(c.best, c.done, c.phase().String())
	c.turn.Broadcast()
}

// gather takes over what the lanes found, and says whether that is better than
// anything before.
func (c *lanePool) gather() (better bool) {
	for _, l := range c.lanes {
		if l.search == c.search && l.best.length < c.shared.length {
			c.shared = l.best.clone()
		}
		for _, p := range []*placement{l.aside, l.best} {
			if p != nil && p.length < c.best.length {
				c.improve(p)
				better = true
			}
		}
	}
	return better
}

// phase is what the lanes do now.
type phase uint8

const (
	exploring phase = iota
	compressing
)

func (p phase) String() string { return [...]string{"exploring", "compressing"}[p] }

func (c *lanePool) phase() phase {
	if c.done < exploreShare {
		return exploring
	}
	return compressing
}

// run starts the lanes and returns when all have ended.
func (c *lanePool) run(workers int) {
	c.active = len(c.lanes)
	c.tokens = make(chan struct{}, len(c.lanes))
	for range min(workers, len(c.lanes)) {
		c.tokens <- struct{}{}
	}
	var all sync.WaitGroup
	for _, l := range c.lanes {
		all.Go(func() {
			<-c.tokens
			l.run()
			c.tokens <- struct{}{}
			c.leave()
		})
	}
	all.Wait()
	c.mu.Lock()
	defer c.mu.Unlock()
	c.over.Store(false)
	c.gather()
}

// endInVain ends the lanes where the first layout needs no search, as soon as the bound is known: whatever they
// would find until they meet is not asked for.
func (c *lanePool) endInVain() {
	if c.inVain != nil && c.inVain() {
		c.needless.Store(true)
		c.over.Store(true)
	}
}

// stop makes every lane end soon: at cancellation, or when time is up.
func (c *lanePool) stop() {
	c.halt.Store(true)
	c.mu.Lock()
	c.turn.Broadcast()
	c.mu.Unlock()
}
