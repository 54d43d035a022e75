package bound

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// Axis says which way the lines of an argument run.
type Axis uint8

const (
	LinesAlong  Axis = iota // lines run along the cloth, one for each place across it; each offers the length
	LinesAcross             // lines run across the cloth, one for each place along it; each offers the width
)

// profile tells how much of each line an outline takes up: a function of the
// line's place, linear between neighbouring places of `at` and nought outside.
// Several intervals of one line count by their sum.
type profile struct {
	at          []float64 // borders of the slabs, ascending, mm
	left, right []float64 // values just after at[i] and just before at[i+1]
	slope       []float64 // of each slab
	sum         []float64 // integral from at[0] to at[i]
}

// chords returns the profile of a closed counter-clockwise ring, in mm.
func chords(ring orb.Ring, axis Axis) profile {
	t, u, sign := 1, 0, 1.0 // lines lie at t and run along u; an edge that goes up bounds on the right
	if axis == LinesAcross {
		t, u, sign = 0, 1, -1
	}
	var p profile
	for _, v := range ring {
		p.at = append(p.at, v[t])
	}
	slices.Sort(p.at)
	p.at = slices.Compact(p.at)
	p.left = make([]float64, len(p.at)-1)
	p.right = make([]float64, len(p.at)-1)
	for i := 1; i < len(ring); i++ {
		a, b, way := ring[i-1], ring[i], sign
		if a[t] == b[t] {
			continue
		}
		if a[t] > b[t] {
			a, b, way = b, a, -sign
		}
		first, _ := slices.BinarySearch(p.at, a[t])
		for k := first; p.at[k] < b[t]; k++ {
			p.left[k] += way * between(a, b, t, u, p.at[k])
			p.right[k] += way * between(a, b, t, u, p.at[k+1])
		}
	}
	for k := range p.left {
		p.left[k], p.right[k] = max(p.left[k], 0), max(p.right[k], 0)
	}
	return p.summed()
}

// between returns coordinate u of the point of segment ab whose coordinate t is s.
func between(a, b orb.Point, t, u int, s float64) float64 {
	if s == b[t] {
		return b[u]
	}
	return a[u] + (b[u]-a[u])*((s-a[t])/(b[t]-a[t]))
}

// summed fills in the slopes and the integrals.
func (p profile) summed() profile {
	p.slope, p.sum = make([]float64, len(p.left)), make([]float64, len(p.at))
	for k := range p.left {
		p.slope[k] = (p.right[k] - p.left[k]) / (p.at[k+1] - p.at[k])
		p.sum[k+1] = p.sum[k] + (p.left[k]+p.right[k])/2*(p.at[k+1]-p.at[k])
	}
	return p
}

// total is the integral over all lines.
func (p profile) total() float64 { return p.sum[len(p.sum)-1] }

// slab returns the number of the slab in which place t lies: -1 before the first
// and len(left) after the last.
func (p profile) slab(t float64) int {
	k, found := slices.BinarySearch(p.at, t)
	if found {
		return k
	}
	return k - 1
}

// upTo returns the integral over the lines before t, which lies in slab k.
func (p profile) upTo(t float64, k int) float64 {
	switch {
	case k < 0:
		return 0
	case k >= len(p.left):
		return p.total()
	}
	d := t - p.at[k]
	return p.sum[k] + d*(p.left[k]+d*p.slope[k]/2)
}

// plus returns p with c more on every line it crosses.
func (p profile) plus(c float64) profile {
	out := profile{at: p.at, left: slices.Clone(p.left), right: slices.Clone(p.right)}
	for k := range out.left {
		out.left[k] += c
		out.right[k] += c
	}
	return out.summed()
}

// simpler returns a profile nowhere above p with fewer slabs: neighbours are
// joined while that lowers no value by more than tol.
func (p profile) simpler(tol float64) profile {
	var out profile
	for k := 0; k < len(p.left); {
		left, right, next := p.left[k], p.right[k], k+1
		for n := k + 2; n <= len(p.left); n++ {
			l, r, ok := p.joined(k, n, tol)
			if !ok {
				break
			}
			left, right, next = l, r, n
		}
		out.at = append(out.at, p.at[k])
		out.left = append(out.left, left)
		out.right = append(out.right, right)
		k = next
	}
	out.at = append(out.at, p.at[len(p.at)-1])
	return out.summed()
}

// joined returns the ends of a line below slabs k to n-1, and whether it stays
// within tol of them.
func (p profile) joined(k, n int, tol float64) (left, right float64, ok bool) {
	left, right = p.left[k], p.right[n-1]
	slope := (right - left) / (p.at[n] - p.at[k])
	above, below := 0.0, 0.0 // most the line lies above and below p
	for j := k; j < n; j++ {
		at0, at1 := left+slope*(p.at[j]-p.at[k]), left+slope*(p.at[j+1]-p.at[k])
		above = max(above, at0-p.left[j], at1-p.right[j])
		below = max(below, p.left[j]-at0, p.right[j]-at1)
	}
	if above > 0 {
		above += 1e-12 * (math.Abs(left) + math.Abs(right)) // rounding of the line
	}
	left, right = left-above, right-above
	return left, right, above+below <= tol && left >= 0 && right >= 0
}
