package bound_test

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/nest/bound"
)

// lengthened returns the pieces of the group that a certificate counts, each lengthened by
// what is idle behind it, and the certificate on cloth longer, or wider, by as much. What is
// idle it finds by laying one piece behind another at many heights.
func lengthened(t rapid.TB, p bound.Problem, c bound.Certificate) (bound.Problem, bound.Certificate) {
	t.Helper()
	axis := 0
	if c.Idle[1] > 0 {
		axis = 1
	}
	if c.Repeat != p.Repeat[axis] || c.Idle[0] > 0 && c.Idle[1] > 0 {
		t.Fatalf("repeat %v of %v, idle %v", c.Repeat, p.Repeat, c.Idle)
	}
	out := p
	out.Pieces = nil
	for _, piece := range p.Pieces {
		if piece.Match != nil && piece.Match.Group == c.Group {
			out.Pieces = append(out.Pieces, piece)
		}
	}
	group := out.Pieces
	out.Pieces = nil
	most := 0.0
	for _, piece := range group {
		long := piece
		long.Ways = nil
		for k, way := range piece.Ways {
			idle := math.Inf(1)
			for _, next := range group {
				for j, other := range next.Ways {
					off := piece.Match.Points[k][axis] - next.Match.Points[j][axis]
					idle = min(idle, idleBetween(way, other, axis, off, c.Repeat, p.Gap))
				}
			}
			idle = min(max(idle, 0), c.Idle[axis])
			most = max(most, idle)
			long.Ways = append(long.Ways, swept(way, axis, idle))
		}
		out.Pieces = append(out.Pieces, long)
	}
	if most < c.Idle[axis]-0.01 {
		t.Errorf("%v mm idle, and laid by hand %v", c.Idle[axis], most)
	}
	c.Length += c.Idle[0]
	out.Width += c.Idle[1]
	return out, c
}

// idleBetween returns the least that is idle between a ring and one behind it, whatever
// their heights, when their steps are off and whole repeats.
func idleBetween(a, b orb.Ring, axis int, off, repeat, gap float64) float64 {
	const heights, lines = 150, 40
	span := func(r orb.Ring) (low, high float64) {
		low, high = math.Inf(1), math.Inf(-1)
		for _, v := range r {
			low, high = min(low, v[1-axis]), max(high, v[1-axis])
		}
		return low, high
	}
	lowA, highA := span(a)
	lowB, highB := span(b)
	idle := math.Inf(1)
	var ends, begins []float64
	for k := range heights {
		up := lowA - highB + (highA-lowA+highB-lowB)*(float64(k)+0.5)/heights
		low, high := max(lowA, lowB+up), min(highA, highB+up)
		touching := math.Inf(-1)
		for i := range lines {
			at := low + (high-low)*(float64(i)+0.5)/lines
			ends, begins = cutsOf(ends[:0], a, 1-axis, at), cutsOf(begins[:0], b, 1-axis, at-up)
			if len(ends) > 0 && len(begins) > 0 {
				touching = max(touching, ends[len(ends)-1]-begins[0])
			}
		}
		step := off + math.Ceil((touching-off)/repeat-1e-6)*repeat
		// With a gap they may touch across a corner, so that along they are no farther.
		idle = min(idle, step-touching-gap)
	}
	return idle
}

// swept returns what a convex ring covers as it is moved on by a distance.
func swept(r orb.Ring, axis int, by float64) orb.Ring {
	out := orb.Ring{}
	most := math.Inf(-1)
	for _, v := range r {
		most = max(most, v[axis])
	}
	for i := 1; i < len(r); i++ {
		a, b := r[i-1], r[i]
		moved := func(v orb.Point) orb.Point { v[axis] += by; return v }
		// The far side is where the outline goes up, seen with the axis to the right.
		far := b[1]-a[1] > 0
		if axis == 1 {
			far = b[0]-a[0] < 0
		}
		if far {
			a, b = moved(a), moved(b)
		}
		out = append(out, a, b)
	}
	return append(out, out[0])
}

// Panels abreast on a repeat, with a gap or without, of one or two kinds, some of them
// barrel-shaped: their bounds are
// confirmed by hand.
func TestIdleClothChecked(t *testing.T) {
	problems := rapid.Custom(func(t *rapid.T) bound.Problem {
		p := bound.Problem{Width: 200, Gap: rapid.SampledFrom([]float64{0, 0, 3}).Draw(t, "gap")}
		p.Repeat[rapid.IntRange(0, 1).Draw(t, "axis")] = rapid.SampledFrom([]float64{50, 64.3}).Draw(t, "repeat")
		for i := range rapid.IntRange(1, 2).Draw(t, "kinds") {
			long, wide := float64(rapid.IntRange(20, 120).Draw(t, "long")),
				float64(rapid.IntRange(20, 90).Draw(t, "wide"))
			out := float64(rapid.IntRange(0, 6).Draw(t, "barrel"))
			outline := ring(0, 0, long/2, -out, long, 0, long+out/2, wide/2, long, wide, 0, wide)
			piece := turned(fmt.Sprint("panel ", i), rapid.IntRange(2, 6).Draw(t, "count"), outline, 0)
			piece.Match = &bound.Match{Group: 7,
				Points: []orb.Point{{float64(rapid.IntRange(0, 60).Draw(t, "at")), 12}}}
			p.Pieces = append(p.Pieces, piece)
		}
		return p
	})
	counted := 0
	for _, seed := range often.Seeds([]int{0, 2, 6}, often.Jobs(5, 24)) {
		p := problems.Example(seed)
		for _, b := range bound.Lower(context.Background(), p) {
			if b.Certificate.Group == 7 {
				check(t, p, b)
				counted++
			}
		}
	}
	t.Logf("%d bounds count idle cloth", counted)
	if counted < 3 {
		t.Error("too few to speak of")
	}
}
