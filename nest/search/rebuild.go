package search

import (
	"cmp"
	"math"
	"slices"
)

// Groups of items on a repeat move little by little at best: what lies between
// their places is a matter of which comes next to which, and of their phases. So
// for them whole layouts are built anew, in other orders and from other phases,
// and shortened from there.

// rebuildShare is the part of all work that building anew may take.
const rebuildShare = 0.3

// mayRebuild says whether it is time for another layout.
func (l *lane) mayRebuild() bool {
	return len(l.groups) > 0 && float64(l.rebuilt) <= rebuildShare*float64(l.evals)
}

// shortestBuilt builds layouts anew for as long as it may, and returns the shortest;
// nil when there is none.
func (l *lane) shortestBuilt() *placement {
	var shortest *placement
	for l.mayRebuild() {
		p := l.rebuild()
		if p == nil {
			return nil
		}
		if shortest == nil || p.length < shortest.length {
			shortest = p
		}
	}
	return shortest
}

// rebuild makes another layout as construct does, varied at random: which of the
// items that are about as big come first, from which edge, and where the first of
// each group lies. It returns nil when stopped.
func (l *lane) rebuild() *placement {
	c := l.newBuilder(l.pool.stopped)
	c.rng = l.rng
	c.above = l.rng.IntN(2) == 1
	for _, i := range l.varied() {
		if !c.add(i) {
			return nil
		}
	}
	c.at.length = l.extent(c.at)
	l.evals += c.evals
	l.rebuilt += c.evals
	return c.at
}

// spreads are the factors and inverse factors by which areas may differ of items
// that change places in the order: equal ones alone, similar ones, any.
var spreads = [...]float64{1, 2, 1e6}

// varied orders the movable items by area, more or less.
func (l *lane) varied() []int {
	spread := math.Log(spreads[l.rng.IntN(len(spreads))])
	rank := make([]float64, l.movable)
	order := l.rng.Perm(l.movable)
	for i := range rank {
		rank[i] = math.Log(l.items[i].area) + spread*(2*l.rng.Float64()-1)
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(rank[b], rank[a]) })
	return order
}

// mostSkipped bounds how many of the first free places an item that sets the phase
// of its group leaves alone.
const mostSkipped = 4

// skip says how many free places item i is to leave alone: none, mostly.
func (c *builder) skip(i int) int {
	if c.rng == nil || !c.setsPhase(i) || c.rng.IntN(2) == 0 {
		return 0
	}
	return c.rng.IntN(mostSkipped + 1)
}
