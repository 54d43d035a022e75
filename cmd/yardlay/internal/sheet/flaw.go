package sheet

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes/plane"
)

// flaw draws a place that nobody cuts, named in it or, where there is no room,
// beside it.
func (l lay) flaw(f Flaw) Group {
	name := f.Name
	if name == "" {
		name = "flaw"
	}
	g := Group{Title: name}
	ring := l.ring(f.Outline)
	if !finite(ring) {
		g.Items = []Item{Shape{Role: RoleFlaw, Ring: ring}} // for the writer to refuse
		return g
	}
	ring = clip.Ring(orb.Bound{Min: orb.Point{l.start(), l.top()}, Max: orb.Point{l.far(), l.bottom()}}, ring)
	if len(ring) < 4 {
		return g
	}
	g.Items = append([]Item{Shape{Role: RoleFlaw, Ring: ring}}, hatched(RoleFlaw, ring, flawStep*l.k, 45, -45)...)
	words, ok := labelled(Outline{Cut: ring}, blocks(name), l.k)
	if !ok {
		words, ok = l.beside(ring, name)
	}
	if ok {
		words.plate = false
		g.Items = append(g.Items, Shape{Role: RoleGround, Ring: words.outline()})
		g.Items = append(g.Items, words.items(RoleNote, 0)...)
	}
	return g
}

// ring moves a ring of the stretch to the page.
func (l lay) ring(r orb.Ring) orb.Ring { return Outline{Cut: r}.onto(l.origin).Cut }

// beside looks for the place of a name on the cloth next to a ring on the page,
// clear of pieces and flaws: right, left, over or under it, then level with its
// upper or lower edge, at the largest size that has one.
func (l lay) beside(ring orb.Ring, name string) (label, bool) {
	b, room := ring.Bound(), 0.5*l.k
	c := b.Center()
	for _, size := range wordStyle.sizes[1:] {
		size *= l.k
		w, h := textWidth(name, size)/2, size*lineHeight/2
		right, left := b.Max[0]+room+w, b.Min[0]-room-w
		for _, at := range []orb.Point{
			{right, c[1]}, {left, c[1]}, {c[0], b.Min[1] - room - h}, {c[0], b.Max[1] + room + h},
			{right, b.Min[1] + h}, {right, b.Max[1] - h}, {left, b.Min[1] + h}, {left, b.Max[1] - h},
			{right, b.Min[1] - h}, {right, b.Max[1] + h}, {left, b.Min[1] - h}, {left, b.Max[1] + h},
		} {
			if l.free(Box(at[0]-w, at[1]-h, at[0]+w, at[1]+h)) {
				return label{lines: []string{name}, at: at, size: size, line: lineHeight}, true
			}
		}
	}
	return label{}, false
}

// free tells whether a box lies on the cloth, where pieces may lie, without
// touching a piece or a flaw.
func (l lay) free(b orb.Ring) bool {
	laid := orb.Bound{Min: orb.Point{l.origin[0], l.top() + l.above()},
		Max: orb.Point{l.used(), l.bottom() - l.below()}}
	if !laid.Contains(b[0]) || !laid.Contains(b[2]) {
		return false
	}
	if y := (l.top() + l.bottom()) / 2; l.Lay == DoubleFold && b[0][1] < y+l.Selvedge && b[2][1] > y-l.Selvedge {
		return false
	}
	for _, p := range l.Pieces {
		if touches(b, l.ring(p.Cut)) {
			return false
		}
	}
	for _, f := range l.Flaws {
		if touches(b, l.ring(f.Outline)) {
			return false
		}
	}
	return true
}

// finite tells whether all coordinates are finite numbers.
func finite(r orb.Ring) bool {
	return !slices.ContainsFunc(r, func(p orb.Point) bool {
		return math.IsNaN(p[0]+p[1]) || math.IsInf(p[0], 0) || math.IsInf(p[1], 0)
	})
}

// touches tells whether two rings share a point; of numbers that are not finite
// it says so.
func touches(a, b orb.Ring) bool {
	if !finite(a) || !finite(b) {
		return true
	}
	if len(a) < 4 || len(b) < 4 {
		return false
	}
	for i := 1; i < len(a); i++ {
		for j := 1; j < len(b); j++ {
			if plane.SegmentsMeet(a[i-1], a[i], b[j-1], b[j]) {
				return true
			}
		}
	}
	return planar.RingContains(a, b[0]) || planar.RingContains(b, a[0])
}
