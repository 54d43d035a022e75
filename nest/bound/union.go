package bound

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// sameLine is how near two lines must be to count as one, mm.
const sameLine = 1e-9

// unionChords returns the profile of what simple rings cover together: between neighbouring lines through a
// corner, or where sides of two of them cross, the sides in which the union begins and ends stay the same.
func unionChords(rings []orb.Ring, axis Axis) profile {
	s := newSweep(rings, axis)
	var p profile
	for k := 1; k < len(s.at); k++ {
		if s.next(s.at[k-1], s.at[k]); k == 1 {
			p.at = append(p.at, s.at[0])
		}
		low := s.at[k-1]
		for _, high := range s.stops() {
			p.at = append(p.at, high)
			p.left, p.right = append(p.left, s.covered(low)), append(p.right, s.covered(high))
			low = high
		}
	}
	return p.summed()
}

// sweep goes over lines from corner to corner of some rings.
type sweep struct {
	at        []float64 // lines through corners
	sides     []side    // that are still to come, by where they begin
	active    []side    // that cross the lines of the slab, by their rings, and each ring's in their order there
	low, high float64   // of the slab
	intervals [][2]float64
}

// side is one of a ring's, which lines from t = begin to end meet, at u = first and last there.
type side struct {
	ring                     int
	begin, end, first, slope float64
}

// on returns where a line meets the side, or its end that is nearer to the line.
func (s side) on(t float64) float64 { return s.first + s.slope*(min(max(t, s.begin), s.end)-s.begin) }

func newSweep(rings []orb.Ring, axis Axis) *sweep {
	t, u := 1, 0
	if axis == LinesAcross {
		t, u = 0, 1
	}
	var s sweep
	for k, ring := range rings {
		for i := 1; i < len(ring); i++ {
			a, b := ring[i-1], ring[i]
			s.at = append(s.at, b[t])
			if a[t] > b[t] {
				a, b = b, a
			}
			if a[t] < b[t] {
				s.sides = append(s.sides, side{k, a[t], b[t], a[u], (b[u] - a[u]) / (b[t] - a[t])})
			}
		}
	}
	slices.Sort(s.at)
	s.at = slices.CompactFunc(s.at, func(a, b float64) bool { return math.Abs(b-a) < sameLine })
	slices.SortFunc(s.sides, func(a, b side) int { return cmp.Compare(a.begin, b.begin) })
	return &s
}

// next goes on to the lines between two neighbouring ones.
func (s *sweep) next(low, high float64) {
	s.low, s.high = low, high
	middle := (low + high) / 2
	s.active = slices.DeleteFunc(s.active, func(a side) bool { return a.end <= middle })
	for len(s.sides) > 0 && s.sides[0].begin <= middle {
		if s.sides[0].end > middle {
			s.active = append(s.active, s.sides[0])
		}
		s.sides = s.sides[1:]
	}
	slices.SortFunc(s.active, func(a, b side) int {
		return cmp.Or(cmp.Compare(a.ring, b.ring), cmp.Compare(a.on(middle), b.on(middle)))
	})
}

// stops returns where, beyond the first line of a slab, sides of two rings cross, and the last line.
func (s *sweep) stops() []float64 {
	var out []float64
	for i, a := range s.active {
		for _, b := range s.active[:i] {
			if a.ring == b.ring {
				continue
			}
			atLow, atHigh := a.on(s.low)-b.on(s.low), a.on(s.high)-b.on(s.high)
			if atLow*atHigh < 0 {
				t := s.low + (s.high-s.low)*atLow/(atLow-atHigh)
				if t > s.low+sameLine && t < s.high-sameLine {
					out = append(out, t)
				}
			}
		}
	}
	slices.Sort(out)
	out = slices.CompactFunc(out, func(a, b float64) bool { return math.Abs(b-a) < sameLine })
	return append(out, s.high)
}

// covered returns what the rings cover together of a line of the slab: from each side in which one begins on it to the
// next, in which it ends.
func (s *sweep) covered(t float64) float64 {
	s.intervals = s.intervals[:0]
	for k := 1; k < len(s.active); k += 2 {
		a, b := s.active[k-1].on(t), s.active[k].on(t)
		s.intervals = append(s.intervals, [2]float64{min(a, b), max(a, b)})
	}
	return together(s.intervals)
}

// together is the length of intervals that may overlap; they are put in order.
func together(intervals [][2]float64) float64 {
	slices.SortFunc(intervals, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	sum, end := 0.0, 0.0
	for i, v := range intervals {
		if i == 0 || v[0] > end {
			sum, end = sum+v[1]-v[0], v[1]
		} else if v[1] > end {
			sum, end = sum+v[1]-end, v[1]
		}
	}
	return sum
}
