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
			if !in.part(q, i, j, d, nx, ny, quantum) {
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

// steep is the least share of a way out along the strip at which an overlap
// is undone along the strip alone, where there is always room.
const steep = 0.01

// part undoes an overlap of items i and j of depth d with way out (nx, ny) for
// i. It moves the item that goes right, or, where their common edge runs along
// the strip, whichever has room across it.
func (in *instance) part(q *placement, i, j int, d, nx, ny, quantum float64) bool {
	if j < in.movable && nx < 0 {
		i, j, nx, ny = j, i, -nx, -ny
	}
	whole := func(v float64) float64 { return math.Ceil(v/quantum-1e-6) * quantum }
	if nx >= steep || j >= in.movable && nx <= -steep {
		q.x[i] += math.Copysign(whole(d/math.Abs(nx)), nx)
		return q.x[i] >= 0
	}
	dy := math.Copysign(whole(d/math.Abs(ny)), ny)
	if in.onStrip(q, i, q.y[i]+dy) {
		q.y[i] += dy
		return true
	}
	if j < in.movable && in.onStrip(q, j, q.y[j]-dy) {
		q.y[j] -= dy
		return true
	}
	return false
}

func (in *instance) onStrip(q *placement, i int, y float64) bool {
	return y >= 0 && y <= in.width-in.shapes[in.items[i].ways[q.way[i]].shape].h
}
