package hand

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// Contact is where a piece in the hand comes to lie.
type Contact struct {
	Place   nest.Placed // on the lattice; the wish itself where no contact is near
	Snapped bool        // Place is in contact, or on the repeat, and free
	Touches []int       // what Place touches: indices into the others; of a flaw -1 less its number
	Edge    bool        // Place lies against an edge, a fold, the cut end or the end of the cloth
}

// Contact returns the place nearest to the wish, within so many mm of it, at which the
// piece touches a neighbour, an edge or a flaw and lies over none: pushed over a
// neighbour it slides along it. On a repeat that a placed copy of its group, or the
// problem, has settled, it is the nearest place on the repeat that is free, however far
// within a repeat or so.
func (t *Table) Contact(wish nest.Placed, others []nest.Placed, within float64) Contact {
	t.mu.Lock()
	defer t.mu.Unlock()
	if !t.knows(wish) {
		return Contact{Place: wish}
	}
	t.forget()
	wish.At = plane.SnapPoint(wish.At)
	grid := t.gridOf(wish, others)
	f := finder{Table: t, wish: wish, others: others, grid: grid, within: grid.reach(within)}
	around := orb.Bound{Min: wish.At, Max: wish.At}.Pad(f.within)
	f.obstacles = t.obstaclesTo(wish, others, around)
	for _, room := range t.problem.Room(wish) {
		f.look(room, around)
	}
	return f.nearest()
}

// finder looks for contacts of one piece.
type finder struct {
	*Table
	wish      nest.Placed
	others    []nest.Placed
	grid      grid
	within    float64
	obstacles []obstacle
	stretches []stretch
	places    []place
}

// place is a place in reach, and how far off the wish it is, mm.
type place struct {
	at  orb.Point
	off float64
}

// stretch is a straight piece of what bounds the free places, and how near the wish it
// comes. Those of one owner do not cross.
type stretch struct {
	from, to orb.Point
	owner    int // index of the obstacle; -1: an edge of the room
	off      float64
}

// mostCrossed bounds the stretches, the nearest to the wish first, of which each two
// are crossed: far more than there are within a hand's breadth among the pieces of a gown.
const mostCrossed = 700

// look offers the places of a room: where the wish comes nearest to each stretch, where
// two stretches cross and, on a repeat, where they cross its lines.
func (f *finder) look(room, around orb.Bound) {
	f.stretches = f.stretches[:0]
	for k, o := range f.obstacles {
		o.region.Boundary(func(p, q orb.Point) { f.bounded(shift(p, o.at), shift(q, o.at), k, around) })
	}
	corners := [4]orb.Point{room.Min, {room.Max[0], room.Min[1]}, room.Max, {room.Min[0], room.Max[1]}}
	for i, c := range corners {
		f.bounded(c, corners[(i+1)%4], -1, around)
	}
	slices.SortStableFunc(f.stretches, func(a, b stretch) int { return cmp.Compare(a.off, b.off) })
	clamped := nearestIn(room, f.wish.At)
	if clamped != f.wish.At {
		f.keep(room, clamped)
	}
	if f.grid.tied() {
		f.lookOnGrid(room)
		return
	}
	for _, s := range f.stretches {
		f.keep(room, s.nearest(f.wish.At))
	}
	for i, s := range f.stretches[:min(len(f.stretches), mostCrossed)] {
		for _, o := range f.stretches[:i] {
			if s.owner != o.owner || s.owner < 0 {
				if at, ok := s.crossing(o); ok {
					f.keep(room, at)
				}
			}
		}
	}
}

// bounded notes a stretch that comes within reach of the wish.
func (f *finder) bounded(p, q orb.Point, owner int, around orb.Bound) {
	if max(p[0], q[0]) < around.Min[0] || min(p[0], q[0]) > around.Max[0] ||
		max(p[1], q[1]) < around.Min[1] || min(p[1], q[1]) > around.Max[1] {
		return
	}
	s := stretch{from: p, to: q, owner: owner}
	if s.off = distance(s.nearest(f.wish.At), f.wish.At); s.off <= f.within {
		f.stretches = append(f.stretches, s)
	}
}

// keep offers a place that lies in the room, up to rounding, and within reach.
func (f *finder) keep(room orb.Bound, at orb.Point) {
	in := nearestIn(room, at)
	if distance(in, at) > plane.Lattice {
		return
	}
	if off := distance(in, f.wish.At); off <= f.within+plane.Lattice {
		f.places = append(f.places, place{in, off})
	}
}

// nearest returns the nearest of the places offered at which the piece lies over nothing: the
// wish itself where that is one already.
func (f *finder) nearest() Contact {
	slices.SortStableFunc(f.places, func(a, b place) int { return cmp.Compare(a.off, b.off) })
	if len(f.places) > 0 && f.places[0].off <= touching && !blocked(f.faults(f.wish, f.others)) {
		return f.at(f.wish.At)
	}
	for k, p := range f.places {
		if k > 0 && p.at == f.places[k-1].at || !f.free(p.at) {
			continue
		}
		if at, ok := f.rounded(p.at); ok {
			return f.at(at)
		}
	}
	return Contact{Place: f.wish}
}

// free says whether a place lies outside all regions, by what the search allows.
func (f *finder) free(at orb.Point) bool {
	for _, o := range f.obstacles {
		if d, _, _ := o.region.Depth(at[0]-o.at[0], at[1]-o.at[1]); d > plane.Lattice/4 {
			return false
		}
	}
	return true
}

// rounded brings a place onto the lattice, at the nearest of the four steps about it that
// the judge allows.
func (f *finder) rounded(at orb.Point) (orb.Point, bool) {
	low := orb.Point{plane.Floor(at[0]), plane.Floor(at[1])}
	steps := []orb.Point{plane.SnapPoint(at)}
	for _, x := range [2]float64{low[0], low[0] + plane.Lattice} {
		for _, y := range [2]float64{low[1], low[1] + plane.Lattice} {
			steps = append(steps, orb.Point{x, y})
		}
	}
	slices.SortStableFunc(steps[1:], func(a, b orb.Point) int { return cmp.Compare(distance(a, at), distance(b, at)) })
	held := f.wish
	for _, held.At = range steps {
		if !blocked(f.faults(held, f.others)) {
			return held.At, true
		}
	}
	return at, false
}

// touching is how far off a boundary a place may lie and be in contact, mm: what rounding
// to the lattice takes on both axes.
const touching = 3 * plane.Lattice

// at describes the contact at a place.
func (f *finder) at(at orb.Point) Contact {
	c := Contact{Place: f.wish, Snapped: true}
	c.Place.At = at
	for _, o := range f.obstacles {
		touches := false
		o.region.Boundary(func(p, q orb.Point) {
			s := stretch{from: shift(p, o.at), to: shift(q, o.at)}
			touches = touches || distance(s.nearest(at), at) <= touching
		})
		if touches {
			c.Touches = append(c.Touches, o.index)
		}
	}
	for _, room := range f.problem.Room(f.wish) {
		for axis := range 2 {
			c.Edge = c.Edge || at[axis] == room.Min[axis] || at[axis] == room.Max[axis]
		}
	}
	return c
}

// nearest returns the point of a stretch that is nearest to p.
func (s *stretch) nearest(p orb.Point) orb.Point {
	d := orb.Point{s.to[0] - s.from[0], s.to[1] - s.from[1]}
	square := d[0]*d[0] + d[1]*d[1]
	if square == 0 {
		return s.from
	}
	u := ((p[0]-s.from[0])*d[0] + (p[1]-s.from[1])*d[1]) / square
	switch {
	case u <= 0:
		return s.from
	case u >= 1:
		return s.to
	}
	return s.along(u)
}

// along returns the point a share u of the way along; of a stretch along an axis it lies
// on it to the last bit.
func (s *stretch) along(u float64) orb.Point {
	p := orb.Point{s.from[0] + u*(s.to[0]-s.from[0]), s.from[1] + u*(s.to[1]-s.from[1])}
	for axis := range 2 {
		if s.from[axis] == s.to[axis] {
			p[axis] = s.from[axis]
		}
	}
	return p
}

// crossing returns where two stretches cross, a step beyond their ends included.
func (s *stretch) crossing(o stretch) (orb.Point, bool) {
	d := orb.Point{s.to[0] - s.from[0], s.to[1] - s.from[1]}
	e := orb.Point{o.to[0] - o.from[0], o.to[1] - o.from[1]}
	det := d[0]*e[1] - d[1]*e[0]
	if det == 0 {
		return orb.Point{}, false
	}
	g := orb.Point{o.from[0] - s.from[0], o.from[1] - s.from[1]}
	u, v := (g[0]*e[1]-g[1]*e[0])/det, (g[0]*d[1]-g[1]*d[0])/det
	overS, overO := touching/math.Hypot(d[0], d[1]), touching/math.Hypot(e[0], e[1])
	if u < -overS || u > 1+overS || v < -overO || v > 1+overO {
		return orb.Point{}, false
	}
	p, q := s.along(u), o.along(v)
	for axis := range 2 { // which of them lies along an axis has the last bit
		if o.from[axis] == o.to[axis] {
			p[axis] = q[axis]
		}
	}
	return p, true
}

func shift(p, by orb.Point) orb.Point { return orb.Point{p[0] + by[0], p[1] + by[1]} }

func distance(p, q orb.Point) float64 { return math.Hypot(p[0]-q[0], p[1]-q[1]) }

// nearestIn returns the point of a bound nearest to p.
func nearestIn(b orb.Bound, p orb.Point) orb.Point {
	return orb.Point{min(max(p[0], b.Min[0]), b.Max[0]), min(max(p[1], b.Min[1]), b.Max[1])}
}
