package bound_test

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/nest/bound"
	"yardlay/shapes/plane"
)

// checkAbreast confirms a certificate of slices: that the pieces are worth its length, and
// that no chain is worth more than 1 of those tried, which are all chains of outlines put
// side by side as they are at some place of every slice.
func checkAbreast(t rapid.TB, p bound.Problem, b bound.Bound) {
	t.Helper()
	c := b.Certificate
	checkGap(t, p, c)
	worth := 0.0
	for _, piece := range p.Pieces {
		least := math.Inf(1)
		for _, way := range piece.Ways {
			box, sum := plane.Bounds(way), 0.0
			if box.Max[1]-box.Min[1] > p.Width || p.MaxLength > 0 && box.Max[0]-box.Min[0] > p.MaxLength {
				continue // it does not fit so
			}
			for _, s := range c.Slices {
				if sameRing(s.Outline, moved(way, -box.Min[0], -box.Min[1])) {
					sum += s.Worth * (s.To - s.From)
				}
			}
			least = min(least, sum)
		}
		if !math.IsInf(least, 1) {
			worth += float64(piece.Count) * least
		}
	}
	if worth < c.Length {
		t.Errorf("%s: the pieces are worth %v, not %v", b.Kind, worth, c.Length)
	}
	if most := dearestChain(p.Width, c); most > 1+1e-9 {
		t.Errorf("%s: a chain is worth %v", b.Kind, most)
	}
}

// sameRing says whether two rings have the same corners in the same order.
func sameRing(a, b orb.Ring) bool {
	open := func(r orb.Ring) orb.Ring {
		r = slices.Compact(slices.Clone(r[:len(r)-1]))
		least := 0
		for i, v := range r {
			if slices.Compare(v[:], r[least][:]) < 0 {
				least = i
			}
		}
		return append(append(orb.Ring{}, r[least:]...), r[:least]...)
	}
	return slices.Equal(open(a), open(b))
}

// sample is a piece in one of its slices, the line at a height.
type sample struct {
	outline orb.Ring
	height  float64
	worth   float64
}

// label is a chain: where its last piece lies, and what all are worth.
type label struct{ at, worth float64 }

// dearestChain is what the dearest chain is worth, laid out one piece more at a time.
func dearestChain(width float64, c bound.Certificate) float64 {
	var all []sample
	for k, s := range c.Slices {
		_, u := math.Modf(float64(k) * math.Phi) // anywhere in the slice
		all = append(all, sample{s.Outline, s.From + (s.To-s.From)*u, s.Worth})
	}
	steps := make([][]float64, len(all))
	last := make([]float64, len(all))
	for i, a := range all {
		box := plane.Bounds(a.outline)
		last[i] = width - box.Max[1]
		for _, b := range all {
			steps[i] = append(steps[i], stepOnLine(a, b)+c.Gap)
		}
	}
	most := 0.0
	chains := make([][]label, len(all))
	for i, a := range all {
		chains[i] = []label{{0, a.worth}}
		most = max(most, a.worth)
	}
	for range 40 {
		next := make([][]label, len(all))
		for i, labels := range chains {
			for _, l := range labels {
				for j, b := range all {
					n := label{max(l.at+steps[i][j], 0), l.worth + b.worth}
					if n.at <= last[j]-1e-9 && !slices.ContainsFunc(next[j], func(o label) bool {
						return o.at <= n.at && o.worth >= n.worth
					}) {
						next[j] = append(next[j], n)
						most = max(most, n.worth)
					}
				}
			}
		}
		chains = next
	}
	return most
}

// stepOnLine is how far above a the least corner of b lies at the least when b follows it on
// the line that both have at their heights: on all lines about it, as long as both outlines
// meet them in one interval.
func stepOnLine(a, b sample) float64 {
	shift := a.height - b.height
	lines := []float64{a.height}
	for _, v := range a.outline {
		lines = append(lines, v[0]-1e-6, v[0]+1e-6)
	}
	for _, v := range b.outline {
		lines = append(lines, v[0]+shift-1e-6, v[0]+shift+1e-6)
	}
	slices.Sort(lines)
	start, _ := slices.BinarySearch(lines, a.height)
	most := math.Inf(-1)
	on := func(x float64) bool {
		one, two := cutsOf(nil, a.outline, 0, x), cutsOf(nil, b.outline, 0, x-shift)
		if len(one) != 2 || len(two) != 2 {
			return false
		}
		most = max(most, one[1]-two[0])
		return true
	}
	for k := start; k < len(lines) && on(lines[k]); k++ {
	}
	for k := start - 1; k >= 0 && on(lines[k]); k-- {
	}
	return most
}
