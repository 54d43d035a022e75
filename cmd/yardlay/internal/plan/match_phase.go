package plan

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// settle chooses point and phase of the pieces that hang together. The biggest
// one lies on the cut end and the lower edge as drawn.
func (m *matcher) settle(pieces []int) {
	biggest, middle := pieces[0], -1
	for _, i := range pieces {
		if m.area(i) > m.area(biggest) {
			biggest = i
		}
		if m.ownMirrorImage(i) && (middle < 0 || m.area(i) > m.area(middle)) {
			middle = i
		}
	}
	point := m.firstPoint(biggest)
	if middle >= 0 {
		b := plane.Bounds(m.whole[middle].Cut)
		point[1] = (b.Min[1]+b.Max[1])/2 + m.at[middle][1] - m.at[biggest][1]
	}
	pose := plane.Pose{Turn: turns(m.spread.Cloth.Nap, m.spread.Parts[biggest])[0]}
	low := plane.Bounds(pose.Apply(m.whole[biggest].Cut)).Min
	phase := sub(pose.Apply(orb.Ring{point})[0], low)
	for axis, repeat := range []float64{m.repeat.Along, m.repeat.Across} {
		if repeat > 0 {
			phase[axis] -= math.Floor(phase[axis]/repeat) * repeat
		}
	}
	for _, i := range pieces {
		m.matches[i] = &nest.Match{Point: add(point, sub(m.at[biggest], m.at[i])), Phase: phase}
	}
}

func (m *matcher) area(i int) float64 { return plane.Area(m.whole[i].Cut) }

// firstPoint returns the first point of a piece that is matched.
func (m *matcher) firstPoint(i int) orb.Point {
	for _, a := range m.agree {
		for _, p := range a.points {
			if p.piece == i {
				return p.place
			}
		}
	}
	return orb.Point{}
}

// ownMirrorImage says whether a piece that is no pair is alike on both sides of
// its middle, to the tolerance of matches.
func (m *matcher) ownMirrorImage(i int) bool {
	if m.whole[i].Pair {
		return false
	}
	cut := m.whole[i].Cut
	b := plane.Bounds(cut)
	for _, v := range cut {
		across := b.Min[1] + b.Max[1] - v[1]
		if !slices.ContainsFunc(cut, func(w orb.Point) bool {
			return math.Hypot(w[0]-v[0], w[1]-across) <= matchTolerance
		}) {
			return false
		}
	}
	return true
}

func add(a, b orb.Point) orb.Point { return orb.Point{a[0] + b[0], a[1] + b[1]} }
func sub(a, b orb.Point) orb.Point { return orb.Point{a[0] - b[0], a[1] - b[1]} }
