package bound_test

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/nest/bound"
	"yardlay/shapes/plane"
)

// check confirms a certificate of lines and prices. A gap grows outlines and
// cloth by half of it on every side; a certificate without a gap may count the
// forbidden zones, which take of each line what they cover where they lie. It
// knows nothing of profiles: it measures lines through outlines as they are, at
// closely spaced places, and so is exact to about one in ten thousand.
func check(t rapid.TB, p bound.Problem, b bound.Bound) {
	t.Helper()
	c := b.Certificate
	if b.Kind == bound.Area || b.Kind == bound.LongestPiece {
		checkPlain(t, p, b)
	}
	if b.Kind == bound.Abreast {
		checkAbreast(t, p, b)
	}
	if b.Kind != bound.Chords && b.Kind != bound.Prices && b.Kind != bound.OneWay {
		return
	}
	if b.Length < c.Length || b.Length > c.Length+0.01 {
		t.Errorf("%s: bound %v mm and excluded %v", b.Kind, b.Length, c.Length)
	}
	checkGap(t, p, c)
	if c.Repeat > 0 {
		p, c = lengthened(t, p, c)
	}
	size, line := p.Width+c.Gap, c.Length+c.Gap
	if c.Axis == bound.LinesAcross {
		size, line = line, size
	}
	offer := 0.0
	for _, layer := range c.Prices {
		for k, price := range layer {
			if price < 0 {
				t.Fatalf("%s: price %v", b.Kind, price)
			}
			offer += price * (c.Borders[k+1] - c.Borders[k])
		}
	}
	counted := func(way orb.Ring) (orb.Bound, []orb.Ring) { return plane.Bounds(way), []orb.Ring{way} }
	reach := c.Gap / 2
	if b.Kind == bound.OneWay {
		reach = 0 // what is counted has grown
		counted = exchanged(t, c)
	}
	samples := 10000
	switch {
	case reach > 0:
		samples = 2500 // each is slower
	case len(p.Forbidden) > 0 || b.Kind == bound.OneWay:
		samples = 40000 // prices may be narrow, and an outline jump under one
	}
	needed := func(samples, directions int) float64 {
		need := 0.0
		for _, piece := range p.Pieces {
			least := math.Inf(1)
			for _, way := range piece.Ways {
				box, rings := counted(way)
				least = min(least, leastCost(c, box, rings, disc{reach, directions}, size, line, samples))
			}
			need += float64(piece.Count) * least
		}
		if c.Gap == 0 && b.Kind != bound.OneWay {
			for _, zone := range p.Forbidden {
				need += zoneCost(c, zone, line)
			}
		}
		return need
	}
	need := needed(samples, 24)
	if need < offer*(1-2e-4) && reach > 0 {
		need = needed(4*samples, 96) // what is grown is measured from below, and a price may be all on a few lines
	}
	if need < offer*(1-2e-4) {
		t.Errorf("%s, lines axis %d, functions %v: the pieces need %v of %v at %v mm", b.Kind, c.Axis, c.Functions,
			need, offer, c.Length)
	}
}

// leastCost tries places of a box closely, then more closely about the best, and what lies there together within reach
// of rings in it; of none it is nought.
func leastCost(
	c bound.Certificate, box orb.Bound, way []orb.Ring, reach disc, size, line float64, samples int,
) float64 {
	if len(way) == 0 {
		return 0
	}
	const places = 200
	t := 1
	if c.Axis == bound.LinesAcross {
		t = 0
	}
	lo, hi := box.Min[t]-c.Gap/2, box.Max[t]+c.Gap/2
	step := (hi - lo) / float64(samples)
	sums := make([][]float64, len(c.Functions)) // of images, up to a sample
	for i := range sums {
		sums[i] = make([]float64, samples+1)
	}
	for s := range samples {
		x := lineNear(way, t, lo+(float64(s)+0.5)*step, reach) / line
		for i, f := range c.Functions {
			sums[i][s+1] = sums[i][s] + image(f, x)*step
		}
	}
	cost := func(y float64) float64 {
		total := 0.0
		for i, sum := range sums {
			upTo := func(s float64) float64 {
				at := min(max((s-y)/step, 0), float64(samples))
				k := min(int(at), samples-1)
				return sum[k] + (sum[k+1]-sum[k])*(at-float64(k))
			}
			for k, price := range c.Prices[i] {
				total += price * (upTo(c.Borders[k+1]) - upTo(c.Borders[k]))
			}
		}
		return total
	}
	from, to := 0.0, size-(hi-lo)
	least := math.Inf(1)
	for range 3 {
		where, gap := from, (to-from)/places
		for k := range places + 1 {
			if v := cost(from + gap*float64(k)); v < least {
				least, where = v, from+gap*float64(k)
			}
		}
		from, to = max(0, where-gap), min(size-(hi-lo), where+gap)
	}
	return least
}

// cutsOf appends where a ring crosses the line, in order.
func cutsOf(cuts []float64, r orb.Ring, t int, s float64) []float64 {
	for i := 1; i < len(r); i++ {
		a, b := r[i-1], r[i]
		if (a[t] <= s) != (b[t] <= s) {
			cuts = append(cuts, a[1-t]+(b[1-t]-a[1-t])*(s-a[t])/(b[t]-a[t]))
		}
	}
	slices.Sort(cuts)
	return cuts
}

// disc is a radius, mm, and the directions of a quarter in which it is looked at.
type disc struct {
	radius     float64
	directions int
}

// lineNear measures what lies on a line within a disc of rings: the ends of the intervals of lines nearby, moved
// out as far as the disc reaches.
func lineNear(rings []orb.Ring, t int, s float64, d disc) float64 {
	distance, directions := d.radius, d.directions
	if distance == 0 {
		directions = 1
	}
	near, cuts := make([][2]float64, 0, 2*directions), make([]float64, 0, 8)
	for _, r := range rings {
		for k := 1 - directions; k < directions; k++ {
			sin, cos := math.Sincos(math.Pi / 2 * float64(k) / float64(directions))
			cuts = cutsOf(cuts[:0], r, t, s+distance*sin)
			for i := 1; i < len(cuts); i += 2 {
				near = append(near, [2]float64{cuts[i-1] - distance*cos, cuts[i] + distance*cos})
			}
		}
	}
	slices.SortFunc(near, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	sum, end := 0.0, math.Inf(-1)
	for _, n := range near {
		sum += max(0, n[1]-max(n[0], end))
		end = max(end, n[1])
	}
	return sum
}

// image is a dual-feasible function as Fekete and Schepers define it.
func image(f bound.Function, x float64) float64 {
	p := f.Param
	switch f.Kind {
	case bound.Threshold:
		switch {
		case x > 1-p:
			return 1
		case x < p:
			return 0
		}
		return x
	case bound.Rounding:
		if k := (p + 1) * x; k != math.Floor(k) {
			return math.Floor(k) / p
		}
		return x
	case bound.Counting:
		switch {
		case x > 0.5:
			return 1 - math.Floor((1-x)/p)/math.Floor(1/p)
		case x >= p:
			return 1 / math.Floor(1/p)
		}
		return 0
	}
	return x
}
