package search

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/optimize"
)

// polishSteps bounds the iterations of one polish. What it can do it does
// soon; forty cost less than a hundredth of the separation that follows a failure.
const polishSteps = 40

// polishWork is how many evaluations a polish counts as, besides those of its overlaps: about what it takes on few
// items, which would be searched for ever else. On many it is next to nothing.
const polishWork = 1 << 10

// polish moves all items at once, downhill on the sum of squared overlaps and
// squared excess over the strip, by limited-memory BFGS: the separation of T.
// Imamichi, M. Yagiura & H. Nagamochi, Discrete Optimization 6 (2009). It is the
// first try on a freshly shortened layout, whose overlaps are small and many.
// It returns true when no overlap is left, and else leaves the lane as it was:
// separating from where it ended gave looser layouts.
func (l *lane) polish() bool {
	l.evals += polishWork
	m := l.unknowns()
	x, grad := m.read(l.at), make([]float64, m.count)
	if l.squares(m, x, grad); !slices.ContainsFunc(grad, func(g float64) bool { return g != 0 }) {
		return l.total() == 0
	}
	result, _ := optimize.Minimize(optimize.Problem{
		Func: func(x []float64) float64 { return l.squares(m, x, nil) },
		Grad: func(g, x []float64) { l.squares(m, x, g) },
		Status: func() (optimize.Status, error) {
			if l.pool.stopped() {
				return optimize.RuntimeLimit, nil
			}
			return optimize.NotTerminated, nil
		},
	}, x, &optimize.Settings{
		MajorIterations:   polishSteps,
		GradientThreshold: l.tolerance,
		Converger: &optimize.FunctionConverge{
			Absolute: l.tolerance * l.tolerance, Relative: 1e-4, Iterations: 10,
		},
	}, &optimize.LBFGS{}) // its error only says that it ended early; the place counts
	if result == nil {
		return false
	}
	before, after := l.at.clone(), l.at.clone()
	m.apply(after, result.X)
	if l.load(after, l.length) && l.total() == 0 {
		return true
	}
	l.load(before, l.length)
	return false
}

// unknowns numbers what can move by itself: each item along and across the strip,
// but where a repeat ties it to a group the group as a whole, unless its phase is
// given. The unknown of an item is where it lies, that of a group how far it moves.
type unknowns struct {
	items  [2][]int // for each item; -1: none
	groups [2][]int // for each group
	tied   [2][]int // for each item, the unknown of its group
	count  int
}

func (l *lane) unknowns() *unknowns {
	u := &unknowns{}
	next := func() int { u.count++; return u.count - 1 }
	for axis, repeat := range l.repeat {
		for g := range l.groups {
			k := -1
			if repeat > 0 && !l.groups[g].Given {
				k = next()
			}
			u.groups[axis] = append(u.groups[axis], k)
		}
		for i := range l.items {
			own, tied := -1, -1
			switch g := l.items[i].group; {
			case i >= l.movable:
			case g >= 0 && repeat > 0:
				tied = u.groups[axis][g]
			default:
				own = next()
			}
			u.items[axis], u.tied[axis] = append(u.items[axis], own), append(u.tied[axis], tied)
		}
	}
	return u
}

// read returns the unknowns of a placement.
func (u *unknowns) read(p *placement) []float64 {
	v := make([]float64, u.count)
	for axis, at := range [][]float64{p.x, p.y} {
		for i, k := range u.items[axis] {
			if k >= 0 {
				v[k] = at[i]
			}
		}
	}
	return v
}

// at returns where an item lies on an axis, given where it lay.
func (u *unknowns) at(axis, i int, was float64, v []float64) float64 {
	if k := u.items[axis][i]; k >= 0 {
		return v[k]
	}
	if k := u.tied[axis][i]; k >= 0 {
		return was + v[k]
	}
	return was
}

// of returns the unknown that moves an item on an axis; -1: none.
func (u *unknowns) of(axis, i int) int { return max(u.items[axis][i], u.tied[axis][i]) }

// apply moves everything.
func (u *unknowns) apply(p *placement, v []float64) {
	for i := range p.x {
		p.x[i], p.y[i] = u.at(0, i, p.x[i], v), u.at(1, i, p.y[i], v)
	}
	for axis := range u.groups {
		for g, k := range u.groups[axis] {
			if k >= 0 {
				p.phase[g][axis] += v[k]
			}
		}
	}
}

// squares returns the sum over pairs of depth squared and over items of the
// squared excess over the strip, for unknowns v; with grad set, its gradient goes there.
func (l *lane) squares(m *unknowns, v, grad []float64) float64 {
	sum := 0.0
	clear(grad)
	add := func(axis, i int, slope float64) {
		if k := m.of(axis, i); k >= 0 && grad != nil {
			grad[k] += slope
		}
	}
	excess := func(axis, i int, at float64, t track) {
		e := math.Min(at-t.lo, 0) + math.Max(at-t.hi, 0)
		sum += e * e
		add(axis, i, 2*e)
	}
	for i := range l.movable {
		x, y := m.at(0, i, l.at.x[i], v), m.at(1, i, l.at.y[i], v)
		way := &l.items[i].ways[l.at.way[i]]
		excess(0, i, x, l.along(i, way))
		excess(1, i, y, l.across(i, way))
		for j := i + 1; j < len(l.items); j++ {
			xj, yj := m.at(0, j, l.at.x[j], v), m.at(1, j, l.at.y[j], v)
			d, nx, ny := l.depthAt(l.shapeNow[i], l.shapeNow[j], x, y, xj, yj)
			if d <= 0 {
				continue
			}
			l.evals++
			sum += d * d
			add(0, i, -2*d*nx)
			add(1, i, -2*d*ny)
			add(0, j, 2*d*nx)
			add(1, j, 2*d*ny)
		}
	}
	return sum
}
