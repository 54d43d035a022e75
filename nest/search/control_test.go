package search

import (
	"sync"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// TestGrowthKeepsItsLimits: a budget grows by doubling, to its limit and no further, never
// shrinks, and comes to its end: each step of work is asked about once.
func TestGrowthKeepsItsLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		work := int64(rapid.IntRange(4, 40).Draw(t, "work"))
		most := int64(rapid.IntRange(1, 400).Draw(t, "most"))
		cheaper := rapid.Float64Range(0, 0.2).Draw(t, "cheaper from")
		b := budget{work: work, grow: Growth{Most: most,
			Cheaper: func(_, share float64) bool { return share >= cheaper }}}
		length, concluded := 1000.0, false
		for evals := int64(1); b.used(evals) < 1; evals++ {
			if evals > 2*(work+most) {
				t.Fatal("no end")
			}
			length -= rapid.Float64Range(0, 3).Draw(t, "gain")
			before, explored := b.work, b.used(evals) >= exploreShare
			next := b.met(evals, length, length)
			grew := b.work > before
			switch {
			case b.work < before || b.work > max(work, most) || grew && b.work != min(2*before, most):
				t.Fatalf("from %d to %d, at most %d", before, b.work, most)
			case grew && (!explored || cheaper > withinReach):
				t.Fatalf("it grows after %d of %d", evals, before)
			case next == conclude && !explored || next == conclude && grew:
				t.Fatal("it concludes while it explores")
			case next == beginAnew && (!grew || len(b.lengths) > 0):
				t.Fatal("it begins anew without more work")
			case concluded && next != conclude:
				t.Fatalf("after it concluded: %v", next)
			}
			concluded = next == conclude
		}
		if limit := max(work, most); cheaper <= withinReach && b.work != limit {
			t.Fatalf("%d in the end, it might be %d", b.work, limit)
		}
	})
}

// TestReporter: a new phase is told at once, what follows in it waits for the tick, and the
// last of it is what is told then; nothing comes after the end, and nobody need listen.
func TestReporter(t *testing.T) {
	var mu sync.Mutex
	var all []Progress
	count := func() int {
		mu.Lock()
		defer mu.Unlock()
		return len(all)
	}
	r := newReporter(func(p Progress) {
		mu.Lock()
		defer mu.Unlock()
		all = append(all, p)
	})
	if count() != 1 || all[0].Phase != Preparing {
		t.Fatalf("at first %v", all)
	}
	r.update(Progress{Phase: FirstLayout, Laid: 1})
	told, began := count(), time.Now()
	if all[told-1].Laid != 1 {
		t.Error("a new phase waits")
	}
	for laid := 2; laid < 9; laid++ {
		r.update(Progress{Phase: FirstLayout, Laid: laid})
	}
	if now := count(); now > told+2+int(time.Since(began)/reportEvery) { // ticks may have come in between
		t.Errorf("%d reports of one phase at once", now-told)
	}
	for end := time.Now().Add(5 * time.Minute); time.Now().Before(end); time.Sleep(5 * time.Millisecond) {
		if mu.Lock(); all[len(all)-1].Laid == 8 {
			mu.Unlock()
			break
		}
		mu.Unlock()
	}
	mu.Lock()
	if last := all[len(all)-1]; last.Laid != 8 {
		t.Errorf("the last one told is %+v", last)
	}
	mu.Unlock()
	told = count()
	r.reportNow(Progress{Phase: FirstLayout, Laid: 8, Length: 7})
	if count() < told+1 {
		t.Error("what is to be told now waits")
	}
	r.end()
	told = count()
	time.Sleep(2 * reportEvery)
	if count() != told {
		t.Error("told after the end")
	}
	quiet := newReporter(nil)
	quiet.update(Progress{})
	quiet.reportNow(Progress{})
	quiet.end()
}

// TestClockKeepsBack: a search ends before its ceiling by as much as finishing takes, some
// times over, and by no more than a quarter of what is left.
func TestClockKeepsBack(t *testing.T) {
	k := &clock{end: time.Now().Add(400 * time.Millisecond)}
	k.reserve = time.AfterFunc(time.Hour, k.timeUp)
	defer k.reserve.Stop()
	k.keepBack(30 * time.Millisecond) // three times that, 90, or a quarter of what is left
	left := time.Until(k.end)
	for ; !k.over() && left > -5*time.Second; left = time.Until(k.end) {
		time.Sleep(time.Millisecond)
	}
	if left > 91*time.Millisecond || !k.over() {
		t.Errorf("over %v: %v of 400 ms are left", k.over(), left)
	}
	if !k.timed.Load() {
		t.Error("it was not time that ended it")
	}
	endless := &clock{}
	endless.keepBack(time.Hour)
	if endless.over() {
		t.Error("over without a ceiling")
	}
}

// TestLanesMeet: lanes that run side by side go on from the shortest layout of all, whichever
// found it, and end together.
func TestLanesMeet(t *testing.T) {
	at := func(length float64) *placement { return &placement{length: length} }
	reports := 0
	c := &lanePool{budget: budget{work: 3 * meetEvery}, first: at(100), shared: at(100), best: at(100)}
	c.turn.L = &c.mu
	c.prove = func() {}
	c.reached = func(best *placement) bool { return best.length <= 50 }
	c.report = func(*placement, float64, string) { reports++ }
	c.tokens = make(chan struct{}, 2)
	c.tokens <- struct{}{}
	c.tokens <- struct{}{}
	for k := range 2 {
		c.lanes = append(c.lanes, &lane{number: k, pool: c, best: at(100), nextMeet: meetEvery, instance: &instance{}})
	}
	c.active = 2
	var all sync.WaitGroup
	for k, l := range c.lanes {
		all.Go(func() {
			<-c.tokens
			for round := range 3 {
				if c.stopped() {
					break
				}
				l.evals += meetEvery
				if k == round%2 {
					l.best = at(l.best.length - 10)
				}
				c.meet(l)
				l.adopt()
			}
			c.tokens <- struct{}{}
			c.leave()
		})
	}
	all.Wait()
	for _, l := range c.lanes {
		if l.best.length != 70 {
			t.Errorf("lane %d ends at %v mm, want 70", l.number, l.best.length)
		}
	}
	if reports != 3 || !c.over.Load() || c.best.length != 70 || c.done != 1 {
		t.Errorf("%d meetings, over %v, %v mm, %v done", reports, c.over.Load(), c.best.length, c.done)
	}
}
