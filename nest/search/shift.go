package search

import (
	"math"

	"github.com/paulmach/orb"
)

// Sample counts for a move of a whole group.
const (
	phasesTried = 6 // at random, for each group and sweep
	shiftSteps  = 6 // bounds the walk that follows
)

// shiftShare is the part of all work that moves of whole groups may take: one of
// many members costs as much as a sweep over all items.
const shiftShare = 0.3

// sweepGroups moves every group that overlaps something as a whole, once.
func (l *lane) sweepGroups() {
	for g := range l.groups {
		if l.groups[g].Given || float64(l.shifted) > shiftShare*float64(l.evals) {
			continue
		}
		before := l.evals
		for _, i := range l.groups[g].members {
			if l.overlaps(i) {
				l.shift(g)
				l.shifted += l.evals - before
				l.pool.meet(l)
				break
			}
		}
		if l.pool.stopped() {
			return
		}
	}
}

// shift looks for the cheapest phase of a group, every member keeping its place on
// the repeat as far as the strip goes, and moves it there: from the present phase
// and from the best of some at random, along the ways out of its overlaps.
func (l *lane) shift(g int) {
	now := l.groupLoss(g, l.at.phase[g], math.Inf(1))
	if now == 0 {
		return
	}
	best, least := l.at.phase[g], now
	from, loss := best, math.Inf(1)
	for range phasesTried {
		phase := l.anyPhase(g)
		if v := l.groupLoss(g, phase, loss); v < loss {
			from, loss = phase, v
		}
	}
	for _, start := range []orb.Point{best, from} {
		if phase, v := l.walk(g, start); v < least {
			best, least = phase, v
		}
	}
	if least < now {
		l.rephaseTo(g, best)
	}
}

// walk goes from a phase along the deepest overlaps of the group, for as long as
// it gets cheaper.
func (l *lane) walk(g int, phase orb.Point) (orb.Point, float64) {
	least := l.groupLoss(g, phase, math.Inf(1))
	for range shiftSteps {
		next, v := phase, least
		for _, c := range l.groupContacts(g, phase) {
			for _, d := range [3]orb.Point{{c.nx * c.depth, c.ny * c.depth}, {c.depth / c.nx, 0}, {0, c.depth / c.ny}} {
				at := orb.Point{phase[0] + d[0], phase[1] + d[1]}
				if !l.canMove(d) {
					continue
				}
				if w := l.groupLoss(g, at, v); w < v {
					next, v = at, w
				}
			}
		}
		if v >= least {
			break
		}
		phase, least = next, v
	}
	return phase, least
}

// canMove says whether a group can move so far: by less than a repeat, and not on
// an axis without one.
func (l *lane) canMove(d orb.Point) bool {
	for axis, repeat := range l.repeat {
		if !(math.Abs(d[axis]) <= repeat) {
			return false
		}
	}
	return true
}

// anyPhase returns a phase at random, on one axis or on both.
func (l *lane) anyPhase(g int) orb.Point {
	phase := l.at.phase[g]
	axes := 1 + l.rng.IntN(3)
	for axis, repeat := range l.repeat {
		u := l.rng.Float64() - 0.5
		if axes&(1<<axis) != 0 {
			phase[axis] += u * repeat
		}
	}
	return phase
}

// withPhase calls f while the group has a phase.
func (l *lane) withPhase(g int, phase orb.Point, f func()) {
	was := l.at.phase[g]
	l.at.phase[g] = phase
	f()
	l.at.phase[g] = was
}

// shiftedTo returns where member i of a group comes to lie when the phase moves by d
// from its present one; the lane has the new phase.
func (l *lane) shiftedTo(i int, d orb.Point) (x, y float64) {
	way := &l.items[i].ways[l.at.way[i]]
	x, y = l.at.x[i], l.at.y[i]
	if l.repeat[0] > 0 {
		x = l.along(i, way).nearest(x + d[0])
	}
	if l.repeat[1] > 0 {
		y = l.across(i, way).nearest(y + d[1])
	}
	return x, y
}

// groupLoss returns the weighted overlap of a group at a phase with all that does
// not belong to it; more than limit once that is passed, and infinite where a
// member in its way has no place.
func (l *lane) groupLoss(g int, phase orb.Point, limit float64) float64 {
	sum, was := 0.0, l.at.phase[g]
	d := orb.Point{phase[0] - was[0], phase[1] - was[1]}
	l.withPhase(g, phase, func() {
		for _, i := range l.groups[g].members {
			if !l.hasRoom(l.at, i, &l.items[i].ways[l.at.way[i]], l.length) {
				sum = math.Inf(1)
				return
			}
			x, y := l.shiftedTo(i, d)
			if sum += l.lossBeside(i, x, y); sum > limit {
				return
			}
		}
	})
	return sum
}

// lossBeside is the loss of item i at a place, its own group left out.
func (l *lane) lossBeside(i int, x, y float64) float64 {
	s := l.shapeNow[i]
	b := l.shapeBox(s, x, y)
	weights := l.weights[i*len(l.items):]
	sum := 0.0
	l.evals++
	for _, j := range l.near(i, &b) {
		if l.items[j].group == l.items[i].group {
			continue
		}
		l.evals++
		if d, _, _ := l.depth(l.shapeNow[j], s, x-l.at.x[j], y-l.at.y[j]); d > l.tolerance {
			sum += weights[j] * weightedDepth(d) * l.roots[j]
		}
	}
	return sum
}

// groupContacts returns up to three overlaps of a group at a phase with what does
// not belong to it, of the greatest loss.
func (l *lane) groupContacts(g int, phase orb.Point) []contact {
	was := l.at.phase[g]
	d := orb.Point{phase[0] - was[0], phase[1] - was[1]}
	l.contacts = l.contacts[:0]
	l.withPhase(g, phase, func() {
		for _, i := range l.groups[g].members {
			s := l.shapeNow[i]
			x, y := l.shiftedTo(i, d)
			b := l.shapeBox(s, x, y)
			for _, j := range l.near(i, &b) {
				if l.items[j].group == l.items[i].group {
					continue
				}
				l.evals++
				if depth, nx, ny := l.depth(l.shapeNow[j], s, x-l.at.x[j], y-l.at.y[j]); depth > l.tolerance {
					loss := l.weights[i*len(l.items)+int(j)] * weightedDepth(depth) * l.roots[j]
					l.contacts = append(l.contacts, contact{loss, depth, nx, ny})
				}
			}
		}
	})
	heavy := l.heaviest()
	n := 0
	for n < len(heavy) && heavy[n].depth > 0 {
		n++
	}
	return heavy[:n]
}

// rephaseTo moves a group to a phase, every member to its place on the repeat there.
func (l *lane) rephaseTo(g int, phase orb.Point) {
	was := l.at.phase[g]
	d := orb.Point{phase[0] - was[0], phase[1] - was[1]}
	l.at.phase[g] = phase
	for _, i := range l.groups[g].members {
		x, y := l.shiftedTo(i, d)
		l.place(i, l.at.way[i], x, y)
	}
}

// rephase moves a group to a phase at random where all of it lies on the strip as
// it does now.
func (l *lane) rephase(g int) {
	if l.groups[g].Given {
		return
	}
	for range 20 {
		phase := l.anyPhase(g)
		if !math.IsInf(l.groupLoss(g, phase, math.MaxFloat64), 1) {
			l.rephaseTo(g, phase)
			return
		}
	}
}
