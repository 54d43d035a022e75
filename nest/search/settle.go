package search

import (
	"cmp"
	"math"
	"slices"

	"yardlay/shapes/plane"
)

// settle brings a layout onto the lattice: it rounds every place to a multiple
// of quantum and pushes apart what rounding made overlap, mostly to the right.
// Then it hears the judge. It returns nil when
// it cannot.
func (in *instance) settle(p *placement, quantum float64, judge func(Layout) Verdict) *placement {
	q := p.clone()
	for i := range in.movable {
		s := &in.shapes[in.lies(q, i)]
		q.x[i] = math.Max(0, math.RoundToEven(q.x[i]/quantum)*quantum)
		q.y[i] = math.RoundToEven(q.y[i]/quantum) * quantum
		q.y[i] = math.Max(0, math.Min(q.y[i], math.Floor((in.width-s.h)/plane.Lattice)*plane.Lattice))
	}
	var near [][2]int
	for round := range settleRounds {
		if round%nearRounds == 0 {
			near = in.nearPairs(q, nearRounds*quantum)
		}
		moved, ok := in.pushApart(q, near, quantum, round)
		if !ok {
			return nil
		}
		if moved {
			continue
		}
		q.length = in.extent(q)
		verdict := judge(in.layout(q))
		if verdict.OK {
			return q
		}
		if !verdict.Near || !in.nudge(q, verdict.Pair[0], verdict.Pair[1], quantum, round) {
			return nil
		}
	}
	return nil
}

const (
	settleRounds = 300
	nearRounds   = 16 // after so many rounds it is looked up anew which items are near each other
	// settleTolerance is the share of the width below which an overlap is rounding
	// of the no-fit lines, not of places. What slips through meets the judge.
	settleTolerance = 0x1p-44
)

// nudge parts items i and j, which only the judge's exact eye sees too near,
// by one quantum. The way out is that of a slightly deeper overlap.
func (in *instance) nudge(q *placement, i, j int, quantum float64, round int) bool {
	a, b := &in.shapes[in.lies(q, i)], &in.shapes[in.lies(q, j)]
	dx, dy := q.x[j]+b.w/2-q.x[i]-a.w/2, q.y[j]+b.h/2-q.y[i]-a.h/2
	for step := quantum; step < 1000*quantum; step *= 2 {
		k := step / math.Hypot(dx, dy)
		if d, nx, ny := in.depthAt(in.lies(q, i), in.lies(q, j), q.x[i]+k*dx, q.y[i]+k*dy, q.x[j], q.y[j]); d > 0 {
			return in.part(q, i, j, quantum*0x1p-10, nx, ny, quantum, round)
		}
	}
	return false
}

// nearPairs lists the pairs of an item and an item or zone whose boxes come
// within the margin of each other, by a sweep along the strip.
func (in *instance) nearPairs(q *placement, margin float64) [][2]int {
	boxes := make([]box, len(in.items))
	order := make([]int, len(in.items))
	for i := range in.items {
		s := &in.shapes[in.lies(q, i)]
		boxes[i] = box{q.x[i] + s.loX - margin, q.x[i] + s.hiX + margin, q.y[i] + s.loY - margin, q.y[i] + s.hiY + margin}
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(boxes[a].x0, boxes[b].x0) })
	var near [][2]int
	for k, a := range order {
		for _, b := range order[k+1:] {
			if boxes[b].x0 > boxes[a].x1 {
				break
			}
			if boxes[a].y0 < boxes[b].y1 && boxes[b].y0 < boxes[a].y1 && min(a, b) < in.movable {
				near = append(near, [2]int{min(a, b), max(a, b)})
			}
		}
	}
	slices.SortFunc(near, func(a, b [2]int) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
	return near
}

// pushApart moves one of each overlapping pair out by whole quanta.
func (in *instance) pushApart(q *placement, near [][2]int, quantum float64, round int) (moved, ok bool) {
	for _, pair := range near {
		i, j := pair[0], pair[1]
		d, nx, ny := in.depthAt(in.lies(q, i), in.lies(q, j), q.x[i], q.y[i], q.x[j], q.y[j])
		if d <= in.width*settleTolerance {
			continue
		}
		moved = true
		if !in.part(q, i, j, d, nx, ny, quantum, round) {
			return moved, false
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

// steep is the least share of a way out along an axis at which an overlap is
// undone along that axis alone; flat is where there is no way along it at all.
const (
	steep = 0.01
	flat  = 1e-7
)

// patientRounds is the number of rounds in which the first way to part two
// items that is open is taken. After them, pairs take turns through the ways,
// so that no item is pushed to and fro for ever.
const patientRounds = 20

// part undoes an overlap of items i and j of depth d with way out (nx, ny) for
// i: by moving the item that goes right, where there is always room, or, where
// their common edge runs along the strip, the upper one up, or else the lower
// one down.
func (in *instance) part(q *placement, i, j int, d, nx, ny, quantum float64, round int) bool {
	whole := func(v float64) float64 { return math.Ceil(v/quantum-1e-6) * quantum }
	right, left, upper, lower := i, j, i, j
	if nx < 0 {
		right, left = j, i
	}
	if ny < 0 {
		upper, lower = j, i
	}
	var ways []shift
	if alongY := whole(d / math.Abs(ny)); math.Abs(ny) >= steep {
		ways = append(ways, shift{upper, 0, alongY}, shift{lower, 0, -alongY})
	}
	if alongX := whole(d / math.Abs(nx)); math.Abs(nx) >= steep {
		ways = append([]shift{{right, alongX, 0}, {left, -alongX, 0}}, ways...)
	} else if math.Abs(nx) > flat {
		ways = append(ways, shift{right, alongX, 0}, shift{left, -alongX, 0})
	}
	from := 0
	if round >= patientRounds {
		from = (round + 3*i + 5*j) % len(ways)
	}
	for k := range ways {
		if in.take(q, ways[(from+k)%len(ways)]) {
			return true
		}
	}
	return false
}

// shift is a move of one item.
type shift struct {
	item   int
	dx, dy float64
}

// take makes the move if the item is not a zone and stays on the strip.
func (in *instance) take(q *placement, s shift) bool {
	if s.item >= in.movable {
		return false
	}
	x, y := q.x[s.item]+s.dx, q.y[s.item]+s.dy
	if x < 0 || y < 0 || y > in.width-in.shapes[in.lies(q, s.item)].h {
		return false
	}
	q.x[s.item], q.y[s.item] = x, y
	return true
}
