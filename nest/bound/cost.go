package bound

import (
	"cmp"
	"math"
	"slices"
	"sync"
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

// meeting is a place of a piece at which border k of a profile meets the step of a term:
// farther on, the slab before it does.
type meeting struct {
	place   float64
	term, k int32
}

// cheapest returns the least cost of a piece whose profiles are moved by a place
// between lo and hi, and a place where it is reached. The cost is quadratic
// between the places where a border of a profile meets a step of the price; on
// each such stretch its minimum is known. From one stretch to the next a single
// term changes, and the rest of the sum is kept. The value is exact but for
// rounding, which is taken off. Work is counted in terms that are looked at.
func cheapest(ts []term, lo, hi float64) (place, cost float64, work int) {
	size, reach := 0.0, math.Abs(lo)+math.Abs(hi)
	r := tables.Get().(*table)
	defer tables.Put(r)
	slabs, meetings := slices.Grow(r.slabs[:0], len(ts))[:len(ts)], r.found[:0]
	for i, t := range ts {
		size += math.Abs(t.step) * t.profile.total()
		reach = max(reach, math.Abs(lo)+math.Abs(hi)+math.Abs(t.at))
		slabs[i] = -1
		for k, at := range t.profile.at {
			y := t.at - at
			if y <= lo {
				break
			}
			if slabs[i] = k; y < hi {
				meetings = append(meetings, meeting{y, int32(i), int32(k)})
			}
		}
	}
	r.slabs, r.found = slabs, meetings
	meetings = r.inOrder(lo, hi)
	place, cost, work = lo, math.Inf(1), len(ts)
	s := stretches{terms: ts, slabs: slabs, reach: reach}
	for from := lo; ; {
		some := s.together(meetings)
		meetings = meetings[len(some):]
		to := hi
		if len(meetings) > 0 {
			to = some[len(some)-1].place
		}
		place, cost = s.lower(some, from, to, place, cost)
		work += len(ts) + meetingWork*len(some)
		if from = to; len(meetings) == 0 {
			return place, cost - 1e-13*size, work
		}
	}
}

// table is room for the meetings of one piece, used again and again: pieces are judged by the thousand.
type table struct {
	found, ordered []meeting
	ends           []int32 // of ranges of places, two farther on
	slabs          []int
}

var tables = sync.Pool{New: func() any { return new(table) }}

// inOrder returns the meetings found in the order of their places, between lo and hi: dealt out over as many
// equal ranges as there are meetings, few are left to be sorted in any.
func (r *table) inOrder(lo, hi float64) []meeting {
	meetings, n := r.found, len(r.found)
	ends := slices.Grow(r.ends[:0], n+2)[:n+2]
	clear(ends)
	rangeOf := func(m meeting) int { return min(int((m.place-lo)/(hi-lo)*float64(n)), n-1) }
	for _, m := range meetings {
		ends[rangeOf(m)+2]++
	}
	for r := 1; r < len(ends); r++ {
		ends[r] += ends[r-1]
	}
	out := slices.Grow(r.ordered[:0], n)[:n]
	r.ends, r.ordered = ends, out
	for _, m := range meetings {
		k := rangeOf(m) + 1
		out[ends[k]] = m
		ends[k]++
	}
	for k := range n {
		if some := out[ends[k]:ends[k+1]]; len(some) > 1 {
			slices.SortStableFunc(some, func(a, b meeting) int { return cmp.Compare(a.place, b.place) })
		}
	}
	return out
}

// A meeting takes about as long as meetingWork terms of a sum. After as many meetings as there are terms
// all are summed up anew, and where a slab begins or ends whose chords change by more than steepSlab mm
// from one mm to the next: far from it, what it comes to is a large number.
const (
	meetingWork = 8
	steepSlab   = 64
)

// stretches goes along the places of a piece.
type stretches struct {
	terms []term
	slabs []int   // in which each term is met just now
	reach float64 // of all places and terms together, mm
}

// together returns the first meetings, up to the one after which all is summed up anew.
func (s stretches) together(meetings []meeting) []meeting {
	for n, m := range meetings {
		slopes, k := s.terms[m.term].profile.slope, int(m.k)
		if n+1 >= len(s.terms) || k < len(slopes) && math.Abs(slopes[k]) > steepSlab ||
			k > 0 && math.Abs(slopes[k-1]) > steepSlab {
			return meetings[:n+1]
		}
	}
	return meetings
}

// lower lowers the best place and cost by those from one place to another, between which
// profiles meet terms in this order. The cost about the middle of them is kept as it changes;
// what rounding may have added to it is taken off.
func (s stretches) lower(some []meeting, from, to, place, cost float64) (float64, float64) {
	middle := (from + to) / 2
	half := max(to-middle, middle-from)
	var q quadratic
	lost := 0.0
	add := func(term int, by float64) {
		part, size := s.about(term, middle, half)
		q = quadratic{q.value + by*part.value, q.rate + by*part.rate, q.bend + by*part.bend}
		lost += roundings * (size + q.most(half))
	}
	for i := range s.terms {
		add(i, 1)
	}
	for n := 0; ; n++ {
		end := to
		if n < len(some) {
			end = some[n].place
		}
		if end > from || from == to {
			if d, v := q.least(from-middle, end-middle); v-lost < cost {
				place, cost = middle+d, v-lost
			}
		}
		if from = end; n == len(some) {
			return place, cost
		}
		i := int(some[n].term)
		add(i, -1)
		s.slabs[i] = min(s.slabs[i], int(some[n].k)-1)
		add(i, 1)
	}
}

// roundings is what sixteen roundings may be off of the greatest number in them.
const roundings = 16 * 0x1p-53

// about returns what a term adds to the cost about a place as long as it is met in its slab, and the
// most that any number comes to of which that is made, or its cost within half so far on either side.
// Where the place is rounded, the whole is moved by that, which changes it by a chord times as much.
func (s stretches) about(term int, place, half float64) (q quadratic, size float64) {
	t, slab := s.terms[term], s.slabs[term]
	p := t.profile
	switch {
	case slab < 0:
		return quadratic{}, 0
	case slab >= len(p.left):
		whole := t.step * p.total()
		return quadratic{value: whole}, math.Abs(whole)
	}
	d, slope := t.at-place-p.at[slab], p.slope[slab]
	q.value = t.step * (p.sum[slab] + d*(p.left[slab]+d*slope/2))
	q.rate, q.bend = -t.step*(p.left[slab]+d*slope), t.step*slope/2
	chord, off := max(p.left[slab], p.right[slab]), math.Abs(d)+half
	return q, math.Abs(t.step) * (p.sum[slab] + s.reach*chord + 2*off*off*math.Abs(slope))
}

// quadratic is a cost about a place: its value, its derivative and half the second there.
type quadratic struct{ value, rate, bend float64 }

// most is the most that any part of a quadratic comes to within a distance.
func (q quadratic) most(distance float64) float64 {
	return math.Abs(q.value) + distance*(math.Abs(q.rate)+distance*math.Abs(q.bend))
}

// least returns where between two places a quadratic is least, from the one it is about.
func (q quadratic) least(from, to float64) (at, least float64) {
	value := func(d float64) float64 { return q.value + d*(q.rate+d*q.bend) }
	at, least = from, value(from)
	if v := value(to); v < least {
		at, least = to, v
	}
	if d := -q.rate / (2 * q.bend); q.bend > 0 && d > from && d < to {
		if v := value(d); v < least {
			at, least = d, v
		}
	}
	return at, least
}
