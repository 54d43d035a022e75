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
	highest := make([]float64, len(in.items))
	in.roundPhases(q, quantum)
	for i := range in.movable {
		along, across := in.tracks(q, i)
		q.x[i] = along.nearest(math.RoundToEven(q.x[i]/quantum) * quantum)
		q.y[i] = across.nearest(math.RoundToEven(q.y[i]/quantum) * quantum)
		highest[i] = across.hi
	}
	for range nudges + 1 {
		q.length = in.extent(q)
		verdict := judge(in.layout(q))
		if verdict.OK {
			return q
		}
		if !verdict.Near || !in.nudge(q, highest, verdict.Pair[0], verdict.Pair[1]) {
			return nil
		}
	}
	return nil
}

// tracks returns where on the lattice item i may be along a strip without end and
// across it.
func (in *instance) tracks(p *placement, i int) (along, across track) {
	return in.tracksOf(p, i, &in.items[i].ways[p.way[i]])
}

// tracksOf returns that of some way of the item.
func (in *instance) tracksOf(p *placement, i int, w *way) (along, across track) {
	along, across = in.alongAt(p, i, w, math.Inf(1)), in.acrossAt(p, i, w)
	across.lo, across.hi = plane.Ceil(across.lo), plane.Floor(across.hi)
	along.rounded, across.rounded = true, true
	return along, across
}

// nudge parts two items that the judge found too near, by one step of the
// lattice along the axis nearest to their way out: the right one to the right, or
// one of them across. Where there is no room across, the right one goes to the
// right all the same, unless they lie too squarely one above the other for that.
func (in *instance) nudge(q *placement, highest []float64, i, j int) bool {
	d, nx, ny := in.depthAt(in.shapeAt(q, i), in.shapeAt(q, j), q.x[i], q.y[i], q.x[j], q.y[j])
	if d == 0 {
		return false
	}
	upper, lower := i, j
	if ny < 0 {
		upper, lower = j, i
	}
	if math.Abs(nx) < math.Abs(ny) && in.nudgeAcross(q, highest, upper, lower) {
		return true
	}
	right := i
	if nx < 0 {
		right = j
	}
	if math.Abs(nx) < steep || right >= in.movable {
		return false
	}
	along, _ := in.tracks(q, right)
	q.x[right] = along.next(q.x[right] + plane.Lattice)
	return true
}

// nudgeAcross parts two items by one step across the cloth: i goes up or, where it has
// no room above it, j goes down. highest is the level above which an item may not go:
// once it went down it stays down. What is pinned stays. Else the items of a column that fills the width
// would go up and down in turn without end.
func (in *instance) nudgeAcross(q *placement, highest []float64, i, j int) bool {
	if i < in.movable {
		_, upper := in.tracks(q, i)
		if up := upper.next(q.y[i] + plane.Lattice); up <= highest[i] {
			q.y[i] = up
			return true
		}
	}
	if j >= in.movable {
		return false // it is pinned
	}
	_, lower := in.tracks(q, j)
	lower.hi = q.y[j] - plane.Lattice
	if lower.empty() {
		return false
	}
	q.y[j] = lower.nearest(lower.hi)
	highest[j] = q.y[j]
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
