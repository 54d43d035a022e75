package bound

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// What a piece costs along all its places, kept as it changes from stretch to stretch, is what it
// comes to where every stretch is summed up by itself: no more, and less by rounding alone.
func TestCheapestAsSummedUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		of := func(label string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, label) }
		var p profile
		at, chord := of("from", 0, 50), of("chord", 0, 300)
		for range rapid.IntRange(1, 12).Draw(t, "slabs") {
			p.at, p.left = append(p.at, at), append(p.left, chord)
			at += rapid.SampledFrom([]float64{0x1p-10, 1, 7, 60}).Draw(t, "slab")
			chord = of("chord", 0, 300)
			p.right = append(p.right, chord)
		}
		p.at = append(p.at, at)
		p = p.summed()
		size := at + of("room", 0, 900)
		n := rapid.IntRange(1, 60).Draw(t, "cells")
		prices := rapid.SliceOfN(rapid.SampledFrom([]float64{0, 0, 1, 2.5, 3.1}), n, n).Draw(t, "prices")
		ts := terms(nil, &p, cells(size, n), prices)
		_, slow, _ := cheapestSlow(ts, 0, size-at)
		place, cost, _ := cheapest(ts, 0, size-at)
		steps := 0.0
		for _, term := range ts {
			steps += math.Abs(term.step)
		}
		steepest := 0.0
		for _, slope := range p.slope {
			steepest = max(steepest, math.Abs(slope))
		}
		// Roundings are counted as if a slab went on as far as all places reach.
		most, least := slow+1e-9*300*steps, slow-1e-9*300*steps-1e-12*steepest*size*size*steps
		if cost > most || cost < least {
			t.Fatalf("%v at %v, summed up %v", cost, place, slow)
		}
		if place < 0 || place > size-at {
			t.Fatalf("place %v of 0 to %v", place, size-at)
		}
	})
}

// cheapestSlow is the slow twin: every stretch between two meetings is summed up by itself.
func cheapestSlow(ts []term, lo, hi float64) (place, cost float64, work int) {
	stops := []float64{lo, hi}
	size := 0.0
	for _, t := range ts {
		size += math.Abs(t.step) * t.profile.total()
		for _, at := range t.profile.at {
			if y := t.at - at; y > lo && y < hi {
				stops = append(stops, y)
			}
		}
	}
	slices.Sort(stops)
	slabs := make([]int, len(ts))
	for i, t := range ts {
		slabs[i] = t.profile.slab(t.at - lo)
	}
	place, cost = lo, math.Inf(1)
	for i := 1; i < len(stops); i++ {
		y0, y1 := stops[i-1], stops[i]
		if y1 == y0 && hi > lo {
			continue
		}
		place, cost = lowerBetweenSlow(ts, slabs, y0, y1, place, cost)
	}
	return place, cost - 1e-13*size, len(ts) * len(stops)
}

// lowerBetweenSlow lowers the best place and cost by those between y0 and y1, where no
// profile's border meets a step. slabs follow, from one stretch to the next.
func lowerBetweenSlow(ts []term, slabs []int, y0, y1, place, cost float64) (float64, float64) {
	middle := (y0 + y1) / 2
	value, rate, bend := 0.0, 0.0, 0.0 // at the middle: cost, its derivative, half the second
	for i, t := range ts {
		p, at := t.profile, t.at-middle
		k := slabs[i]
		for k >= 0 && (k >= len(p.at) || p.at[k] > at) {
			k--
		}
		slabs[i] = k
		switch {
		case k < 0:
		case k >= len(p.left):
			value += t.step * p.total()
		default:
			d, slope := at-p.at[k], p.slope[k]
			value += t.step * (p.sum[k] + d*(p.left[k]+d*slope/2))
			rate -= t.step * (p.left[k] + d*slope)
			bend += t.step * slope / 2
		}
	}
	half := (y1 - y0) / 2
	try := func(d float64) {
		if v := value + d*(rate+d*bend); v < cost {
			place, cost = middle+d, v
		}
	}
	try(-half)
	try(half)
	if d := -rate / (2 * bend); bend > 0 && math.Abs(d) < half {
		try(d)
	}
	return place, cost
}
