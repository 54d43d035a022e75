package search

import (
	"math"

	"yardlay/shapes/plane"
)

// settle rounds every place to a multiple of quantum and asks the judge. The
// no-fit regions are loosened so that rounding to the lattice is safe (see
// nofit.Clearance); where two places along an axis lay within the search's
// tolerance of a tie they may still round apart, and the judge's word on which
// two items are too near is then followed, up to the given number of nudges.
// It returns nil when the judge is not content.
func (in *instance) settle(p *placement, quantum float64, nudges int, judge func(Layout) Verdict) *placement {
	q := p.clone()
	for i := range in.movable {
		along, across := in.tracks(q, i)
		q.x[i] = along.nearest(math.RoundToEven(q.x[i]/quantum) * quantum)
		q.y[i] = across.nearest(math.RoundToEven(q.y[i]/quantum) * quantum)
	}
	for range nudges + 1 {
		q.length = in.extent(q)
		verdict := judge(in.layout(q))
		if verdict.OK {
			return q
		}
		if !verdict.Near || !in.nudge(q, verdict.Pair[0], verdict.Pair[1]) {
			return nil
		}
	}
	return nil
}

// tracks returns where on the lattice item i may be along a strip without end and
// across it.
func (in *instance) tracks(p *placement, i int) (along, across track) {
	w := &in.items[i].ways[p.way[i]]
	along, across = in.along(w, math.Inf(1)), w.across
	across.hi = math.Floor(across.hi/plane.Lattice) * plane.Lattice
	return along, across
}

// nudge parts two items that the judge found too near, by one step of the
// lattice along the axis nearest to their way out: the right one to the right,
// or the upper one up, or, where the strip ends, the lower one down.
func (in *instance) nudge(q *placement, i, j int) bool {
	d, nx, ny := in.depthAt(in.lies(q, i), in.lies(q, j), q.x[i], q.y[i], q.x[j], q.y[j])
	if d == 0 {
		return false
	}
	if math.Abs(nx) >= math.Abs(ny) {
		if nx < 0 {
			i = j
		}
		along, _ := in.tracks(q, i)
		q.x[i] = along.next(q.x[i] + plane.Lattice)
		return true
	}
	if ny < 0 {
		i, j = j, i
	}
	_, upper := in.tracks(q, i)
	_, lower := in.tracks(q, j)
	down := lower
	down.hi = q.y[j] - plane.Lattice
	switch up := upper.next(q.y[i] + plane.Lattice); {
	case up <= upper.hi:
		q.y[i] = up
	case !down.empty():
		q.y[j] = down.nearest(down.hi)
	default:
		return false
	}
	return true
}

// depthAt returns the overlap of two placed shapes and the way out for the first.
func (in *instance) depthAt(si, sj int32, xi, yi, xj, yj float64) (d, nx, ny float64) {
	a, b := &in.shapes[si], &in.shapes[sj]
	if xi+a.loX >= xj+b.hiX || xj+b.loX >= xi+a.hiX || yi+a.loY >= yj+b.hiY || yj+b.loY >= yi+a.hiY {
		return 0, 0, 0
	}
	return in.depth(sj, si, xi-xj, yi-yj)
}
