package search

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// blocks draws rectangles with whole sides, some of them turned by a quarter as well.
func blocks(t *rapid.T) Problem {
	p := Problem{Width: 0.5 + float64(rapid.IntRange(8, 16).Draw(t, "width"))} // regions are loose: no exact fits
	for range rapid.IntRange(2, 7).Draw(t, "items") {
		a, b := float64(rapid.IntRange(1, 8).Draw(t, "a")), float64(rapid.IntRange(1, 8).Draw(t, "b"))
		choices := []Choice{{Ring: rectangle(a, b)}}
		if rapid.Bool().Draw(t, "turned") {
			choices = append(choices, Choice{Ring: rectangle(b, a)})
		}
		p.Items = append(p.Items, Item{Choices: choices})
	}
	return p
}

// TestEachIsLaidSoonest: rectangles of whole sides are laid, big ones first, where they end
// as soon as at any free corner of two of them, or of one and the strip, in every way.
func TestEachIsLaidSoonest(t *testing.T) {
	problems := rapid.Custom(blocks)
	for seed := range 60 { // not any: regions are loose, so that of two edges that meet one is the farther
		in := readyInstance(problems.Example(seed))
		c := in.newBuilder(never)
		c.workers = 1
		var laid []orb.Bound
		free := func(b orb.Bound) bool {
			return !slices.ContainsFunc(laid, func(o orb.Bound) bool {
				return b.Min[0] < o.Max[0] && o.Min[0] < b.Max[0] && b.Min[1] < o.Max[1] && o.Min[1] < b.Max[1]
			})
		}
		order := in.bigFirst()
		for k, i := range order {
			if k > 0 && in.items[order[k-1]].area < in.items[i].area {
				t.Fatal("a bigger one comes later")
			}
			soonest := math.Inf(1)
			for _, way := range in.items[i].ways {
				s := &in.shapes[way.shape]
				try := func(x, y float64) {
					b := orb.Bound{Min: orb.Point{x, y}, Max: orb.Point{x + s.w, y + s.h}}
					if x >= 0 && y >= 0 && b.Max[1] <= in.width && free(b) {
						soonest = min(soonest, x+s.w)
					}
				}
				try(0, 0)
				for _, o := range laid {
					for _, x := range []float64{o.Min[0] - s.w, o.Max[0]} {
						for _, y := range []float64{0, in.width - s.h, o.Min[1] - s.h, o.Max[1]} {
							try(x, y)
							try(0, y)
						}
					}
				}
			}
			if !c.add(i) {
				t.Fatal("stopped by nobody")
			}
			s, x, y := &in.shapes[in.shapeAt(c.at, i)], c.at.x[i], c.at.y[i]
			const loose = 4 * plane.Lattice // by which regions keep corners apart, for each neighbour
			if x+s.w > soonest+loose*float64(k+1) {
				t.Fatalf("seed %d: item %d ends at %v, %v would do", seed, i, x+s.w, soonest)
			}
			b := orb.Bound{Min: orb.Point{math.Round(2*x) / 2, math.Round(2*y) / 2}}
			b.Max = orb.Point{b.Min[0] + s.w, b.Min[1] + s.h}
			if !free(b) {
				t.Fatalf("seed %d: item %d lies on others", seed, i)
			}
			laid = append(laid, b)
		}
	}
}

// TestBuiltAnew: layouts varied at random stand on the strip as plain ones do; their
// orders hold every item once, and bigger ones come first as far as areas differ by more
// than the spread.
func TestBuiltAnew(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		given := problem(t)
		l := laneOf(readyInstance(given), rapid.Uint64().Draw(t, "seed"))
		evals := l.evals
		p := l.rebuild()
		if d := overlapOf(l.instance, p); d > 0 {
			t.Fatalf("overlap %v", d)
		}
		if !onStrip(given, l.instance, p) || math.Abs(p.length-l.extent(p)) > 0 {
			t.Fatal("off the strip")
		}
		if l.rebuilt != l.evals-evals || l.rebuilt < int64(l.movable) {
			t.Fatalf("%d evaluations of %d are booked", l.rebuilt, l.evals-evals)
		}
		order := l.varied()
		sorted := slices.Clone(order)
		slices.Sort(sorted)
		for k, i := range sorted {
			if k != i {
				t.Fatalf("order %v", order)
			}
		}
	})
	// Spread 1, 2 or any, each in a third of all draws.
	l := laneOf(readyInstance(Problem{Width: 100, Items: []Item{
		{Choices: []Choice{{Ring: rectangle(10, 10)}}}, {Choices: []Choice{{Ring: rectangle(30, 10)}}},
		{Choices: []Choice{{Ring: rectangle(90, 90)}}},
	}}), 5)
	bigger, tripled := 0, 0
	for range 600 {
		order := l.varied()
		at := func(i int) int { return slices.Index(order, i) }
		if at(2) < at(1) {
			bigger++
		}
		if at(1) < at(0) {
			tripled++
		}
	}
	// In a third of the draws any order is as likely: there either loses half of the time,
	// 100 times of 600, give or take four standard deviations; three times the area now and
	// then also with a spread of 2.
	if bigger < 460 || bigger > 540 || tripled < 440 || tripled > 540 {
		t.Errorf("bigger first in %d and %d of 600", bigger, tripled)
	}
}

// TestRowsStand: rows keep the strip, the gap and clear of zones, in every way of the
// strip and the repeat, on the lattice; what is laid already is not moved.
func TestRowsStand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		given := problem(t)
		in := readyInstance(given)
		items := in.bigFirst()
		from := float64(rapid.IntRange(0, 40).Draw(t, "from"))
		p := in.rows(in.emptyPlacement(), items, from)
		if !onStrip(given, in, p) {
			t.Fatal("off the strip")
		}
		box := func(i int) orb.Bound {
			s := &in.shapes[in.shapeAt(p, i)]
			return orb.Bound{Min: orb.Point{p.x[i], p.y[i]}, Max: orb.Point{p.x[i] + s.w, p.y[i] + s.h}}
		}
		for i := range in.movable {
			if p.x[i] < from-plane.Lattice/2 || p.x[i] != plane.Snap(p.x[i]) || p.y[i] != plane.Snap(p.y[i]) {
				t.Fatalf("item %d at (%v, %v), from %v on", i, p.x[i], p.y[i], from)
			}
			a := box(i)
			for j := range in.items {
				gap := in.gap
				if j >= in.movable {
					gap = 0
				}
				b := box(j)
				if j != i && a.Min[0] < b.Max[0]+gap && b.Min[0] < a.Max[0]+gap && a.Min[1] < b.Max[1]+gap &&
					b.Min[1] < a.Max[1]+gap {
					t.Fatalf("items %d and %d: %v and %v", i, j, a, b)
				}
			}
		}
	})
}

// TestGridPlaces: those of a track between two places, each once, and none at all where
// they would be too many.
func TestGridPlaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := track{lo: 3, hi: 3 + rapid.Float64Range(0, 60).Draw(t, "room")}
		tr.step, tr.phase = rapid.Float64Range(0.5, 20).Draw(t, "step"), rapid.Float64Range(-30, 30).Draw(t, "phase")
		from := rapid.Float64Range(-10, 60).Draw(t, "from")
		to := from + rapid.Float64Range(0, 40).Draw(t, "span")
		var want, got []float64
		for k := -300.0; k < 300 && (to-from)/tr.step <= mostGridPlaces; k++ {
			at := tr.gridPlace(k)
			if at >= from && at <= to && at >= tr.lo-tr.slack() && at <= tr.hi+tr.slack() {
				want = append(want, at)
			}
		}
		(&builder{}).gridPlaces(tr, from, to, func(at float64) { got = append(got, at) })
		if !slices.EqualFunc(got, want, func(a, b float64) bool { return math.Abs(a-b) < 1e-6 }) {
			t.Fatalf("%v, want %v", got, want)
		}
	})
}

// TestFewWays: of a lot of many kinds the ways that are shortest along the strip.
func TestFewWays(t *testing.T) {
	in := readyInstance(Problem{Width: 100, Items: []Item{{Choices: []Choice{
		{Ring: rectangle(30, 10)}, {Ring: rectangle(10, 30)},
		{Ring: orb.Ring{{0, 0}, {10, 0}, {10, 20}, {0, 30}, {0, 0}}},
	}}}})
	c := in.newBuilder(never)
	if got := c.waysOf(0); !slices.Equal(got, []int32{0, 1, 2}) {
		t.Errorf("ways %v of few kinds", got)
	}
	if c.few = true; !slices.Equal(c.waysOf(0), []int32{1, 2}) {
		t.Errorf("ways %v of many kinds", c.waysOf(0))
	}
}

// TestTheFirstOfAGroupSetsItsPhase: it is laid where all of the group can lie, at a phase
// that the others keep.
func TestTheFirstOfAGroupSetsItsPhase(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Problem{Width: 40, Repeat: [2]float64{0, 30}, Groups: []Group{{}}}
		for range 3 {
			h, y := rapid.IntRange(5, 30).Draw(t, "h"), rapid.IntRange(0, 29).Draw(t, "y")
			p.Items = append(p.Items, Item{Group: 1, Choices: []Choice{
				{Ring: rectangle(10, float64(h)), Seat: Seat{Point: orb.Point{0, float64(y)}}},
			}})
		}
		in := readyInstance(p)
		if !in.groupFits(in.emptyPlacement(), 0, math.Inf(1)) {
			return // there is no phase
		}
		c := in.newBuilder(never)
		first := in.bigFirst()[0]
		way := &in.items[first].ways[0]
		for y := 0.0; y <= way.hi; y++ {
			fits := true
			for _, it := range in.items {
				w := it.ways[0]
				least := math.Mod(y+way.point[1]-w.point[1]+300, 30) // of the places at this phase
				fits = fits && least <= w.hi
			}
			if got := c.suits(first, way, orb.Point{0, y}); got != fits {
				t.Fatalf("at %v it suits the group: %v, want %v", y, got, fits)
			}
		}
		if at := in.construct(1, never, unreported); !onStrip(p, in, at) {
			t.Fatal("off the strip")
		}
	})
}
