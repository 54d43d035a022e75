package search

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

func rectangle(w, h float64) orb.Ring {
	return orb.Ring{{0, 0}, {w, 0}, {w, h}, {0, h}, {0, 0}}
}

func halfTurned(r orb.Ring) orb.Ring { return plane.Pose{Turn: 180}.Apply(r) }

// bothEnds lets a ring lie as it is and turned by half a turn.
func bothEnds(r orb.Ring) []Choice { return []Choice{{Ring: r}, {Ring: halfTurned(r)}} }

// problem draws items: rectangles, gores, angles, two ways each, some alike.
func problem(t *rapid.T) Problem {
	p := Problem{Width: float64(rapid.IntRange(60, 120).Draw(t, "width"))}
	p.Gap = rapid.SampledFrom([]float64{0, 0, 2}).Draw(t, "gap")
	p.Repeat = rapid.SampledFrom([][2]float64{{}, {12.6, 0}, {0, 9}, {17.35, 11}, {0.5, 3}}).Draw(t, "repeat")
	p.Groups = []Group{{}, {}, {Given: true, Phase: orb.Point{3.3, 2}}}
	if p.Repeat[1] > 0 {
		p.Width += 60 // all lies on the strip at any phase
	}
	for range rapid.IntRange(1, 4).Draw(t, "kinds") {
		a := float64(rapid.IntRange(6, 50).Draw(t, "a"))
		b := float64(rapid.IntRange(6, 40).Draw(t, "b"))
		var ring orb.Ring
		switch rapid.IntRange(0, 2).Draw(t, "kind") {
		case 0:
			ring = rectangle(a, b)
		case 1:
			ring = orb.Ring{{0, b / 4}, {a, 0}, {a, b}, {0, b / 2}, {0, b / 4}}
		case 2:
			ring = orb.Ring{{0, 0}, {a, 0}, {a, b / 2}, {a / 2, b / 2}, {a / 2, b}, {0, b}, {0, 0}}
		}
		choices := bothEnds(ring)
		for k := range choices {
			choices[k].Seat = seat(t, p.Width, plane.Bounds(choices[k].Ring), p.Repeat[1])
		}
		for range rapid.IntRange(1, 4).Draw(t, "copies") {
			p.Items = append(p.Items, Item{Choices: choices, Group: rapid.IntRange(0, 3).Draw(t, "group")})
		}
	}
	if rapid.Bool().Draw(t, "flawed") {
		p.Forbidden = []orb.Ring{{{20, 20}, {30, 20}, {25, 30}, {20, 20}}}
	}
	return p
}

// seat draws where a ring may lie: anywhere, within levels, against an edge where no
// repeat runs across; and its point on the repeat.
func seat(t *rapid.T, width float64, box orb.Bound, across float64) Seat {
	tall := box.Max[1] - box.Min[1]
	s := Seat{Point: orb.Point{rapid.Float64Range(-20, 60).Draw(t, "point x"),
		rapid.Float64Range(-20, 60).Draw(t, "point y")}}
	if across > 0 {
		return s
	}
	switch rapid.IntRange(0, 4).Draw(t, "seat") {
	case 0:
		s.Low, s.High = 0, tall
	case 1:
		s.Low, s.High = width-tall, width
	case 2:
		s.Low = plane.Snap(rapid.Float64Range(0, width-tall).Draw(t, "low"))
		s.High = s.Low + tall + plane.Snap(rapid.Float64Range(0, width-tall-s.Low).Draw(t, "spare"))
	}
	return s
}

func readyInstance(p Problem) *instance { return readyWithin(p, 1<<30) }

func readyWithin(p Problem, memory int64) *instance {
	in := newInstance(p, never)
	in.ready(memory, 1, func(float64) {})
	return in
}

func unreported(int) {}

func laneOf(in *instance, seed uint64) *lane {
	l := newLane(in, seed, 0)
	l.pool = &lanePool{}
	l.nextMeet = math.MaxInt64
	l.resetWeights()
	return l
}

// scatter loads a random state, overlapping as it comes.
func scatter(t *rapid.T, l *lane) {
	p := l.emptyPlacement()
	for i := range l.movable {
		p.way[i] = int32(rapid.IntRange(0, len(l.items[i].ways)-1).Draw(t, "way"))
		p.x[i] = rapid.Float64Range(0, 120).Draw(t, "x")
		p.y[i] = rapid.Float64Range(0, 120).Draw(t, "y")
	}
	if !l.load(p, 150) {
		t.Fatal("no phase")
	}
}

// overlapOf is the slow twin of the lane's bookkeeping: from the places alone.
func overlapOf(in *instance, p *placement) (sum float64) {
	for i := range in.items {
		for j := range in.items {
			if j < i && j < in.movable {
				if d, _, _ := in.depth(in.shapeAt(p, j), in.shapeAt(p, i), p.x[i]-p.x[j],
					p.y[i]-p.y[j]); d > in.tolerance {
					sum += d * in.roots[i] * in.roots[j]
				}
			}
		}
	}
	return sum
}

// onStrip reports whether every item lies in its seat and the points of each group
// lie on one phase, the given one where it is; all is worked out from the problem as
// given, to half a step of the lattice.
func onStrip(p Problem, in *instance, at *placement) bool {
	const step = plane.Lattice/2 + 1e-7
	for i := range in.movable {
		way := in.items[i].ways[at.way[i]]
		s, seat := &in.shapes[way.shape], p.Items[i].Choices[way.choice].Seat
		if seat.High == 0 {
			seat.High = p.Width
		}
		if at.x[i] < -step || at.x[i] > at.length-s.w+step || at.y[i] < seat.Low-step || at.y[i] > seat.High-s.h+step {
			return false
		}
		g := p.Items[i].Group - 1
		if g < 0 {
			continue
		}
		phase := at.phase[g]
		if p.Groups[g].Given {
			phase = p.Groups[g].Phase
		}
		for axis, move := range [2]float64{at.x[i] - way.origin[0], at.y[i] - way.origin[1]} {
			if r := p.Repeat[axis]; r > 0 && math.Abs(math.Remainder(move+seat.Point[axis]-phase[axis], r)) > step {
				return false
			}
		}
	}
	return true
}

func TestConstructStands(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		given := problem(t)
		in := readyInstance(given)
		p := in.construct(2, never, unreported)
		if d := overlapOf(in, p); d > 0 {
			t.Fatalf("overlap %v", d)
		}
		if !onStrip(given, in, p) {
			t.Fatal("off the strip")
		}
	})
}

// lossOf is the slow twin of what a move makes less: the weighted overlap of item i with
// others that count, each by its weighted depth, from the places alone.
func lossOf(l *lane, i int, counts func(j int) bool) (sum float64) {
	for j := range l.items {
		if j == i || !counts(j) {
			continue
		}
		d, _, _ := l.depth(l.shapeAt(l.at, j), l.shapeAt(l.at, i), l.at.x[i]-l.at.x[j], l.at.y[i]-l.at.y[j])
		if d > l.tolerance {
			sum += l.weights[i*len(l.items)+j] * weightedDepth(d) * l.roots[j]
		}
	}
	return sum
}

func anyItem(int) bool { return true }

// lossBesideGroup is that of all members of a group with what does not belong to it.
func lossBesideGroup(l *lane, g int) (sum float64) {
	for _, i := range l.groups[g].members {
		sum += lossOf(l, i, func(j int) bool { return l.items[j].group != int32(g) })
	}
	return sum
}

// TestBookkeeping: after any moves the overlaps kept equal those of the places, and no
// move makes the loss of the item greater. The sum of the depths it may: a deep overlap
// weighs less than several shallow ones of the same sum.
func TestBookkeeping(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		given := problem(t)
		l := laneOf(readyInstance(given), 1)
		scatter(t, l)
		for range 5 {
			i := rapid.IntRange(0, l.movable-1).Draw(t, "item")
			before := lossOf(l, i, anyItem)
			l.move(i)
			want := overlapOf(l.instance, l.at)
			if got := l.total(); math.Abs(got-want) > 1e-9*(1+want) {
				t.Fatalf("kept %v, places give %v", got, want)
			}
			if after := lossOf(l, i, anyItem); after > before*(1+1e-12) {
				t.Fatalf("loss rose from %v to %v", before, after)
			}
			if !onStrip(given, l.instance, l.at) {
				t.Fatal("off the strip")
			}
			l.raiseWeights()
		}
	})
}

// TestShiftGoesDown: moving a group as a whole keeps the books, the strip and the phases,
// and makes the loss between the group and all else no greater.
func TestShiftGoesDown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		given := problem(t)
		l := laneOf(readyInstance(given), 1)
		scatter(t, l)
		for g := range l.groups {
			if l.groups[g].Given || len(l.groups[g].members) == 0 {
				continue
			}
			before := lossBesideGroup(l, g)
			l.shift(g)
			want := overlapOf(l.instance, l.at)
			if got := l.total(); math.Abs(got-want) > 1e-9*(1+want) {
				t.Fatalf("kept %v, places give %v", got, want)
			}
			if after := lossBesideGroup(l, g); after > before*(1+1e-12) {
				t.Fatalf("loss rose from %v to %v", before, after)
			}
			if !onStrip(given, l.instance, l.at) {
				t.Fatal("off the strip")
			}
			l.raiseWeights()
		}
	})
}

// TestNewtonGoesDown: the walk ends no higher than it began, at the loss it says.
func TestNewtonGoesDown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := laneOf(readyInstance(problem(t)), 1)
		scatter(t, l)
		i := rapid.IntRange(0, l.movable-1).Draw(t, "item")
		from := trial{way: l.at.way[i], x: l.at.x[i], y: l.at.y[i]}
		before := l.loss(i, l.shapeNow[i], from.x, from.y, math.Inf(1))
		to := l.newton(i, from)
		if to.loss > before {
			t.Fatalf("from %v up to %v", before, to.loss)
		}
		if again := l.loss(i, l.shapeNow[i], to.x, to.y, math.Inf(1)); math.Abs(again-to.loss) > 1e-9*(1+again) {
			t.Fatalf("says %v, is %v", to.loss, again)
		}
	})
}

// TestSeparate: what it calls separated has no overlap.
func TestSeparate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := laneOf(readyInstance(problem(t)), 1)
		scatter(t, l)
		ok, least := l.separate(1)
		if got := overlapOf(l.instance, l.at); ok != (got == 0) || math.Abs(got-least) > 1e-9*(1+least) {
			t.Fatalf("separated %v with %v left, places give %v", ok, least, got)
		}
	})
}

// TestSquaresGradient: against central differences.
func TestSquaresGradient(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := laneOf(readyInstance(problem(t)), 1)
		scatter(t, l)
		u := l.unknowns()
		v, grad := u.read(l.at), make([]float64, u.count)
		l.squares(u, v, grad)
		const h = 1e-5
		for k := range v {
			at := v[k]
			v[k] = at + h
			up := l.squares(u, v, nil)
			v[k] = at - h
			down := l.squares(u, v, nil)
			v[k] = at
			// where two ways out are equally long the slope jumps from one to the other
			if slope := (up - down) / (2 * h); math.Abs(slope-grad[k]) > 1e-3*(1+math.Abs(slope)) &&
				!kinked(l, u, v, k, h) {
				t.Fatalf("gradient %v, differences %v", grad[k], slope)
			}
		}
	})
}

// kinked reports whether one-sided slopes differ: a corner of the penalty.
func kinked(l *lane, u *unknowns, v []float64, k int, h float64) bool {
	at, mid := v[k], l.squares(u, v, nil)
	v[k] = at + h
	up := l.squares(u, v, nil) - mid
	v[k] = at - h
	down := mid - l.squares(u, v, nil)
	v[k] = at
	return math.Abs(up-down) > 1e-3*h
}

// TestLineUpAlwaysStands: even from heaps.
func TestLineUpAlwaysStands(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		given := problem(t)
		l := laneOf(readyInstance(given), 1)
		scatter(t, l)
		p := l.lineUp(l.at, rapid.Bool().Draw(t, "apart"))
		if d := overlapOf(l.instance, p); d > 0 {
			t.Fatalf("overlap %v", d)
		}
		if !onStrip(given, l.instance, p) {
			t.Fatal("off the strip")
		}
		for i := range l.movable {
			if p.x[i] != plane.Snap(p.x[i]) || p.y[i] != plane.Snap(p.y[i]) {
				t.Fatal("off the lattice")
			}
		}
	})
}

// TestAlikeIsFoundAlike: equal outlines share a shape, symmetric ones need one way.
func TestAlikeIsFoundAlike(t *testing.T) {
	r := rectangle(10, 20)
	gore := orb.Ring{{0, 3}, {10, 0}, {10, 9}, {0, 6}, {0, 3}}
	in := readyInstance(Problem{Width: 100, Items: []Item{
		{Choices: bothEnds(r)},
		{Choices: bothEnds(gore)},
		{Choices: bothEnds(gore)},
	}})
	if len(in.shapes) != 3 || len(in.items[0].ways) != 1 || len(in.items[1].ways) != 2 {
		t.Errorf("%d shapes, %d and %d ways; want 3, 1 and 2", len(in.shapes), len(in.items[0].ways),
			len(in.items[1].ways))
	}
	if in.items[1].kind != in.items[2].kind || in.items[0].kind == in.items[1].kind {
		t.Error("kinds are mixed up")
	}
}

func TestFailuresKeepTheBest(t *testing.T) {
	var p failures
	for k := range 50 {
		p.add(&placement{length: float64((k * 37) % 50)}, float64((k*37)%50))
	}
	if len(p.states) != mostFailures {
		t.Fatalf("%d states, want %d", len(p.states), mostFailures)
	}
	for k, s := range p.states {
		if s.loss != float64(k) {
			t.Errorf("state %d has loss %v", k, s.loss)
		}
	}
	if p.pick(0) != p.states[0].at || p.pick(0.999) == nil {
		t.Error("pick reaches outside")
	}
}
