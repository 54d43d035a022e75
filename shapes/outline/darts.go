package outline

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Darts as they are drawn: common practice.
const (
	widestMouth = 120.0 // mm
	leastDart   = 20.0  // depth, mm
	mostUneven  = 3.0   // how much the legs of a dart that nothing names may differ, mm
)

// vee is two legs from the outline to an apex.
type vee struct {
	first, apex, last orb.Point
	of                []item
}

// darts finds the darts among the lines of a shape, and returns the others.
func (a *assembler) darts(shape int, items []item) (rest []item) {
	legs := make([]orb.LineString, len(items)) // of lines that may be of a dart
	var ends []orb.Point                       // of straight ones
	var of []int                               // and which each is of
	for k, it := range items {
		if r := a.Roles[it.line].Role; r != Dart && r != Unnamed {
			continue
		}
		if legs[k] = bendsOf(it.path); len(legs[k]) == 2 {
			ends, of = append(ends, legs[k]...), append(of, k, k)
		}
	}
	knot := knots(ends)
	at := map[int32][]int{} // ends by where they lie
	for i, n := range knot {
		at[n] = append(at[n], i)
	}
	taken := make([]bool, len(items))
	for k, l := range legs {
		if len(l) == 3 {
			taken[k] = a.dart(shape, vee{l[0], l[1], l[2], items[k : k+1]})
		}
	}
	for i, apex := range ends { // straight lines that share an end with one other
		on := at[knot[i]]
		if len(on) != 2 || on[1] == i || taken[of[i]] || taken[of[on[1]]] {
			continue
		}
		p, q := of[i], of[on[1]]
		v := vee{ends[i^1], apex, ends[on[1]^1], []item{items[p], items[q]}}
		taken[p] = p != q && a.dart(shape, v)
		taken[q] = taken[p]
	}
	for k, it := range items {
		if !taken[k] {
			rest = append(rest, it)
		}
	}
	return rest
}

// bendsOf are the points of a line at which it bends; of one with many the first of them.
func bendsOf(path orb.LineString) orb.LineString {
	return thinned(path[:min(len(path), mostBends)], ChordError)
}

// mostBends is how many points a line of a dart has at the most.
const mostBends = 200

// dart takes two legs for a dart if their feet stand on one edge of the shape.
func (a *assembler) dart(shape int, v vee) bool {
	s, b := &a.Shapes[shape], a.borders[shape]
	given := a.Roles[v.of[0].line].Role == Dart
	reach := atOutline
	if given {
		reach = 2 * atOutline
	}
	a.holders.held += 3 * len(b.segments)
	feet := [2]NotchAt{}
	for k, foot := range []orb.Point{v.first, v.last} {
		at, far := b.nearest(foot)
		if far > reach { // it may have been drawn on, to the cut line
			long := math.Hypot(foot[0]-v.apex[0], foot[1]-v.apex[1])
			on, ok := b.crossedBy(v.apex, foot)
			if s.Cut == nil || !ok || long == 0 {
				return false
			}
			at = on
		}
		feet[k] = at
	}
	if _, deep := b.nearest(v.apex); deep < leastDart || feet[0].Edge != feet[1].Edge {
		return false
	}
	from, to := min(feet[0].At, feet[1].At), max(feet[0].At, feet[1].At)
	p, q := pointAt(s.Edges, feet[0]), pointAt(s.Edges, feet[1])
	legs := [2]float64{math.Hypot(p[0]-v.apex[0], p[1]-v.apex[1]), math.Hypot(q[0]-v.apex[0], q[1]-v.apex[1])}
	uneven := math.Abs(legs[0] - legs[1])
	if to-from > widestMouth || to-from < told || !given && uneven > mostUneven {
		return false
	}
	because := "its legs stand on the outline and meet inside"
	if !given {
		s.Because = append(s.Because, "Two lines are taken for a dart: they stand on the outline and meet inside.")
	}
	for _, it := range v.of {
		if r := &a.Roles[it.line]; r.Role == Unnamed {
			r.Role, r.Because = Dart, because
		}
	}
	s.Darts = append(s.Darts, DartAt{Edge: feet[0].Edge, From: from, To: to, Apex: plane.SnapPoint(v.apex), Uneven: uneven,
		Place: v.of[0].place})
	return true
}
