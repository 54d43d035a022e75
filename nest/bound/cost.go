package bound

import (
	"math"
	"slices"
)

// term is a step of a price: lines before place `at` cost `step` more than those
// after it, and take what the profile says.
type term struct {
	profile *profile
	at      float64
	step    float64
}

// terms returns the steps of prices per mm in the cells between borders, met by
// one profile.
func terms(out []term, p *profile, borders, prices []float64) []term {
	before := 0.0
	for k := 0; k <= len(prices); k++ {
		price := 0.0
		if k < len(prices) {
			price = prices[k]
		}
		if price != before {
			out = append(out, term{profile: p, at: borders[k], step: before - price})
		}
		before = price
	}
	return out
}

// cheapest returns the least cost of a piece whose profiles are moved by a place
// between lo and hi, and a place where it is reached. The cost is quadratic
// between the places where a border of a profile meets a step of the price; on
// each such stretch its minimum is known. The value is exact but for rounding,
// which is taken off. Work is the number of terms looked at.
func cheapest(ts []term, lo, hi float64) (place, cost float64, work int) {
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
		place, cost = lowerBetween(ts, slabs, y0, y1, place, cost)
	}
	return place, cost - 1e-13*size, len(ts) * len(stops)
}

// lowerBetween lowers the best place and cost by those between y0 and y1, where no
// profile's border meets a step. slabs follow, from one stretch to the next.
func lowerBetween(ts []term, slabs []int, y0, y1, place, cost float64) (float64, float64) {
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
