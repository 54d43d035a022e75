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
	vees, rest := vees(a, items)
	for _, v := range vees {
		if !a.dart(shape, v) {
			rest = append(rest, v.of...)
		}
	}
	return rest
}

// vees are lines of two straight legs, and straight lines that share one end with one other.
func vees(a *assembler, items []item) (all []vee, rest []item) {
	ends := map[orb.Point][]int{} // straight lines by where they end
	for k, it := range items {
		r := a.Roles[it.line].Role
		if r != Dart && r != Unnamed {
			rest = append(rest, it)
			continue
		}
		legs := bendsOf(it.path)
		switch len(legs) {
		case 3:
			all = append(all, vee{legs[0], legs[1], legs[2], []item{it}})
		case 2:
			ends[legs[0]] = append(ends[legs[0]], k)
			ends[legs[1]] = append(ends[legs[1]], k)
		default:
			rest = append(rest, it)
		}
	}
	used := map[int]bool{}
	for k, it := range items {
		r := a.Roles[it.line].Role
		if legs := bendsOf(it.path); r != Dart && r != Unnamed || len(legs) != 2 || used[k] {
			continue
		}
		used[k] = true
		made := false
		for _, apex := range []orb.Point{it.path[len(it.path)-1], it.path[0]} {
			on := ends[apex]
			if len(on) != 2 || used[on[0]] && used[on[1]] {
				continue
			}
			other := on[0] + on[1] - k
			all = append(all, vee{otherEnd(it.path, apex), apex, otherEnd(items[other].path, apex),
				[]item{it, items[other]}})
			used[other], made = true, true
			break
		}
		if !made {
			rest = append(rest, it)
		}
	}
	return all, rest
}

func otherEnd(path orb.LineString, end orb.Point) orb.Point {
	if path[0] == end {
		return path[len(path)-1]
	}
	return path[0]
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
