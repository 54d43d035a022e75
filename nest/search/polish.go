package search

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/optimize"
)

// polishSteps bounds the iterations of one polish. What it can do it does
// soon; forty cost less than a hundredth of the separation that follows a failure.
const polishSteps = 40

// polish moves all items at once, downhill on the sum of squared overlaps and
// squared excess over the strip, by limited-memory BFGS: the separation of T.
// Imamichi, M. Yagiura & H. Nagamochi, Discrete Optimization 6 (2009). It is the
// first try on a freshly shortened layout, whose overlaps are small and many.
// It returns true when no overlap is left, and else leaves the lane as it was:
// separating from where it ended gave looser layouts.
func (l *lane) polish() bool {
	if l.gridded {
		return false // there is no downhill between the places of a grid
	}
	n := l.movable
	x := append(slices.Clone(l.at.x[:n]), l.at.y[:n]...)
	grad := make([]float64, 2*n)
	if l.squares(x, grad); !slices.ContainsFunc(grad, func(g float64) bool { return g != 0 }) {
		return l.total() == 0
	}
	result, _ := optimize.Minimize(optimize.Problem{
		Func: func(x []float64) float64 { return l.squares(x, nil) },
		Grad: func(g, x []float64) { l.squares(x, g) },
		Status: func() (optimize.Status, error) {
			if l.crew.stopped() {
				return optimize.RuntimeLimit, nil
			}
			return optimize.NotTerminated, nil
		},
	}, x, &optimize.Settings{
		MajorIterations:   polishSteps,
		GradientThreshold: l.tolerance,
		Converger:         &optimize.FunctionConverge{Absolute: l.tolerance * l.tolerance, Relative: 1e-4, Iterations: 10},
	}, &optimize.LBFGS{}) // its error only says that it ended early; the place counts
	if result == nil {
		return false
	}
	before, after := l.at.clone(), l.at.clone()
	copy(after.x, result.X[:n])
	copy(after.y, result.X[n:])
	if l.load(after, l.length); l.total() == 0 {
		return true
	}
	l.load(before, l.length)
	return false
}

// squares returns the sum over pairs of depth squared and over items of the
// squared excess over the strip; with grad set, its gradient goes there.
func (l *lane) squares(v, grad []float64) float64 {
	n, sum := l.movable, 0.0
	for k := range grad {
		grad[k] = 0
	}
	excess := func(k int, t track) {
		e := math.Min(v[k]-t.lo, 0) + math.Max(v[k]-t.hi, 0)
		sum += e * e
		if grad != nil {
			grad[k] += 2 * e
		}
	}
	for i := range n {
		way := &l.items[i].ways[l.at.way[i]]
		excess(i, l.along(way, l.length))
		excess(n+i, way.across)
		for j := i + 1; j < len(l.items); j++ {
			xj, yj := l.at.x[j], l.at.y[j]
			if j < n {
				xj, yj = v[j], v[n+j]
			}
			d, nx, ny := l.depthAt(l.lying[i], l.lying[j], v[i], v[n+i], xj, yj)
			if d <= 0 {
				continue
			}
			l.evals++
			sum += d * d
			if grad == nil {
				continue
			}
			grad[i] -= 2 * d * nx
			grad[n+i] -= 2 * d * ny
			if j < n {
				grad[j] += 2 * d * nx
				grad[n+j] += 2 * d * ny
			}
		}
	}
	return sum
}
