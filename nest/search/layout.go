package search

import (
	"slices"

	"github.com/paulmach/orb"
)

// placement is a state of the search: for every item its way and the place of
// the lower left corner of its bounding box; for every group its phase. Items may
// overlap.
type placement struct {
	way    []int32
	x, y   []float64
	phase  []orb.Point
	length float64
}

func (p *placement) clone() *placement {
	return &placement{slices.Clone(p.way), slices.Clone(p.x), slices.Clone(p.y), slices.Clone(p.phase), p.length}
}

func (p *placement) copyFrom(q *placement) {
	copy(p.way, q.way)
	copy(p.x, q.x)
	copy(p.y, q.y)
	copy(p.phase, q.phase)
	p.length = q.length
}

// extent returns the largest x that a movable item reaches, or what is pinned.
func (in *instance) extent(p *placement) float64 {
	end := in.farthest
	for i := range in.movable {
		end = max(end, p.x[i]+in.shapes[in.shapeAt(p, i)].w)
	}
	return end
}

func (in *instance) emptyPlacement() *placement {
	n := len(in.items)
	p := in.phasesOnly()
	p.way, p.x, p.y = make([]int32, n), make([]float64, n), make([]float64, n)
	for g := range in.groups {
		p.phase[g] = in.groups[g].phase
	}
	for k, at := range in.fixed {
		p.x[in.movable+k], p.y[in.movable+k] = at[0], at[1]
	}
	return p
}

// shapeAt returns the shape in which item i lies.
func (in *instance) shapeAt(p *placement, i int) int32 { return in.items[i].ways[p.way[i]].shape }
