package bound

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Match ties copies to the repeat of the cloth: the points of all copies of a group lie
// whole repeats apart, along and across, each to the nearest step of the lattice.
type Match struct {
	Group  int
	Points []orb.Point // of each way of the piece, in its coordinates, mm
}

// Pieces of one group that follow each other in a row lie whole repeats apart but for
// what their points differ: the step from one to the next is the least of those that is
// no less than the distance they need. Rounding to the lattice moves points against each
// other by a step of it at the most. Less what its own point is moved by, of nought to
// one step, the place of each piece of a group lies on the repeat exactly; steps from or
// to it count for one step of the lattice less, and the first of a row begins one step
// before the cut end.

// repeatSlack is how far points of a group may be off whole repeats against each other,
// mm: one step of the lattice, and a hundredth of one for sums of floats.
const repeatSlack = 1.01 * plane.Lattice

// tiny is far more than sums of steps are off, mm: they may be whole repeats exactly.
const tiny = 1e-6

// leastRepeat is the least repeat that is looked at, mm: many times the slack.
const leastRepeat = 1

// tied returns the problem with its repeat, where any pieces share a phase, or nil. It
// is good for rows, and lengthened for lines and prices.
func (p Problem) tied() *setting {
	copies := map[int]int{}
	for _, piece := range p.Pieces {
		if piece.Match != nil {
			copies[piece.Match.Group] += piece.Count
		}
	}
	var groups []int
	numbers := map[int]int{}
	group := func(piece Piece) int {
		if piece.Match == nil || copies[piece.Match.Group] < 2 {
			return 0
		}
		g := piece.Match.Group
		if numbers[g] == 0 {
			groups = append(groups, g)
			numbers[g] = len(groups)
		}
		return numbers[g]
	}
	s := &setting{width: p.Width, gap: p.Gap, tied: true, repeat: p.Repeat}
	for axis, r := range s.repeat {
		if r < leastRepeat {
			s.repeat[axis] = 0
		}
	}
	if s.repeat == [2]float64{} {
		return nil
	}
	s.items, s.groups = p.merged(group), groups
	if len(groups) == 0 {
		return nil
	}
	return s
}

// onRepeat returns the point of a way that lies on the repeat, from the least corner of
// its ring; nought on an axis without a repeat, where it does not matter.
func (p Problem) onRepeat(point orb.Point, ring orb.Ring) orb.Point {
	corner := plane.Bounds(ring).Min
	for axis := range point {
		if point[axis] -= corner[axis]; p.Repeat[axis] < leastRepeat {
			point[axis] = 0
		}
	}
	return point
}

// start returns the least place of a piece along a row.
func (s *setting) start(group int) float64 {
	if group == 0 || s.repeat[0] == 0 {
		return 0
	}
	return -repeatSlack
}

// nextOn returns the first place at or after v that is whole repeats from another.
func nextOn(v, from, repeat float64) float64 { return from + math.Ceil((v-from)/repeat)*repeat }

// tied returns the least step from one way to another on the repeat, for one of d.
func (r row) tied(from, to int, d float64) float64 {
	switch {
	case r.repeat == 0 || r.ways[from].group == 0 && r.ways[to].group == 0:
		return d
	case !r.match(from, to):
		return d - repeatSlack
	}
	return r.onRepeat(from, to, d-repeatSlack)
}

// match says whether pieces in two ways of the row share a phase.
func (r row) match(from, to int) bool {
	return r.repeat > 0 && r.ways[from].group > 0 && r.ways[from].group == r.ways[to].group
}

// onRepeat returns the least step of at least d between two such pieces.
func (r row) onRepeat(from, to int, d float64) float64 {
	return nextOn(d, r.ways[from].point-r.ways[to].point, r.repeat)
}

// worthwhile says whether the repeat of a setting can lengthen the row: whether two
// pieces of a group lie in it. A setting without a repeat has other reasons.
func (r row) worthwhile(s *setting) bool {
	if !s.tied {
		return true
	}
	if s.repeat[0] == 0 {
		return false
	}
	copies := map[int]int{}
	for _, i := range r.items {
		if g := s.items[i].group; g > 0 {
			if copies[g] += s.items[i].count; copies[g] > 1 {
				return true
			}
		}
	}
	return false
}

// rangesFor returns how many ranges of places, at most so many, a row is looked at with
// by neighbours; the steps looked at come off work.
func (r row) rangesFor(most int, work *int) int {
	states := newCounter(r.counts).states
	n := int(math.Sqrt(float64(max(0, min(rowWork/8, *work))/states))) / len(r.ways)
	n = min(max(n, 1), most)
	*work -= states * n * n * len(r.ways) * len(r.ways)
	return n
}
