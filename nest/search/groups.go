package search

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Seat says where a ring may come to lie. The zero value: anywhere on the strip.
type Seat struct {
	Low, High float64   // the ring stays within these levels across the strip, mm; High 0: to its far edge
	Point     orb.Point // of the unmoved ring: it lies on the phase of the item's group
}

// Group is items whose points lie on one phase of the repeat: whole repeats from
// it, each to the nearest step of the lattice. The phase is free unless given, mm.
type Group struct {
	Given bool
	Phase orb.Point
}

// group is a Group with its items.
type group struct {
	Group
	phase   orb.Point // to begin with
	members []int
	kinds   []int // the first member of each kind
	loose   bool  // all of it lies on a strip without end at any phase
}

// gather finds the members of the groups.
func (in *instance) gather(given []Group) {
	for _, g := range given {
		in.groups = append(in.groups, group{Group: g, phase: g.Phase})
	}
	seen := map[int]bool{}
	for i, it := range in.items[:in.movable] {
		if it.group < 0 {
			continue
		}
		g := &in.groups[it.group]
		g.members = append(g.members, i)
		if !seen[it.kind] {
			seen[it.kind] = true
			g.kinds = append(g.kinds, i)
		}
	}
	for g := range in.groups {
		if !in.groups[g].Given {
			in.groups[g].phase = in.firstPhase(g)
		}
		in.groups[g].loose = in.isLoose(g)
	}
}

// isLoose says whether every member of a group has, in some way, room for a whole
// repeat across the strip.
func (in *instance) isLoose(g int) bool {
	for _, i := range in.groups[g].kinds {
		if !slices.ContainsFunc(in.items[i].ways, func(w way) bool {
			return w.hi >= w.lo && (in.repeat[1] == 0 || w.hi-w.lo >= in.repeat[1]+plane.Lattice)
		}) {
			return false
		}
	}
	return true
}

// alongAt returns where the corner of item i may be in a way along a strip of a length.
func (in *instance) alongAt(p *placement, i int, w *way, length float64) track {
	t := track{hi: length - in.shapes[w.shape].w}
	if g := in.items[i].group; g >= 0 && in.repeat[0] > 0 {
		t.step, t.phase = in.repeat[0], p.phase[g][0]-w.point[0]
		t.hi -= halfStep // which its slack makes up for: the strip is no longer
	}
	return t
}

// acrossAt returns where it may be across the strip.
func (in *instance) acrossAt(p *placement, i int, w *way) track {
	t := track{lo: w.lo, hi: w.hi}
	if g := in.items[i].group; g >= 0 && in.repeat[1] > 0 {
		t.step, t.phase = in.repeat[1], p.phase[g][1]-w.point[1]
		t.hi = plane.Floor(t.hi)
	}
	return t
}

// hasRoom says whether item i has any place in a way on a strip of a length.
func (in *instance) hasRoom(p *placement, i int, w *way, length float64) bool {
	return !in.alongAt(p, i, w, length).empty() && !in.acrossAt(p, i, w).empty()
}

// groupFits says whether every member of a group has a place, at its phase in p.
func (in *instance) groupFits(p *placement, g int, length float64) bool {
	for _, i := range in.groups[g].kinds {
		fits := false
		for k := range in.items[i].ways {
			fits = fits || in.hasRoom(p, i, &in.items[i].ways[k], length)
		}
		if !fits {
			return false
		}
	}
	return true
}

// firstPhase returns a phase at which all of a group lies on a strip without end.
func (in *instance) firstPhase(g int) orb.Point {
	p := in.phasesOnly()
	for phase := range in.cornerPhases(g, math.Inf(1)) {
		if p.phase[g] = phase; in.groupFits(p, g, math.Inf(1)) {
			return phase
		}
	}
	return p.phase[g] // there is none, which nest.Check refuses
}

// phasesOnly returns a placement without items.
func (in *instance) phasesOnly() *placement {
	return &placement{phase: make([]orb.Point, len(in.groups))}
}

// cornerPhases goes through the phases that put some member of a group against an
// edge of the strip across it and, where the strip has a length, against an end.
// If any phase lets all of the group lie on the strip one of these does.
func (in *instance) cornerPhases(g int, length float64) func(yield func(orb.Point) bool) {
	return func(yield func(orb.Point) bool) {
		var along, across []float64
		seen := [2]map[float64]bool{{}, {}}
		note := func(axis int, list *[]float64, v float64) {
			if r := in.repeat[axis]; r > 0 {
				v -= math.Floor(v/r) * r
			} else {
				v = 0
			}
			if !seen[axis][v] {
				seen[axis][v] = true
				*list = append(*list, v)
			}
		}
		for _, i := range in.groups[g].kinds {
			for k := range in.items[i].ways {
				w := &in.items[i].ways[k]
				note(0, &along, w.point[0])
				if end := length - in.shapes[w.shape].w; end >= 0 && !math.IsInf(end, 1) {
					note(0, &along, end+w.point[0])
				}
				note(1, &across, w.lo+w.point[1])
				note(1, &across, plane.Floor(w.hi)+w.point[1])
			}
		}
		for _, x := range along {
			for _, y := range across {
				if !yield(orb.Point{x, y}) {
					return
				}
			}
		}
	}
}

// refit gives a group of the lane another phase where not all of it lies on the
// strip at the present one. False: there is none.
func (l *lane) refit(g int) bool {
	if l.groupFits(l.at, g, l.length) {
		return true
	}
	if l.groups[g].Given {
		return false
	}
	was, best, least := l.at.phase[g], orb.Point{}, math.Inf(1)
	for phase := range l.cornerPhases(g, l.length) {
		off := math.Hypot(l.turns(0, phase[0]-was[0]), l.turns(1, phase[1]-was[1]))
		if l.at.phase[g] = phase; off < least && l.groupFits(l.at, g, l.length) {
			best, least = phase, off
		}
	}
	l.at.phase[g] = best
	return !math.IsInf(least, 1)
}

// turns returns the shortest way between two phases that differ by d; 0 on an axis
// without a repeat.
func (in *instance) turns(axis int, d float64) float64 {
	if in.repeat[axis] == 0 {
		return 0
	}
	return math.Remainder(d, in.repeat[axis])
}

// readPhases finds the phases of the groups from where their items lie: midway
// between those that the first and the last of them ask for.
func (in *instance) readPhases(p *placement) {
	for g := range in.groups {
		if in.groups[g].Given || len(in.groups[g].members) == 0 {
			continue
		}
		var first, least, most orb.Point
		for n, i := range in.groups[g].members {
			at := in.pointAt(p, i)
			if n == 0 {
				first = at
			}
			for axis := range at {
				off := in.turns(axis, at[axis]-first[axis])
				least[axis], most[axis] = math.Min(least[axis], off), math.Max(most[axis], off)
			}
		}
		p.phase[g] = orb.Point{first[0] + (least[0]+most[0])/2, first[1] + (least[1]+most[1])/2}
	}
}

// pointAt returns where the point of item i that lies on the repeat is.
func (in *instance) pointAt(p *placement, i int) orb.Point {
	w := &in.items[i].ways[p.way[i]]
	return orb.Point{p.x[i] + w.point[0], p.y[i] + w.point[1]}
}

// roundPhases moves free phases so that the first member of each group comes to
// lie on a multiple of quantum.
func (in *instance) roundPhases(p *placement, quantum float64) {
	for g := range in.groups {
		if in.groups[g].Given || len(in.groups[g].members) == 0 {
			continue
		}
		i := in.groups[g].members[0]
		p.phase[g][0] += math.RoundToEven(p.x[i]/quantum)*quantum - p.x[i]
		p.phase[g][1] += math.RoundToEven(p.y[i]/quantum)*quantum - p.y[i]
	}
}

// leastLength returns a length that no layout can be shorter than: at a given phase
// even the first place may lie beyond the cut end.
func (in *instance) leastLength() float64 {
	least, p := 0.0, in.phasesOnly()
	for g := range in.groups {
		if p.phase[g] = in.groups[g].phase; !in.groups[g].Given {
			continue
		}
		for _, i := range in.groups[g].kinds {
			soonest := math.Inf(1)
			for k := range in.items[i].ways {
				if w := &in.items[i].ways[k]; !in.acrossAt(p, i, w).empty() {
					soonest = math.Min(soonest, in.alongAt(p, i, w, math.Inf(1)).next(0)-halfStep+in.shapes[w.shape].w)
				}
			}
			if !math.IsInf(soonest, 1) {
				least = math.Max(least, soonest)
			}
		}
	}
	return least
}
