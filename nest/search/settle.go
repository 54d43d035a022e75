package search

import (
	"math"

	"yardlay/shapes/plane"
)

// settle brings a layout onto the lattice: it rounds every place to a multiple
// of quantum and pushes apart what rounding made overlap, mostly to the right.
// It returns nil when it cannot.
func (in *instance) settle(p *placement, quantum float64) *placement {
	q := p.clone()
	for i := range in.movable {
		s := &in.shapes[in.items[i].ways[q.way[i]].shape]
		q.x[i] = math.Max(0, math.RoundToEven(q.x[i]/quantum)*quantum)
		q.y[i] = math.RoundToEven(q.y[i]/quantum) * quantum
		q.y[i] = math.Max(0, math.Min(q.y[i], math.Floor((in.width-s.h)/plane.Lattice)*plane.Lattice))
	}
	for range settleRounds {
		moved, ok := in.pushApart(q, quantum)
		if !ok {
			return nil
		}
		if !moved {
			q.length = in.extent(q)
			return q
		}
	}
	return nil
}

const (
	settleRounds = 300
	// settleTolerance is the share of the width below which an overlap is rounding
	// of the no-fit lines, not of places. What slips through meets the judge.
	settleTolerance = 0x1p-44
)

// pushApart moves one of each overlapping pair out by whole quanta.
func (in *instance) pushApart(q *placement, quantum float64) (moved, ok bool) {
	for i := range in.movable {
		si := in.items[i].ways[q.way[i]].shape
		for j := range in.items {
			if j == i || j < i && j < in.movable {
				continue
			}
			sj := in.items[j].ways[q.way[j]].shape
			d, nx, ny := in.depthAt(si, sj, q.x[i], q.y[i], q.x[j], q.y[j])
			if d <= in.width*settleTolerance {
				continue
			}
			moved = true
			if j >= in.movable || nx > 0 {
				ok = in.push(q, i, d, nx, ny, quantum)
			} else {
				ok = in.push(q, j, d, -nx, -ny, quantum)
			}
			if !ok {
				return moved, false
			}
		}
	}
	return moved, true
}

// depthAt returns the overlap of two placed shapes and the way out for the first.
func (in *instance) depthAt(si, sj int32, xi, yi, xj, yj float64) (d, nx, ny float64) {
	a, b := &in.shapes[si], &in.shapes[sj]
	if xi+a.loX >= xj+b.hiX || xj+b.loX >= xi+a.hiX || yi+a.loY >= yj+b.hiY || yj+b.loY >= yi+a.hiY {
		return 0, 0, 0
	}
	return in.depth(sj, si, xi-xj, yi-yj)
}

// push moves item i by at least d along (nx, ny), rounding each step away from
// the other item; where the strip's edge is in the way it goes along the strip.
func (in *instance) push(q *placement, i int, d, nx, ny, quantum float64) bool {
	s := &in.shapes[in.items[i].ways[q.way[i]].shape]
	away := func(v float64) float64 {
		if math.Abs(v) < 1e-3*quantum {
			return 0
		}
		return math.Copysign(math.Ceil(math.Abs(v)/quantum-1e-6)*quantum, v)
	}
	dx, dy := away(d*nx), away(d*ny)
	if dx == 0 && dy == 0 {
		if math.Abs(nx) > math.Abs(ny) {
			dx = math.Copysign(quantum, nx)
		} else {
			dy = math.Copysign(quantum, ny)
		}
	}
	x, y := q.x[i]+dx, q.y[i]+dy
	if y < 0 || y > in.width-s.h || x < 0 {
		if math.Abs(nx) < 1e-3 {
			return false
		}
		x, y = q.x[i]+away(d/nx), q.y[i]
		if x < 0 {
			return false
		}
	}
	q.x[i], q.y[i] = x, y
	return true
}
