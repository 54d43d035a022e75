package bound

import (
	"fmt"
	"math"
)

// function is a dual-feasible function: numbers in [0, 1] whose sum is at most 1
// have images whose sum is at most 1. It is linear between neighbouring knots and
// does not decrease; at a knot the lower value is taken.
// Source: S. P. Fekete and J. Schepers, New classes of fast lower bounds for bin
// packing problems, Mathematical Programming 91 (2001) 11-31.
type function struct {
	Function
	knots []float64 // ascending, from 0 to 1
	base  []float64 // on (knots[i], knots[i+1]) the value at x is base[i] + rise[i]*x
	rise  []float64
}

// Function names a dual-feasible function by its family and parameter p.
type Function struct {
	Kind  FunctionKind
	Param float64
}

// FunctionKind names a family of dual-feasible functions.
type FunctionKind string

const (
	Identity  FunctionKind = "identity"  // x itself
	Threshold FunctionKind = "threshold" // 0 below p, x between, 1 above 1 - p; 0 < p <= 1/2
	Rounding  FunctionKind = "rounding"  // the greatest j/p with j/(p + 1) < x, at least 0; p = 1, 2, ...
	Counting  FunctionKind = "counting"  // m = floor(1/p): 0 below p, 1/m to 1/2, then 1 - floor((1-x)/p)/m; p < 1/2
)

var identity = function{
	Function: Function{Kind: Identity}, knots: []float64{0, 1}, base: []float64{0}, rise: []float64{1},
}

// threshold returns U(p): what is nearly a whole line counts as one, what is
// small as nothing.
func threshold(p float64) function {
	return function{
		Function: Function{Threshold, p},
		knots:    []float64{0, p, 1 - p, 1}, base: []float64{0, 0, 1}, rise: []float64{0, 1, 0},
	}
}

// rounding returns u(k): x counts by how many parts of k+1 it exceeds.
func rounding(k int) function {
	f := function{Function: Function{Rounding, float64(k)}, knots: []float64{0}}
	for j := 0; j <= k; j++ {
		f.knots = append(f.knots, float64(j+1)/float64(k+1))
		f.base = append(f.base, float64(j)/float64(k))
		f.rise = append(f.rise, 0)
	}
	return f
}

// counting returns phi(p): with m = floor(1/p), what is at least p counts 1/m up
// to a half, and beyond it all that is not left for others: 1 - floor((1-x)/p)/m.
func counting(p float64) function {
	m := math.Floor(1/p + 1e-9) // more is lower, and 1/p may be meant whole
	f := function{
		Function: Function{Counting, p},
		knots:    []float64{0, p, 0.5}, base: []float64{0, 1 / m}, rise: []float64{0, 0},
	}
	j := 0.0
	for 1-(j+1)*p > 0.5 {
		j++
	}
	for ; j >= 0; j-- { // x in (1-(j+1)p, 1-jp]
		f.knots = append(f.knots, 1-j*p)
		f.base, f.rise = append(f.base, 1-j/m), append(f.rise, 0)
	}
	return f
}

// String names the function as a certificate prints it.
func (f Function) String() string {
	if f.Kind == Identity {
		return string(f.Kind)
	}
	return fmt.Sprintf("%s(%g)", f.Kind, f.Param)
}

// jumpSlack is taken off every share of a line before a function sees it, so that
// rounding never carries one over a jump.
const jumpSlack = 1e-12

// on returns the profile of f(value/line), from below.
func (f function) on(p profile, line float64) profile {
	var out profile
	push := func(at, left, right float64) {
		out.at = append(out.at, at)
		out.left = append(out.left, left)
		out.right = append(out.right, right)
	}
	for k := range p.left {
		x0 := min(max(p.left[k]/line-jumpSlack, 0), 1)
		x1 := min(max(p.right[k]/line-jumpSlack, 0), 1)
		f.slab(x0, x1, p.at[k], p.at[k+1], push)
	}
	out.at = append(out.at, p.at[len(p.at)-1])
	return out.summed()
}

// slab pushes the image of a slab from t0 to t1 over which the share of the line
// goes from x0 to x1.
func (f function) slab(x0, x1, t0, t1 float64, push func(at, left, right float64)) {
	i, last := f.piece(x0, x1 <= x0), f.piece(x1, x1 >= x0)
	if x0 == x1 {
		v := f.base[last] + f.rise[last]*x0
		push(t0, v, v)
		return
	}
	t, x := t0, x0
	for {
		end, xe := t1, x1
		if i < last {
			xe = f.knots[i+1]
		} else if i > last {
			xe = f.knots[i]
		}
		if i != last {
			end = t0 + (t1-t0)*((xe-x0)/(x1-x0))
		}
		if end > t || i == last && t < t1 {
			push(t, f.base[i]+f.rise[i]*x, f.base[i]+f.rise[i]*xe)
			t = end
		}
		switch x = xe; {
		case i < last:
			i++
		case i > last:
			i--
		default:
			return
		}
	}
}

// piece returns the number of the linear piece in which x lies; of the two that
// meet at a knot the lower or the upper one.
func (f function) piece(x float64, lower bool) int {
	for i := range f.base {
		if x < f.knots[i+1] || x == f.knots[i+1] && lower {
			return i
		}
	}
	return len(f.base) - 1
}
