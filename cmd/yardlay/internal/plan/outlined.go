package plan

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/nest"
	"yardlay/shapes/plane"
)

// NoCloth names the zones round the outline of a leftover.
const NoCloth = "no cloth"

// asWashed is the spread of a cloth that has been washed: it changes no more, and its repeat and
// selvedges are as the wash left them.
func (s Spread) asWashed() Spread {
	s.Cloth.Repeat = job.Repeat{Along: s.WashedAlong(s.Cloth.Repeat.Along), Across: s.WashedAcross(s.Cloth.Repeat.Across)}
	s.Cloth.Selvedge, s.Cloth.Width = s.WashedAcross(s.Cloth.Selvedge), s.WashedAcross(s.Cloth.Width)
	s.Cloth.Shrinkage = job.Shrinkage{}
	return s
}

// outlined is a leftover of which there is more than a rectangle to tell: a strip as long and as wide as
// its outline reaches, where what lies outside is forbidden. All of the outline is laid on: no end, no
// selvedge and no skew are taken off. Where the cloth has a repeat, a corner of it lies in (0, 0).
func (s Spread) outlined(h job.Have) shelf.Length {
	ring, by := s.asLaid(h.Outline, orb.Point{})
	strip := s.strip(s.Cloth.Width, nil)
	least := plane.Bounds(ring).Min
	if strip.Repeat.Along == 0 {
		by[0] = -least[0]
	}
	if strip.Repeat.Across == 0 {
		by[1] = -least[1]
	}
	ring, _ = s.asLaid(h.Outline, by)
	box := plane.Bounds(ring)
	strip.MaxLength, strip.Width = box.Max[0], box.Max[1]
	l := shelf.Length{Name: h.Name}
	for _, zone := range outside(ring) {
		if !exact(h.Outline, ring) {
			zone = outward(zone)
		}
		strip.Forbidden = append(strip.Forbidden, zone)
	}
	l.NoCloth = strip.MaxLength*strip.Width - plane.Area(ring)
	for _, f := range h.Flaws {
		zone, _ := s.asLaid(f.Outline, by)
		strip.Forbidden = append(strip.Forbidden, outward(zone))
	}
	l.Strip = strip
	return l
}

// asLaid is a ring of a leftover's outline as the cloth lies when it is cut, moved.
func (s Spread) asLaid(ring orb.Ring, by orb.Point) (orb.Ring, orb.Point) {
	out := make(orb.Ring, len(ring))
	for i, v := range ring {
		out[i] = orb.Point{s.WashedAlong(v[0]) + by[0], s.WashedAcross(v[1]) + by[1]}
	}
	return plane.SnapRing(out), by
}

// exact says whether a ring was moved by steps of the lattice and no more.
func exact(was, is orb.Ring) bool {
	for i := range was {
		if was[i] != plane.SnapPoint(was[i]) || is[i][0]-is[0][0] != was[i][0]-was[0][0] ||
			is[i][1]-is[0][1] != was[i][1]-was[0][1] {
			return false
		}
	}
	return true
}

// outside lists the parts of the box from (0, 0) to the farthest corner of a ring that lie outside it,
// apart from each other: each bay between two corners that touch the box round the ring, and what lies
// before that box. The ring is closed, simple and counter-clockwise, nowhere below 0.
func outside(ring orb.Ring) []orb.Ring {
	box := plane.Bounds(ring)
	var zones []orb.Ring
	if box.Min[0] > 0 {
		zones = append(zones, orb.Bound{Max: orb.Point{box.Min[0], box.Max[1]}}.ToRing())
	}
	if box.Min[1] > 0 {
		zones = append(zones, orb.Bound{Min: orb.Point{box.Min[0], 0}, Max: orb.Point{box.Max[0], box.Min[1]}}.ToRing())
	}
	open := ring[:len(ring)-1]
	first := slices.IndexFunc(open, func(v orb.Point) bool { return onEdge(box, v) })
	open = append(slices.Clone(open[first:]), open[:first+1]...)
	bay := orb.Ring{open[0]}
	for _, v := range open[1:] {
		bay = append(bay, v)
		if !onEdge(box, v) {
			continue
		}
		if zone := closedBy(box, bay); zone != nil {
			zones = append(zones, zone)
		}
		bay = orb.Ring{v}
	}
	return zones
}

// onEdge says whether a point lies on the edge of a box.
func onEdge(b orb.Bound, v orb.Point) bool {
	return v[0] == b.Min[0] || v[0] == b.Max[0] || v[1] == b.Min[1] || v[1] == b.Max[1]
}

// closedBy closes a bay along the edge of the box; nil where it encloses nothing.
func closedBy(b orb.Bound, bay orb.Ring) orb.Ring {
	long, wide := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	from, to := roundBox(b, bay[0]), roundBox(b, bay[len(bay)-1])
	if to < from {
		to += 2 * (long + wide)
	}
	corners := []struct {
		at float64
		v  orb.Point
	}{
		{0, b.Min}, {long, orb.Point{b.Max[0], b.Min[1]}}, {long + wide, b.Max},
		{2*long + wide, orb.Point{b.Min[0], b.Max[1]}},
	}
	zone := slices.Clone(bay)
	for turn := 1; turn >= 0; turn-- {
		for i := len(corners) - 1; i >= 0; i-- {
			if at := corners[i].at + float64(turn)*2*(long+wide); from < at && at < to {
				zone = append(zone, corners[i].v)
			}
		}
	}
	zone = plane.Tidy(append(zone, bay[0]))
	if len(zone) < 4 || math.Abs(plane.Area(zone)) == 0 {
		return nil
	}
	return zone
}

// roundBox is how far round the edge of a box a point on it lies, counter-clockwise from its least corner.
func roundBox(b orb.Bound, v orb.Point) float64 {
	long, wide := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	switch {
	case v[1] == b.Min[1]:
		return v[0] - b.Min[0]
	case v[0] == b.Max[0]:
		return long + v[1] - b.Min[1]
	case v[1] == b.Max[1]:
		return long + wide + b.Max[0] - v[0]
	}
	return 2*long + wide + b.Max[1] - v[1]
}

// LeftoverArea is what a leftover covers as it lies when it is cut, edges and ends too, mm2.
func (s Spread) LeftoverArea(h job.Have) float64 {
	if h.Washed {
		s = s.asWashed()
	}
	washed := s.WashedAlong(1) * s.WashedAcross(1)
	switch {
	case h.Outline != nil:
		return plane.Area(h.Outline) * washed
	case h.Width == 0:
		return h.Length * s.Cloth.Width * washed
	}
	return h.Length * h.Width * washed
}

// LeftoverZones names the zones of a leftover's strip: what is no cloth, and its flaws; nil for a single flaw.
func (s Spread) LeftoverZones(h job.Have, strip nest.Strip) []string {
	if h.Outline == nil {
		return s.FlawNames(strip.Forbidden, h.Flaws)
	}
	var names []string
	for range len(strip.Forbidden) - len(h.Flaws) {
		names = append(names, NoCloth)
	}
	for i := range h.Flaws {
		names = append(names, fmt.Sprintf("flaw %d", i+1))
	}
	return names
}
