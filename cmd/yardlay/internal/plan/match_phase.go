package plan

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// tie chooses the points of pieces that hang together, and their groups: one for
// each set that is cut of all of them.
func (m *matcher) tie(pieces []int) {
	biggest, middle, sets := pieces[0], -1, 0
	for _, i := range pieces {
		sets = divisor(m.spread.setsOf(i), sets)
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
	for _, i := range pieces {
		match := &nest.Match{Point: add(point, sub(m.at[biggest], m.at[i]))}
		count := m.spread.Cuts[i].Piece.Count
		for k := range count {
			match.Groups = append(match.Groups, m.groups+k*sets/count)
		}
		m.matches[i] = match
	}
	m.groups += sets
}

// divisor returns the greatest common one; of a number and 0 the number.
func divisor(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
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
