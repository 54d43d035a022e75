package bound

import (
	"cmp"
	"slices"
)

// worth gives each size a part of a line across the cloth, in parts of one, such that what lies on any line comes to
// one at the most: all pieces together are then worth no more than the cloth is long.
type worth struct {
	spaced bool    // of pieces with a gap beside each; else of pieces longer by the gap
	of     []int64 // of each size
	takes  []int64 // length that a piece needs by it in each size, in parts of a step
	need   int64   // what all pieces need, each in its best size, with a gap behind the last
}

// one is the worth of a full line. Worths are rounded down to its parts, so that no sum of them is rounded.
const one = 1 << 20

// mostWorths is how many worths a search looks at.
const mostWorths = 24

// worths returns those by which the pieces need most.
func (r rectangles) worths() []worth {
	sizes := r.sized()
	var all []worth
	for _, spaced := range []bool{false, true} {
		for _, f := range r.functions(spaced) {
			w := worth{spaced: spaced}
			if spaced {
				w.need = r.gap * one
			}
			for _, v := range sizes {
				along, part := v.along+r.gap, int64(0)
				if spaced {
					along, part = v.along, f(v.across+r.gap, r.width+r.gap)
				} else {
					part = f(v.across, r.width)
				}
				w.of, w.takes = append(w.of, part), append(w.takes, along*part)
			}
			for i, v := range sizes {
				if v.first {
					w.need += int64(r.kinds[v.kind].count) * min(w.takes[i], w.takes[v.last])
				}
			}
			all = append(all, w)
		}
	}
	slices.SortStableFunc(all, func(a, b worth) int { return cmp.Compare(b.need, a.need) })
	var out []worth
	for _, w := range all {
		less := func(o worth) bool {
			return o.spaced == w.spaced && w.under(o)
		}
		if len(out) < mostWorths && !slices.ContainsFunc(out, less) {
			out = append(out, w)
		}
	}
	return out
}

// under says whether no size is worth more than by another worth of the same lines.
func (w worth) under(o worth) bool {
	for k, v := range w.of {
		if v > o.of[k] {
			return false
		}
	}
	return true
}

// functions returns dual feasible functions, of a width on a line, with the parameters at which they change for these
// sizes: the families of function, in whole numbers.
func (r rectangles) functions(spaced bool) (out []func(x, line int64) int64) {
	gap := int64(0)
	if spaced {
		gap = r.gap
	}
	out = append(out, func(x, line int64) int64 { return x * one / line })
	for k := int64(1); k <= 12; k++ {
		out = append(out, func(x, line int64) int64 { return ((k+1)*x - 1) / line * one / k })
	}
	line := r.width + gap
	var params []int64
	for _, v := range r.sized() {
		params = append(params, v.across+gap, line-(v.across+gap)+1)
	}
	slices.Sort(params)
	for _, p := range slices.Compact(params) {
		if 0 < p && p <= line/2 {
			out = append(out, wholeThreshold(p), wholeCounting(p))
		}
	}
	return out
}

// wholeThreshold is threshold of a part p of the line.
func wholeThreshold(p int64) func(x, line int64) int64 {
	return func(x, line int64) int64 {
		switch {
		case x > line-p:
			return one
		case x < p:
			return 0
		}
		return x * one / line
	}
}

// wholeCounting is counting of a part p of the line.
func wholeCounting(p int64) func(x, line int64) int64 {
	return func(x, line int64) int64 {
		m := line / p
		switch {
		case 2*x > line:
			return one - ((line-x)/p*one+m-1)/m
		case x >= p:
			return one / m
		}
		return 0
	}
}
