package search

import (
	"math"

	"yardlay/shapes/plane"
)

// Seat says where a ring may come to lie. The zero value: anywhere on the strip.
type Seat struct {
	Low, High float64 // the ring stays within these levels across the strip, mm; High 0: to its far edge
	X, Y      Grid    // the moves allowed along and across the strip
}

// Grid is a row of allowed moves, mm: Phase and whole Steps from it, each to the
// nearest step of the lattice. A Step of 0 allows every move.
type Grid struct{ Step, Phase float64 }

// phase returns where the grid puts a corner that lies at lo of an unmoved ring:
// below one step, so that equal grids are found equal.
func (g Grid) phase(lo float64) float64 {
	if g.Step == 0 {
		return 0
	}
	return math.Mod(g.Phase+lo, g.Step)
}

// track is where one coordinate of an item's corner may be: from lo to hi, and
// on a grid if it has a step.
type track struct {
	lo, hi      float64
	step, phase float64
}

// nearest returns the allowed place nearest to v. On an empty track it is the
// first place at or after lo.
func (t track) nearest(v float64) float64 {
	if v > t.hi {
		v = t.hi
	}
	if v < t.lo {
		v = t.lo
	}
	if t.step == 0 {
		return v
	}
	k := math.RoundToEven((v - t.phase) / t.step)
	for t.rung(k) > t.hi {
		k--
	}
	return t.next(t.rung(k))
}

// next returns the first place at or after v and lo; it may lie beyond hi.
func (t track) next(v float64) float64 {
	if v < t.lo {
		v = t.lo
	}
	if t.step == 0 {
		return v
	}
	k := math.Ceil((v-t.phase)/t.step) - 1
	for t.rung(k) < v {
		k++
	}
	return t.rung(k)
}

// rung returns place k of the grid, on the lattice.
func (t track) rung(k float64) float64 {
	return math.RoundToEven((t.phase+k*t.step)/plane.Lattice) * plane.Lattice
}

// empty reports whether there is no place at all.
func (t track) empty() bool { return t.next(t.lo) > t.hi }

// part returns the place a share u, from 0 to 1, of the way along.
func (t track) part(u float64) float64 {
	at := t.lo + u*(t.hi-t.lo)
	if t.step == 0 {
		return at
	}
	return t.nearest(at)
}

// along returns where a way's corner may be along a strip of the given length.
func (in *instance) along(w *way, length float64) track {
	t := w.along
	t.hi = length - in.shapes[w.shape].w
	return t
}

// soonest returns where the way ends along the strip when it begins as soon as it may.
func (in *instance) soonest(w *way) float64 { return w.along.next(0) + in.shapes[w.shape].w }

// leastLength returns a length that no layout can be shorter than: on a grid even
// the first place may lie beyond the cut end.
func (in *instance) leastLength() float64 {
	least := 0.0
	for i := range in.movable {
		soonest := math.Inf(1)
		for k := range in.items[i].ways {
			if w := &in.items[i].ways[k]; !w.across.empty() {
				soonest = math.Min(soonest, in.soonest(w))
			}
		}
		if !math.IsInf(soonest, 1) {
			least = math.Max(least, soonest)
		}
	}
	return least
}
