package search

import (
	"math"

	"yardlay/shapes/plane"
)

// track is where one coordinate of an item's corner may be: from lo to hi, and, if
// it has a step, at phase and whole steps from it. Such a place counts as within
// lo and hi when rounding to the lattice brings it there.
type track struct {
	lo, hi      float64
	step, phase float64
	rounded     bool // places are those of the lattice, as they will be cut
}

// Places of a grid are sums of floats: gridTolerance is far more than what those are off,
// and far less than any tolerance. Rounding moves a place by half a step of the
// lattice; a little less leaves no doubt where a tie goes.
const (
	gridTolerance = 1e-7
	halfStep      = 0.499 * plane.Lattice
)

// slack is how far a place may lie outside lo and hi.
func (t track) slack() float64 {
	if t.step == 0 || t.rounded {
		return 0
	}
	return halfStep
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
	for t.gridPlace(k) > t.hi+t.slack() {
		k--
	}
	for t.gridPlace(k) < t.lo-t.slack() {
		k++
	}
	return t.gridPlace(k)
}

// around goes through the allowed places nearest to v on either side of it.
func (t track) around(v float64, yield func(at float64)) {
	if t.step == 0 {
		yield(v)
		return
	}
	k := math.Floor((v - t.phase) / t.step)
	for _, at := range [2]float64{t.gridPlace(k), t.gridPlace(k + 1)} {
		if at >= t.lo-t.slack() && at <= t.hi+t.slack() {
			yield(at)
		}
	}
}

// next returns the first place at or after v, and lo; it may lie beyond hi.
func (t track) next(v float64) float64 {
	if t.step == 0 {
		return math.Max(v, t.lo)
	}
	least := v - math.Min(gridTolerance, t.slack())
	if v <= t.lo {
		least = t.lo - t.slack()
	}
	k := math.Ceil((least-t.phase)/t.step) - 1
	for t.gridPlace(k) < least {
		k++
	}
	return t.gridPlace(k)
}

// gridPlace returns place k of the grid.
func (t track) gridPlace(k float64) float64 {
	at := t.phase + k*t.step
	if t.rounded {
		at = plane.Snap(at)
	}
	return at
}

// empty reports whether there is no place at all.
func (t track) empty() bool { return t.next(t.lo) > t.hi+t.slack() }

// part returns the place a share u, from 0 to 1, of the way along.
func (t track) part(u float64) float64 {
	at := t.lo + u*(t.hi-t.lo)
	if t.step == 0 {
		return at
	}
	return t.nearest(at)
}
