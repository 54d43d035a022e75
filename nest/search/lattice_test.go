package search

import (
	"context"
	"math"
	"slices"
	"testing"
	"time"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// exactJudge finds the first two boxes that overlap, exactly.
func exactJudge(in *instance) func(Layout) Verdict {
	return func(l Layout) Verdict {
		for i := range in.movable {
			for j := range i {
				a, b := &in.shapes[in.items[i].ways[0].shape], &in.shapes[in.items[j].ways[0].shape]
				p, q := l.At[i], l.At[j]
				if p[0] < q[0]+b.w && q[0] < p[0]+a.w && p[1] < q[1]+b.h && q[1] < p[1]+a.h {
					return Verdict{Near: true, Pair: [2]int{i, j}}
				}
			}
		}
		return Verdict{OK: true}
	}
}

// tiled cuts a strip up into rectangles with sides of whole steps of the lattice and puts
// each off its place by less than that.
func tiled(t *rapid.T) (p Problem, at, off []orb.Point) {
	step := rapid.SampledFrom([]float64{1, 0.5, plane.Lattice}).Draw(t, "step")
	p.Width = 40 * step
	parts := []orb.Bound{{Max: orb.Point{60 * step, 40 * step}}}
	for range rapid.IntRange(1, 6).Draw(t, "cuts") {
		k, axis := rapid.IntRange(0, len(parts)-1).Draw(t, "part"), rapid.IntRange(0, 1).Draw(t, "axis")
		a, b := parts[k], parts[k]
		if size := int((a.Max[axis] - a.Min[axis]) / step); size > 1 {
			cut := a.Min[axis] + step*float64(rapid.IntRange(1, size-1).Draw(t, "cut"))
			a.Max[axis], b.Min[axis] = cut, cut
			parts[k] = a
			parts = append(parts, b)
		}
	}
	for _, b := range parts {
		p.Items = append(p.Items, Item{Choices: []Choice{{Ring: rectangle(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1])}}})
		at = append(at, b.Min)
		o := func(name string) float64 { return rapid.Float64Range(-0.24, 0.24).Draw(t, name) * plane.Lattice }
		off = append(off, orb.Point{b.Min[0] + o("x"), b.Min[1] + o("y")})
	}
	return p, at, off
}

// TestTilesSettle: a strip cut up without waste comes back exactly from places that are off
// by a quarter of a step.
func TestTilesSettle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, at, off := tiled(t)
		in := readyInstance(p)
		q := in.emptyPlacement()
		for i := range off {
			q.x[i], q.y[i] = off[i][0], off[i][1]
		}
		q.length = in.extent(q) + plane.Lattice
		settled := in.rounded(q, exactJudge(in))
		if settled == nil {
			t.Fatal("they do not settle")
		}
		for i := range at {
			if settled.x[i] != at[i][0] || settled.y[i] != at[i][1] {
				t.Fatalf("item %d settles at (%v, %v), it belongs at %v", i, settled.x[i], settled.y[i], at[i])
			}
		}
	})
}

// TestQuantum: the greatest power of two, from a step of the lattice to 1024 of them, that
// divides all sides; found here from above.
func TestQuantum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Problem{Width: 3000}
		var sides []int
		for range rapid.IntRange(1, 3).Draw(t, "items") {
			side := func(name string) float64 {
				n := rapid.IntRange(1, 60).Draw(t, name) << rapid.IntRange(0, 13).Draw(t, name+" twos")
				sides = append(sides, n)
				return float64(n) * plane.Lattice
			}
			p.Items = append(p.Items, Item{Choices: []Choice{{Ring: rectangle(side("w"), side("h"))}}})
		}
		want := 1024
		for slices.ContainsFunc(sides, func(n int) bool { return n%want != 0 }) {
			want /= 2
		}
		if got := newInstance(p, never).quantum(); got != float64(want)*plane.Lattice {
			t.Fatalf("%v of sides %v, want %d steps", got, sides, want)
		}
	})
}

// TestNudgesPart: two items that overlap by a step are parted by a step, across where that
// is the way out and there is room, else to the right; what went down stays down.
func TestNudgesPart(t *testing.T) {
	const step = plane.Lattice
	in := readyInstance(Problem{Width: 30, Items: []Item{
		{Choices: []Choice{{Ring: rectangle(20, 10)}}}, {Choices: []Choice{{Ring: rectangle(20, 10)}}},
	}})
	for _, c := range []struct {
		name        string
		first, then [2]orb.Point // the two, before and after
		ok          bool
	}{
		{"above it, with room", [2]orb.Point{{0, 0}, {0, 10 - step}}, [2]orb.Point{{0, 0}, {0, 10}}, true},
		{"above it, at the edge: the lower one goes down", [2]orb.Point{{0, 10 + step}, {0, 20}},
			[2]orb.Point{{0, 10}, {0, 20}}, true},
		{"beside it", [2]orb.Point{{0, 5}, {20 - step, 3}}, [2]orb.Point{{0, 5}, {20, 3}}, true},
		{"apart", [2]orb.Point{{0, 5}, {25, 3}}, [2]orb.Point{{0, 5}, {25, 3}}, false},
	} {
		q := in.emptyPlacement()
		for i, at := range c.first {
			q.x[i], q.y[i] = at[0], at[1]
		}
		highest := []float64{20, 20}
		ok := in.nudge(q, highest, 0, 1)
		if got := [2]orb.Point{{q.x[0], q.y[0]}, {q.x[1], q.y[1]}}; ok != c.ok || got != c.then {
			t.Errorf("%s: nudged %v, to %v", c.name, ok, got)
		}
		if down := q.y[0] < c.first[0][1]; down && highest[0] != q.y[0] {
			t.Errorf("%s: it may go up again to %v", c.name, highest[0])
		}
	}
	// What may not go up goes down, or not at all.
	q := in.emptyPlacement()
	q.y[1] = 10 - step
	if in.nudgeAcross(q, []float64{20, 10 - step}, 1, 0) {
		t.Error("up beyond where it may go, or down through the edge")
	}
}

// TestReached: a layout is as short as the bound where it is so on the lattice; what is far
// above it is not brought there to see.
func TestReached(t *testing.T) {
	p := cards()
	in := readyInstance(p)
	q := in.emptyPlacement()
	for i := range 8 {
		q.x[i], q.y[i] = float64(50*(i%4)), float64(50*(i/4))
	}
	asked := 0
	judge := func(l Layout) Verdict { asked++; return exactJudge(in)(l) }
	for _, c := range []struct {
		wider float64 // between columns
		want  bool
		asks  bool
	}{{0, true, false}, {0.0003, true, true}, {0.004, true, true}, {0.02, false, false}} {
		for i := range 8 {
			q.x[i] = (50 + c.wider) * float64(i%4)
		}
		q.length = in.extent(q)
		asked = 0
		if got := in.reached(q, judge); got != c.want || asked > 0 != c.asks {
			t.Errorf("columns %v apart: reached %v, %d looks of the judge", c.wider, got, asked)
		}
	}
}

// TestLayoutsAreTakenOver: a layout given out and taken over again is the same state.
func TestLayoutsAreTakenOver(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		given := problem(t)
		in := readyInstance(given)
		p := in.lineUp(in.construct(1, never, unreported), false)
		l := in.layout(p)
		q := in.taken(&l)
		for i := range in.movable {
			ring := given.Items[i].Choices[l.Choice[i]].Ring
			b := plane.Bounds(ring)
			if got := (orb.Point{b.Min[0] + l.At[i][0], b.Min[1] + l.At[i][1]}); got != (orb.Point{p.x[i], p.y[i]}) {
				t.Fatalf("item %d is given out at %v, it lies at (%v, %v)", i, got, p.x[i], p.y[i])
			}
			if q.x[i] != p.x[i] || q.y[i] != p.y[i] || in.shapeAt(q, i) != in.shapeAt(p, i) {
				t.Fatalf("item %d is taken over at (%v, %v)", i, q.x[i], q.y[i])
			}
		}
		if q.length != p.length {
			t.Fatalf("%v mm, then %v", p.length, q.length)
		}
		for g := range in.groups {
			for axis := range 2 {
				off := in.turns(axis, q.phase[g][axis]-p.phase[g][axis])
				if len(in.groups[g].members) > 0 && math.Abs(off) > plane.Lattice {
					t.Fatalf("group %d: phase %v, then %v", g, p.phase[g], q.phase[g])
				}
			}
		}
	})
}

// TestWhichLayoutComesOut: the best is brought before the judge; what has passed counts
// where it does not pass, by the clock or not; rows come last; what is too long is refused.
func TestWhichLayoutComesOut(t *testing.T) {
	passed := func(length float64) *Layout { return &Layout{Length: length} }
	type search struct {
		name            string
		best            float64 // length of the best layout; 0: none
		refused         bool    // by the judge, as are rows
		shortest, first *Layout
		over            bool
		most            float64
		want            float64
		err             error
	}
	for _, c := range []search{
		{name: "the best passes", best: 150, shortest: passed(190), first: passed(200), want: 150},
		{name: "it is refused", best: 150, refused: true, shortest: passed(190), first: passed(200), want: 200},
		{name: "refused, and what was secured is all there is", best: 150, refused: true, shortest: passed(190),
			want: 190},
		{name: "cut short, and something shorter was secured", best: 150, over: true, shortest: passed(140),
			first: passed(200), want: 140},
		{name: "not cut short: what the clock secured does not count", best: 150, shortest: passed(140),
			first: passed(200), want: 150},
		{name: "nothing found", over: true, want: 120},
		{name: "nothing passes", best: 150, refused: true, err: ErrUnsettled},
		{name: "too long, rows are not", best: 150, most: 130, want: 120},
		{name: "all too long", best: 150, most: 100, err: ErrTooLong},
	} {
		p := Problem{Width: 20, MaxLength: c.most}
		for range 2 {
			p.Items = append(p.Items, Item{Choices: []Choice{{Ring: rectangle(60, 15)}}})
		}
		in := readyInstance(p)
		f := &First{instance: in, clock: newClock(context.Background()), shortestPassed: c.shortest,
			firstPassed: c.first}
		f.options.Judge = func(Layout, func() bool) Verdict { return Verdict{OK: !c.refused} }
		if c.best > 0 {
			q := in.emptyPlacement()
			q.x[1] = c.best - 60
			q.length = c.best
			f.bests = []*placement{q}
		}
		if c.over {
			f.clock.halt()
		}
		out, err := f.best()
		if err != c.err || err == nil && math.Abs(out.Length-c.want) > 0.01 {
			t.Errorf("%s: %v mm, %v; want %v, %v", c.name, out.Length, err, c.want, c.err)
		}
	}
}

// TestSecures: the judge is asked at once, again when that costs little of the time that
// has passed, and never for what is no shorter.
func TestSecures(t *testing.T) {
	in := readyInstance(cards())
	asked := 0
	f := &First{instance: in, clock: newClock(context.Background())}
	f.options.Judge = func(Layout, func() bool) Verdict { asked++; return Verdict{OK: true} }
	at := func(spread float64) *placement {
		q := in.emptyPlacement()
		for i := range 8 {
			q.x[i], q.y[i] = spread*float64(i%4), float64(50*(i/4))
		}
		q.length = in.extent(q)
		return q
	}
	f.secure(at(60))
	if asked != 1 || f.shortestPassed == nil || f.shortestPassed.Length != 230 {
		t.Fatalf("asked %d times, %v", asked, f.shortestPassed)
	}
	f.secured = time.Now().Add(time.Minute) // however long this takes
	if f.secureAgain(at(55)); asked != 1 {
		t.Error("asked again at once")
	}
	f.secured, f.took = time.Now().Add(-3*time.Second), 10*time.Millisecond
	if f.secureAgain(at(70)); asked != 1 {
		t.Error("asked about a longer one")
	}
	if f.secureAgain(at(55)); asked != 2 || f.shortestPassed.Length != 215 {
		t.Errorf("asked %d times, %v mm", asked, f.shortestPassed.Length)
	}
	f.secured, f.took = time.Now().Add(-3*time.Second), time.Second
	if f.secureAgain(at(52)); asked != 2 {
		t.Error("a second of looking after three of searching")
	}
	f.clock.late.Store(true)
	if f.judge(in.layout(at(51))).OK || asked != 2 {
		t.Error("asked when it is too late")
	}
}
