package search

import (
	"cmp"
	"math"
	"slices"

	"yardlay/shapes/plane"
)

// lineUp brings a layout onto the lattice item by item, from left to right:
// each goes where it was, or as far to the right of that as those before it
// and the zones demand. Unlike settle it always ends, at the price of a longer
// layout where rounding left no room across. With apart set the items take
// turns along the strip with nothing beside them, which nothing can forbid.
func (in *instance) lineUp(p *placement, apart bool) *placement {
	q := p.clone()
	order := make([]int, in.movable)
	for i := range order {
		order[i] = i
		along, across := in.tracks(q, i)
		q.x[i] = along.next(onLattice(along, q.x[i]))
		q.y[i] = across.nearest(plane.Snap(q.y[i]))
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(q.x[a], q.x[b]) })
	placed := make([]int, 0, len(in.items))
	for z := in.movable; z < len(in.items); z++ {
		placed = append(placed, z)
	}
	for _, i := range order {
		if apart {
			for _, j := range placed {
				in.pass(q, i, j)
			}
		} else {
			in.slideClear(q, i, placed)
		}
		placed = append(placed, i)
	}
	q.length = in.extent(q)
	return q
}

// onLattice returns the first place on the lattice from v on, or the place of a
// grid that v rounds to.
func onLattice(t track, v float64) float64 {
	if t.step > 0 {
		return plane.Snap(v) - gridTolerance
	}
	return plane.Ceil(v)
}

// steep is the least share of a way out along the strip at which an item is
// slid along it; flatter ones are passed altogether.
const steep = 0.01

// slideClear moves item i to the right until it is clear of all those placed.
func (in *instance) slideClear(q *placement, i int, placed []int) {
	for clear := false; !clear && !in.stop(); {
		clear = true
		for _, j := range placed {
			d, nx, _ := in.depthAt(in.shapeAt(q, i), in.shapeAt(q, j), q.x[i], q.y[i], q.x[j], q.y[j])
			if d <= in.tolerance {
				continue
			}
			clear = false
			if nx >= steep {
				along, _ := in.tracks(q, i)
				q.x[i] = along.next(q.x[i] + math.Max(1, math.Ceil(d/nx/plane.Lattice))*plane.Lattice)
			} else {
				in.pass(q, i, j)
			}
		}
	}
}

// pass puts item i to the right of item j's bounding box, if it is not there yet.
func (in *instance) pass(q *placement, i, j int) {
	beyond := q.x[j] + in.shapes[in.shapeAt(q, j)].hiX - in.shapes[in.shapeAt(q, i)].loX
	along, _ := in.tracks(q, i)
	q.x[i] = along.next(math.Max(q.x[i], plane.Ceil(beyond)))
}
