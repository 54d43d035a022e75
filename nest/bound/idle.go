package bound

import (
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Matched pieces need not lie in a row for the repeat to cost cloth. Of two convex
// pieces A and B of a group that share lines along the cloth one lies behind the other on
// all of these. Their step is then no less than the distance D at which they touch, which
// depends on how far B lies higher, and lies on the repeat: it is at least the first such
// step from the least D on. What that leaves beyond the greatest D stays idle behind A,
// however the two lie. So the pieces of a group do not overlap either when each is
// lengthened by the least that stays idle behind it whichever follows, on cloth that is
// longer by the most of all these; and bounds of lines and prices hold for those. Across
// the cloth it is the same. Panels with straight ends gain by it; of two gores D takes
// all values, and nothing is idle for certain.

// idleGroup is the problem of the pieces of one group alone, lengthened along the cloth
// (axis 0) or across it (axis 1).
type idleGroup struct {
	*setting
	axis  int
	group int     // of the problem
	idle  float64 // the most that a piece is lengthened by, mm
}

// idleGroups returns, for either axis, that of the groups of a tied setting which covers
// most with what stays idle; none where nothing does.
func (s *setting) idleGroups() []idleGroup {
	groups := make([][]item, len(s.groups))
	for _, it := range s.items {
		if it.group > 0 {
			groups[it.group-1] = append(groups[it.group-1], it)
		}
	}
	var out []idleGroup
	for axis := range s.repeat {
		best := idleGroup{setting: &setting{}}
		for n, items := range groups {
			alone := *s
			alone.items = items
			if long, idle := alone.lengthened(axis); idle > 0 && long.area() > best.area() {
				best = idleGroup{long, axis, s.groups[n], idle}
			}
		}
		if best.idle > 0 {
			out = append(out, best)
		}
	}
	return out
}

// lengthened returns the setting with every piece lengthened by what stays idle behind it
// on an axis, and the most of that; none where a piece is not convex. Across the cloth, that
// is wider by as much.
func (s *setting) lengthened(axis int) (long *setting, most float64) {
	out := *s
	if axis == 1 {
		out = *s.crosswise()
	}
	if out.repeat[0] == 0 {
		return nil, 0
	}
	along := out
	out.items = nil
	for _, it := range along.items {
		it.ways = slices.Clone(it.ways)
		for k, w := range it.ways {
			if !convex(w.ring) {
				return nil, 0
			}
			idle := along.idleBehind(w)
			it.ways[k].ring, it.ways[k].along = extended(w.ring, idle), w.along+idle
			most = max(most, idle)
		}
		out.items = append(out.items, it)
	}
	long = &out
	if axis == 1 {
		long = out.crosswise()
		long.width = s.width + most
	}
	long.profiles = make(map[profileKey]profile)
	return long, most
}

// idleBehind returns what stays idle behind a piece that lies in a way, whichever piece
// of the setting, all of one group, follows it, mm.
func (s *setting) idleBehind(w way) float64 {
	least := s.repeat[0]
	for _, it := range s.items {
		for _, next := range it.ways {
			touching := rightBorder(w.ring, next.ring)
			nearest := min(touching.x[0], touching.x[len(touching.x)-1]) // concave: least at an end
			farthest := slices.Max(touching.x) + s.gap
			step := nextOn(nearest-repeatSlack, w.point[0]-next.point[0], s.repeat[0]) - repeatSlack
			least = min(least, step-farthest)
		}
	}
	return max(least, 0)
}

// extended returns a convex ring with what it sweeps when it is moved on along the cloth.
func extended(ring orb.Ring, by float64) orb.Ring {
	if by == 0 {
		return ring
	}
	points := slices.Clone(ring)
	for _, v := range ring {
		points = append(points, orb.Point{v[0] + by, v[1]})
	}
	return plane.Hull(points)
}

// countIdle adds the bounds of lines and prices of pieces that the repeat lengthens.
func (f *finder) countIdle(s idleGroup) {
	off := 0.0 // by how much the cloth is longer
	if s.axis == 0 {
		off = s.idle
	}
	longer := finder{ctx: f.ctx, best: f.best + off, work: f.work}
	longer.sweep(s.setting)
	longer.price(s.setting)
	f.work = longer.work
	for _, found := range longer.found {
		b := newBound(found.Kind, found.Certificate.Length-off)
		for _, it := range s.items {
			b.Pieces = append(b.Pieces, it.name)
		}
		found.Certificate.Length = b.Certificate.Length
		b.Certificate = found.Certificate
		b.Certificate.Repeat, b.Certificate.Group, b.Certificate.Idle[s.axis] = s.repeat[s.axis], s.group, s.idle
		f.add(b)
	}
}
