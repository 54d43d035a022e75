package bound

import (
	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// setting is a problem made ready: pieces merged, profiles kept.
type setting struct {
	width, gap float64
	items      []item
	tied       bool       // the repeat is counted: see Problem.tied
	repeat     [2]float64 // along and across, mm; 0 where there is none
	groups     []int      // of the problem, in the order of those of items
	zones      []orb.Ring // disjoint
	profiles   map[profileKey]profile
}

type profileKey struct {
	item, way int
	axis      Axis
	tol       float64
}

// settings returns the one or two problems whose bounds hold for p: one with the
// gap, and, when there are forbidden zones too, one with those and no gap, since
// no gap is kept from a zone.
func (p Problem) settings() []*setting {
	items := p.merged(nil)
	s := &setting{width: p.Width, items: items, profiles: make(map[profileKey]profile)}
	s.zones = apart(p.Forbidden)
	if p.Gap == 0 {
		return []*setting{s}
	}
	g := &setting{width: p.Width, gap: p.Gap, items: items, profiles: make(map[profileKey]profile)}
	if len(s.zones) == 0 {
		return []*setting{g}
	}
	return []*setting{g, s}
}

// profile returns the profile of a way, grown by the gap, at most tol too low.
func (s *setting) profile(item, way int, axis Axis, tol float64) profile {
	key := profileKey{item, way, axis, tol}
	if p, ok := s.profiles[key]; ok {
		return p
	}
	var p profile
	if w := s.items[item].ways[way]; tol == 0 && w.shifted != nil {
		p = grownParts(nonEmpty(w.shifted), axis, s.gap)
	} else if tol == 0 {
		p = grown(s.items[item].ways[way].ring, axis, s.gap)
	} else {
		p = s.profile(item, way, axis, 0).simpler(tol)
	}
	s.profiles[key] = p
	return p
}

// area is what all pieces cover at the least, mm2: snapped to the lattice, the
// ways of a piece differ by a little.
func (s *setting) area() float64 {
	sum := 0.0
	for _, it := range s.items {
		sum += it.area() * float64(it.count)
	}
	return sum
}

// longest returns the item that is longest along the cloth in its shortest way.
func (s *setting) longest() (name string, along float64) {
	for _, it := range s.items {
		least := 0.0
		for i, w := range it.ways {
			if i == 0 || w.along < least {
				least = w.along
			}
		}
		if least > along {
			name, along = it.name, least
		}
	}
	return name, along
}

// apart returns zones whose upright boxes do not overlap, first come first
// served: what two zones cover together must not count twice.
func apart(zones []orb.Ring) []orb.Ring {
	var out []orb.Ring
	var boxes []orb.Bound
next:
	for _, z := range zones {
		b := plane.Bounds(z)
		for _, o := range boxes {
			if b.Min[0] < o.Max[0] && o.Min[0] < b.Max[0] && b.Min[1] < o.Max[1] && o.Min[1] < b.Max[1] {
				continue next
			}
		}
		out, boxes = append(out, z), append(boxes, b)
	}
	return out
}

// clip returns the part of a ring on the cloth, 0 to length by 0 to width. Parts
// of a ring that falls apart stay joined by edges along the cloth's, which take
// up no line.
func clip(ring orb.Ring, length, width float64) orb.Ring {
	for side := range 4 {
		axis, limit, sign := side/2, 0.0, 1.0
		if side%2 == 1 {
			limit, sign = []float64{length, width}[axis], -1
		}
		inside := func(v orb.Point) bool { return sign*(v[axis]-limit) >= 0 }
		var out orb.Ring
		for i := 1; i < len(ring); i++ {
			a, b := ring[i-1], ring[i]
			if inside(a) != inside(b) {
				t := (limit - a[axis]) / (b[axis] - a[axis])
				v := orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
				v[axis] = limit
				out = append(out, v)
			}
			if inside(b) {
				out = append(out, b)
			}
		}
		if len(out) > 0 {
			out = append(out, out[0])
		}
		ring = out
	}
	return ring
}
