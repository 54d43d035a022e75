package search

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
)

// TestNearIsAllThatTouches: the columns find the items whose boxes overlap or touch one,
// each once, as comparing all pairs does, also after items have moved.
func TestNearIsAllThatTouches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := laneOf(readyInstance(problem(t)), 1)
		scatter(t, l)
		for range rapid.IntRange(0, 6).Draw(t, "moves") {
			i := rapid.IntRange(0, l.movable-1).Draw(t, "moved")
			x, y := rapid.Float64Range(-20, 170).Draw(t, "to x"), rapid.Float64Range(-20, 170).Draw(t, "to y")
			l.place(i, l.at.way[i], x, y)
		}
		x, y := rapid.Float64Range(-50, 200).Draw(t, "x"), rapid.Float64Range(-50, 200).Draw(t, "y")
		i := rapid.IntRange(0, len(l.items)-1).Draw(t, "item")
		b := box{x, x + rapid.Float64Range(0, 90).Draw(t, "w"), y, y + rapid.Float64Range(0, 90).Draw(t, "h")}
		var want []int32
		for j := range l.boxes {
			c := &l.boxes[j]
			if j != i && c.x1 >= b.x0 && b.x1 >= c.x0 && c.y1 >= b.y0 && b.y1 >= c.y0 {
				want = append(want, int32(j))
			}
		}
		got := slices.Clone(l.near(i, &b))
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Fatalf("near %v, want %v", got, want)
		}
	})
}

// checkBooks holds depths and weights of all pairs against the places.
func checkBooks(t *rapid.T, l *lane) {
	n := len(l.items)
	for i := range n {
		clashes := int32(0)
		for j := range n {
			if l.depths[i*n+j] != l.depths[j*n+i] || l.weights[i*n+j] != l.weights[j*n+i] {
				t.Fatalf("pair %d, %d: not symmetric", i, j)
			}
			if l.weights[i*n+j] < 1 {
				t.Fatalf("pair %d, %d weighs %v", i, j, l.weights[i*n+j])
			}
			if l.depths[i*n+j] > 0 {
				clashes++
			}
			if i == j || i >= l.movable && j >= l.movable {
				continue
			}
			d, _, _ := l.depth(l.shapeAt(l.at, j), l.shapeAt(l.at, i), l.at.x[i]-l.at.x[j], l.at.y[i]-l.at.y[j])
			if d <= l.tolerance {
				d = 0
			}
			if math.Abs(d-l.depths[i*n+j]) > 1e-9 {
				t.Fatalf("pair %d, %d: depth %v is kept, the places give %v", i, j, l.depths[i*n+j], d)
			}
		}
		if l.clashes[i] != clashes {
			t.Fatalf("item %d: %d clashes are kept, %d are there", i, l.clashes[i], clashes)
		}
	}
}

// TestWeightsOfPairs: pairs that overlap come to weigh more, the deepest the most, those
// that are apart forget, none weighs less than 1.
func TestWeightsOfPairs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := laneOf(readyInstance(problem(t)), 1)
		scatter(t, l)
		n := len(l.items)
		for range 4 {
			before := slices.Clone(l.weights)
			deepest := 0.0
			for i := range l.movable {
				deepest = max(deepest, slices.Max(l.depths[i*n:i*n+n]))
			}
			l.raiseWeights()
			for i := range l.movable {
				for j := range n {
					was, is, d := before[i*n+j], l.weights[i*n+j], l.depths[i*n+j]
					want := was
					switch {
					case deepest == 0:
					case d > 0:
						want = was * (1.2 + 0.8*d/deepest)
					case was > 1:
						want = max(1, was*0.95)
					}
					if math.Abs(is-want) > 1e-9*want {
						t.Fatalf("pair %d, %d, %v deep: weight %v after %v, want %v", i, j, d, is, was, want)
					}
				}
			}
			l.sweep()
			checkBooks(t, l)
		}
		l.resetWeights()
		if slices.Max(l.weights) != 1 {
			t.Fatal("weights are left from before")
		}
	})
}

// TestLossWithALimit: below its limit the loss is the weighted overlap, above it is
// something above the limit; with its contacts it is the same.
func TestLossWithALimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := laneOf(readyInstance(problem(t)), 1)
		scatter(t, l)
		l.raiseWeights()
		i := rapid.IntRange(0, l.movable-1).Draw(t, "item")
		x, y := rapid.Float64Range(0, 120).Draw(t, "x"), rapid.Float64Range(0, 120).Draw(t, "y")
		s := l.shapeNow[i]
		whole := l.loss(i, s, x, y, math.Inf(1))
		limit := rapid.Float64Range(0, 2).Draw(t, "share") * whole
		if got := l.loss(i, s, x, y, limit); got > limit != (whole > limit) || got <= limit && got != whole {
			t.Fatalf("loss %v, with a limit of %v: %v", whole, limit, got)
		}
		sum := 0.0
		if got := l.lossContacts(i, s, x, y); math.Abs(got-whole) > 1e-9*(1+whole) {
			t.Fatalf("loss %v, with contacts %v", whole, got)
		}
		for _, c := range l.contacts {
			sum += c.loss
			if c.depth <= l.tolerance || math.Abs(math.Hypot(c.nx, c.ny)-1) > 1e-9 {
				t.Fatalf("contact %+v", c)
			}
		}
		if math.Abs(sum-whole) > 1e-9*(1+whole) {
			t.Fatalf("contacts come to %v of %v", sum, whole)
		}
		l.place(i, l.at.way[i], x, y)
		if got := lossOf(l, i, anyItem); math.Abs(got-whole) > 1e-9*(1+whole) {
			t.Fatalf("loss %v before it lies there, %v after", whole, got)
		}
	})
}

// TestHeaviestContacts: the three of greatest loss, in order.
func TestHeaviestContacts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := &lane{}
		for range rapid.IntRange(0, 8).Draw(t, "contacts") {
			loss := rapid.Float64Range(0.1, 9).Draw(t, "loss")
			l.contacts = append(l.contacts, contact{loss: loss, depth: loss})
		}
		want := slices.Clone(l.contacts)
		slices.SortFunc(want, func(a, b contact) int { return cmp.Compare(b.loss, a.loss) })
		for k, c := range l.heaviest() {
			if k < len(want) && c != want[k] || k >= len(want) && c != (contact{}) {
				t.Fatalf("heaviest %d is %v of %v", k, c, want)
			}
		}
	})
}

// TestCrossedLines: the move offered meets both lines.
func TestCrossedLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		line := func(name string) contact {
			sin, cos := math.Sincos(rapid.Float64Range(0, 2*math.Pi).Draw(t, name))
			return contact{depth: rapid.Float64Range(0, 9).Draw(t, name+" depth"), nx: cos, ny: sin}
		}
		c, d := line("c"), line("d")
		offered := false
		crossLines(c, d, func(dx, dy float64, from contact) {
			offered = true
			for _, k := range [2]contact{c, d} {
				if off := k.nx*dx + k.ny*dy - k.depth; math.Abs(off) > 1e-6*(1+math.Hypot(dx, dy)) {
					t.Fatalf("(%v, %v) misses a line by %v", dx, dy, off)
				}
			}
		})
		if parallel := math.Abs(c.nx*d.ny-c.ny*d.nx) < 1e-6; offered == parallel {
			t.Fatalf("offered %v, parallel %v", offered, parallel)
		}
	})
}

// TestSlideAlongAnEdge: where the way out runs into an edge of the strip the move offered
// stays on the strip's side of it along that edge, and still leaves the overlap.
func TestSlideAlongAnEdge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := trial{x: rapid.Float64Range(0, 10).Draw(t, "x"), y: rapid.Float64Range(0, 10).Draw(t, "y")}
		sin, cos := math.Sincos(rapid.Float64Range(0.1, 2*math.Pi).Draw(t, "angle"))
		c := contact{depth: rapid.Float64Range(1, 12).Draw(t, "depth"), nx: cos, ny: sin}
		span := track{lo: 0, hi: 10}
		offered := 0
		slideAlongEdge(at, c, span, span, func(dx, dy float64, _ contact) {
			offered++
			if off := c.nx*dx + c.ny*dy - c.depth; math.Abs(off) > 1e-6*(1+math.Hypot(dx, dy)) {
				t.Fatalf("(%v, %v) leaves the overlap by %v", dx, dy, off)
			}
			onEdge := func(v float64) bool { return math.Abs(v) < 1e-9 || math.Abs(v-10) < 1e-9 }
			if !onEdge(at.x+dx) && !onEdge(at.y+dy) {
				t.Fatalf("(%v, %v) lies along no edge", at.x+dx, at.y+dy)
			}
		})
		off := func(v float64) int {
			if v < 0 || v > 10 {
				return 1
			}
			return 0
		}
		want := off(at.x+c.nx*c.depth) + off(at.y+c.ny*c.depth)
		if offered != want && min(math.Abs(cos), math.Abs(sin)) > 1e-3 {
			t.Fatalf("%d moves offered, the way out passes %d edges", offered, want)
		}
	})
}

// TestPolishLeavesOrSeparates: it says that all is apart only when it is; else the state
// is as it was.
func TestPolishLeavesOrSeparates(t *testing.T) {
	done := map[bool]int{}
	rapid.Check(t, func(t *rapid.T) {
		given := problem(t)
		l := laneOf(readyInstance(given), 1)
		first := l.construct(1, never, unreported)
		length := first.length * rapid.Float64Range(0.97, 1.02).Draw(t, "share")
		if !l.load(first, length) || !onStrip(given, l.instance, l.at) {
			return // so short that something sticks out
		}
		before := l.at.clone()
		ok := l.polish()
		done[ok]++
		if d := overlapOf(l.instance, l.at); ok != (d == 0) && ok {
			t.Fatalf("polished, and %v overlap is left", d)
		}
		if !ok && (!slices.Equal(before.x, l.at.x) || !slices.Equal(before.y, l.at.y)) {
			t.Fatal("it failed, and the state is another")
		}
		if !onStrip(given, l.instance, l.at) {
			t.Fatal("off the strip")
		}
		checkBooks(t, l)
	})
	if min(done[true], done[false]) < often.Enough(1) {
		t.Errorf("polished %d times, failed %d times: not worth the name of a test", done[true], done[false])
	}
}

// TestSwapExchangesCentres: where the strip has room for both, and two different items lie
// at each other's centres; loading keeps what fits.
func TestSwapExchangesCentres(t *testing.T) {
	l := laneOf(readyInstance(Problem{Width: 100, Items: []Item{
		{Choices: []Choice{{Ring: rectangle(40, 20)}}}, {Choices: []Choice{{Ring: rectangle(10, 30)}}},
	}}), 1)
	p := l.emptyPlacement()
	p.x[0], p.y[0], p.x[1], p.y[1] = 10, 50, 100, 20
	if !l.load(p, 200) {
		t.Fatal("it does not fit")
	}
	l.disturb()
	centre := func(i int) orb.Point {
		s := &l.shapes[l.shapeNow[i]]
		return orb.Point{l.at.x[i] + s.w/2, l.at.y[i] + s.h/2}
	}
	if centre(0) != (orb.Point{105, 35}) || centre(1) != (orb.Point{30, 60}) {
		t.Errorf("centres %v and %v", centre(0), centre(1))
	}
}
