package search

import (
	"math"

	"github.com/paulmach/orb"
)

// newBuilder begins a first layout.
func (in *instance) newBuilder(stop func() bool) *builder {
	c := &builder{
		instance: in, stop: stop, at: in.emptyPlacement(),
		soonest: map[[2]int32]float64{}, settled: make([]bool, len(in.groups)),
	}
	for g := range in.groups {
		c.settled[g] = in.groups[g].Given
	}
	for z := in.movable; z < len(in.items); z++ {
		c.put(z, 0, c.at.x[z], c.at.y[z])
	}
	return c
}

// setsPhase says whether an item is the first of its group to be placed, which
// sets the phase of it.
func (c *builder) setsPhase(i int) bool {
	g := c.items[i].group
	return g >= 0 && !c.settled[g]
}

// tracks returns where item i may be in a way: anywhere while it sets the phase.
func (c *builder) tracks(i int, w *way) (along, across track) {
	along, across = c.alongAt(c.at, i, w, math.Inf(1)), c.acrossAt(c.at, i, w)
	if c.setsPhase(i) {
		along.step, across.step = 0, 0
	}
	return along, across
}

// suits says whether an item at a place leaves its group a phase at which all of
// it can lie on the strip.
func (c *builder) suits(i int, w *way, p orb.Point) bool {
	if !c.setsPhase(i) || c.groups[c.items[i].group].loose {
		return true
	}
	g := c.items[i].group
	was := c.at.phase[g]
	defer func() { c.at.phase[g] = was }()
	c.at.phase[g] = orb.Point{p[0] + w.point[0], p[1] + w.point[1]}
	return c.groupFits(c.at, int(g), math.Inf(1))
}

// keepFitting offers a place at x that surely suits the group, when the item sets
// the phase of one that does not lie on the strip at every phase.
func (c *builder) keepFitting(i int, w *way, x float64, keep func(x, y float64)) {
	if !c.setsPhase(i) || c.groups[c.items[i].group].loose {
		return
	}
	if across := c.acrossAt(c.at, i, w); !across.empty() { // at the group's first phase
		keep(x, across.nearest(across.lo))
	}
}

// mostGridPlaces bounds how many places of a grid are tried against one item: where the
// repeat is finer, the places where outlines touch are near enough to one.
const mostGridPlaces = 8

// gridPlaces goes through the places of a grid between from and to.
func (c *builder) gridPlaces(t track, from, to float64, yield func(at float64)) {
	if t.step == 0 || (to-from)/t.step > mostGridPlaces {
		return
	}
	for at := t.next(from); at <= to && at <= t.hi+t.slack(); at = t.next(at + t.step/2) {
		yield(at)
	}
}
