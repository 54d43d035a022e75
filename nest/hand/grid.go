package hand

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// grid is where a repeat lets the origin of a piece be: at first, and whole steps from it,
// each to the nearest step of the lattice. An axis without a step is free.
type grid struct {
	first orb.Point
	step  [2]float64
}

// gridOf returns the grid of a piece: free, unless copies of its group that lie
// already, or the problem, have settled where the group meets the repeat.
func (t *Table) gridOf(held nest.Placed, others []nest.Placed) grid {
	p := t.problem
	m := p.Pieces[held.Piece].Match
	if m == nil || p.Strip.Repeat == (nest.Repeat{}) {
		return grid{}
	}
	g := 0
	if len(m.Groups) > 0 {
		g = m.Groups[held.Copy]
	}
	phase, settled := p.Phases[g]
	if !settled {
		var rest nest.Layout
		for _, pl := range others {
			if t.knows(pl) && (pl.Piece != held.Piece || pl.Copy != held.Copy) {
				rest.Placed = append(rest.Placed, pl)
			}
		}
		phase, settled = p.PhasesOf(rest)[g]
	}
	if !settled {
		return grid{}
	}
	point := plane.Pose{Mirrored: held.Mirrored, Turn: held.Turn}.ApplyPoint(m.Point)
	return grid{
		first: orb.Point{phase[0] - point[0], phase[1] - point[1]},
		step:  [2]float64{p.Strip.Repeat.Along, p.Strip.Repeat.Across},
	}
}

func (g grid) tied() bool { return g.step != [2]float64{} }

// reach is how far to look for a place on the grid: a step at the least.
func (g grid) reach(within float64) float64 {
	if !(within >= 0) {
		within = 0
	}
	return max(min(within, nest.Reach), g.step[0]+g.step[1])
}

// mostLines bounds the lines of a grid that are looked at on one axis, the nearest to the
// wish.
const mostLines = 40

// near lists the places on an axis within reach of v.
func (g grid) near(axis int, v, reach float64) []float64 {
	step := g.step[axis]
	k, most := math.Round((v-g.first[axis])/step), min(math.Ceil(reach/step), mostLines/2)
	var list []float64
	for n := -most; n <= most; n++ {
		list = append(list, plane.Snap(g.first[axis]+(k+n)*step))
	}
	return list
}

// lookOnGrid offers the places of a room on the grid: all of them near the wish where both
// axes have a step; else those of each line nearest to the wish, and where it crosses what
// bounds the free places.
func (f *finder) lookOnGrid(room orb.Bound) {
	wish := f.wish.At
	for axis := range 2 {
		if f.grid.step[axis] == 0 {
			continue
		}
		for _, v := range f.grid.near(axis, wish[axis], f.within) {
			at := wish
			at[axis] = v
			if other := 1 - axis; f.grid.step[other] > 0 {
				for _, at[other] = range f.grid.near(other, wish[other], f.within) {
					f.keep(room, at)
				}
				continue
			}
			at[1-axis] = nearestIn(room, at)[1-axis]
			f.keep(room, at)
			for i := range f.stretches {
				if across, ok := f.stretches[i].at(axis, v); ok {
					at[1-axis] = across
					f.keep(room, at)
				}
			}
		}
		if f.grid.step[1-axis] > 0 {
			return
		}
	}
}

// at returns where a stretch meets the line on which an axis has the value v.
func (s *stretch) at(axis int, v float64) (other float64, ok bool) {
	p, q := s.from[axis], s.to[axis]
	if p == q || v < min(p, q) || v > max(p, q) {
		return 0, false
	}
	return s.along((v - p) / (q - p))[1-axis], true
}
