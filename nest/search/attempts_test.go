package search

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes/plane"
)

// begun is a lane with a first layout, alone in its pool.
func begun(p Problem, seed uint64) *lane {
	l := laneOf(readyInstance(p), seed)
	l.best = l.construct(1, never, unreported)
	l.pool.shared, l.pool.first = l.best, l.best
	l.rate, l.leaps.stride = boldest, firstLeap
	return l
}

// TestAttemptsKeepTheBest: whatever is tried, the best layout never grows longer, stands
// without overlap on the strip, and is as long as it says; failures are kept in order.
func TestAttemptsKeepTheBest(t *testing.T) {
	problems, shorter := rapid.Custom(problem), 0
	for seed := range 40 {
		given := problems.Example(seed)
		l := begun(given, uint64(seed))
		for k := range 6 {
			was, work := l.best.length, l.evals
			l.until = l.evals + 4000 // an attempt that fails is given up soon
			switch {
			case k%3 == 2:
				l.pool.done = exploreShare + 0.1
				l.compress()
			case k == 4 && len(l.groups) == 0:
				l.leap()
			default:
				l.explore()
			}
			l.until = 0
			if l.best.length > was {
				t.Fatalf("seed %d: %v mm after %v", seed, l.best.length, was)
			}
			if l.best.length < was {
				shorter++
			}
			if d := overlapOf(l.instance, l.best); d > 0 || !onStrip(given, l.instance, l.best) {
				t.Fatalf("seed %d: overlap %v, or off the strip", seed, d)
			}
			if math.Abs(l.best.length-l.extent(l.best)) > 1e-9 {
				t.Fatalf("seed %d: %v mm, it takes %v", seed, l.best.length, l.extent(l.best))
			}
			if !slices.IsSortedFunc(l.failed.states, func(a, b failure) int { return cmp.Compare(a.loss, b.loss) }) {
				t.Fatalf("seed %d: failures out of order", seed)
			}
			if l.rate > boldest || l.rate < timidest {
				t.Fatalf("seed %d: the next attempt saves %v", seed, l.rate)
			}
			if l.evals == work && l.best.length > l.enough() && l.movable > 1 {
				t.Fatalf("seed %d: an attempt for nothing", seed)
			}
		}
	}
	if shorter < 20 {
		t.Errorf("only %d attempts shortened anything", shorter)
	}
}

// TestBeginsAnew: what was best is put aside, the shorter of two of those stays there, and
// nothing of the old search is left.
func TestBeginsAnew(t *testing.T) {
	at := func(length float64) *placement { return &placement{length: length} }
	l := &lane{instance: &instance{bound: 10}, best: at(50), rate: timidest}
	l.failed.add(at(40), 1)
	l.begin(1, at(90))
	if l.aside.length != 50 || l.best.length != 90 || l.search != 1 || l.rate != boldest || len(l.failed.states) > 0 {
		t.Errorf("%+v", l)
	}
	l.best = at(60)
	if l.begin(2, at(90)); l.aside.length != 50 {
		t.Errorf("%v is put aside, 50 was shorter", l.aside.length)
	}
	l.best = at(30)
	if l.begin(3, at(90)); l.aside.length != 30 {
		t.Errorf("%v is put aside, 30 was the best", l.aside.length)
	}
	// What the pool shares is of its present search alone.
	l.pool = &lanePool{shared: at(20), search: 4}
	if l.adopt(); l.best.length != 90 {
		t.Error("taken over from another search")
	}
	l.pool.search = 3
	if l.adopt(); l.best.length != 20 || l.best == l.pool.shared {
		t.Errorf("%v mm, or not its own copy", l.best.length)
	}
	if l.isBest(at(20)) || !l.isBest(at(19)) || l.best.length != 19 {
		t.Errorf("%v mm is the best", l.best.length)
	}
	rate := l.rate
	for range 20 {
		l.giveUp()
	}
	if l.rate != timidest || l.rate >= rate || l.evals < 20 {
		t.Errorf("given up, rate %v after %d evaluations", l.rate, l.evals)
	}
}

// TestEarlyFailuresArePicked: of twenty half of the picks fall on the first three.
func TestEarlyFailuresArePicked(t *testing.T) {
	var f failures
	if f.pick(0.3) != nil {
		t.Error("one is picked of none")
	}
	for k := range mostFailures {
		f.add(&placement{length: float64(k)}, float64(k))
	}
	picks := map[int]int{}
	for k := range 1000 {
		picks[int(f.pick(float64(k)/1000).length)]++
	}
	if first := picks[0] + picks[1] + picks[2]; first < 500 || first > 560 || picks[19] == 0 {
		t.Errorf("%d of 1000 picks fall on the first three, %d on the last", first, picks[19])
	}
}

// TestLoadFits: a state comes to lie on the strip of any length on which each group has a
// phase, else it is refused; what lies there already stays as it is.
func TestLoadFits(t *testing.T) {
	refused := 0
	rapid.Check(t, func(t *rapid.T) {
		given := problem(t)
		l := laneOf(readyInstance(given), 1)
		scatter(t, l)
		least := 0.0
		for i := range l.movable {
			least = max(least, l.shapes[l.items[i].ways[0].shape].w)
		}
		length := least + rapid.Float64Range(0, 60).Draw(t, "spare")
		if !l.load(l.at.clone(), length) {
			refused++
			p := l.at.clone()
			for g := range l.groups {
				some := false
				for _, phase := range manyPhases(l.instance, g) {
					if l.groups[g].Given {
						phase = l.groups[g].Phase
					}
					p.phase[g] = phase
					some = some || l.groupFits(p, g, length)
				}
				if !some {
					return
				}
			}
			t.Fatal("every group has a phase, and the state is refused")
		}
		if !onStrip(given, l.instance, l.at) {
			t.Fatal("off the strip")
		}
		for i := range l.movable {
			if end := l.at.x[i] + l.shapes[l.shapeNow[i]].w; end > length+1e-6 {
				t.Fatalf("item %d ends at %v, the strip at %v", i, end, length)
			}
		}
		checkBooks(t, l)
		first := l.at.clone()
		l.load(first, length)
		for i := range l.movable {
			if l.at.way[i] != first.way[i] || math.Abs(l.at.x[i]-first.x[i])+math.Abs(l.at.y[i]-first.y[i]) > 1e-9 {
				t.Fatalf("item %d moves from (%v, %v) to (%v, %v)", i, first.x[i], first.y[i], l.at.x[i], l.at.y[i])
			}
		}
	})
	t.Logf("%d refused", refused)
}

// manyPhases lists phases all over the repeat.
func manyPhases(in *instance, g int) (list []orb.Point) {
	for x := range 40 {
		for y := range 40 {
			list = append(list, orb.Point{in.repeat[0] * float64(x) / 40, in.repeat[1] * float64(y) / 40})
		}
	}
	return list
}

// TestSamplesAreInOrder: places tried are where the item may be, their losses what they
// are said to be, the cheapest first.
func TestSamplesAreInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := laneOf(readyInstance(problem(t)), rapid.Uint64().Draw(t, "seed"))
		scatter(t, l)
		i := rapid.IntRange(0, l.movable-1).Draw(t, "item")
		now := trial{way: l.at.way[i], x: l.at.x[i], y: l.at.y[i]}
		best := untried()
		for _, w := range l.items[i].straight {
			l.sample(i, w, now, samplesWide, &best)
		}
		for k, b := range best {
			if math.IsInf(b.loss, 1) {
				continue
			}
			if k > 0 && best[k-1].loss > b.loss {
				t.Fatalf("losses %v", best)
			}
			way := &l.items[i].ways[b.way]
			if loss := l.loss(i, way.shape, b.x, b.y, math.Inf(1)); math.Abs(loss-b.loss) > 1e-9*(1+loss) {
				t.Fatalf("loss %v, said %v", loss, b.loss)
			}
			along, across := l.along(i, way), l.across(i, way)
			if math.Abs(along.nearest(b.x)-b.x)+math.Abs(across.nearest(b.y)-b.y) > 1e-6 {
				t.Fatalf("(%v, %v) is no place for it", b.x, b.y)
			}
		}
	})
}

// TestPairsAreEvenedOut: both of a pair come to lean alike, in their own lean where there
// is room for it, else in one for which there is; only if there is none stays it as it is.
func TestPairsAreEvenedOut(t *testing.T) {
	kept, changed := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p := leaning(t)
		snug := rapid.SampledFrom(p.Items[0].Choices).Draw(t, "snug") // room for this lean, and not for all
		box := plane.Bounds(snug.Ring)
		p.Width = box.Max[1] - box.Min[1] + 0.01
		l := laneOf(readyInstance(p), 1)
		l.length = 300
		i, j := 0, l.partner[0]
		l.at.way[i] = int32(rapid.IntRange(0, len(l.items[i].ways)-1).Draw(t, "way"))
		l.at.way[j] = int32(rapid.IntRange(0, len(l.items[j].ways)-1).Draw(t, "other"))
		family := func(k int) int { return l.items[k].ways[l.at.way[k]].family }
		lean := func(k int) float64 { return l.items[k].ways[l.at.way[k]].lean }
		room := func(k int, lean float64) bool {
			return slices.ContainsFunc(l.items[k].ways, func(w way) bool {
				return w.lean == lean && w.family == family(k) && l.hasRoom(l.at, k, &w, l.length)
			})
		}
		own, families := lean(i), [2]int{family(i), family(j)}
		possible := room(i, own) && room(j, own)
		any := possible
		for _, w := range l.items[i].ways {
			any = any || room(i, w.lean) && room(j, w.lean)
		}
		l.evenOut(i, j)
		switch {
		case lean(i) != lean(j) && len(l.items[j].leaning(own)) > 0:
			t.Fatalf("they lean %v and %v", lean(i), lean(j))
		case possible && lean(i) != own:
			t.Fatalf("from %v to %v, with room for its own", own, lean(i))
		case any && !(room(i, lean(i)) && room(j, lean(j))):
			t.Fatalf("lean %v has no room, another has", lean(i))
		case any && families != [2]int{family(i), family(j)}:
			t.Fatal("turned about")
		}
		if lean(i) == own {
			kept++
		} else {
			changed++
		}
	})
	if min(kept, changed) < often.Enough(1) {
		t.Errorf("%d kept, %d changed", kept, changed)
	}
}

// TestLossOfBoth: the overlap of two items with all else and with each other, once.
func TestLossOfBoth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := laneOf(readyInstance(problem(t)), 1)
		scatter(t, l)
		l.raiseWeights()
		if l.movable < 2 {
			return
		}
		i := rapid.IntRange(0, l.movable-2).Draw(t, "first")
		j := rapid.IntRange(i+1, l.movable-1).Draw(t, "second")
		want := l.roots[i]*lossOf(l, i, anyItem) + l.roots[j]*lossOf(l, j, func(k int) bool { return k != i })
		if got := l.lossOfBoth(i, j); math.Abs(got-want) > 1e-9*(1+want) {
			t.Fatalf("%v, the places give %v", got, want)
		}
	})
}

// TestGroupContacts: the heaviest overlaps of a group at another phase are those of its
// members with all else once they lie there.
func TestGroupContacts(t *testing.T) {
	met := 0
	rapid.Check(t, func(t *rapid.T) {
		l := laneOf(readyInstance(problem(t)), 3)
		scatter(t, l)
		l.raiseWeights()
		for g := range l.groups {
			if l.groups[g].Given || len(l.groups[g].members) == 0 {
				continue
			}
			phase := l.anyPhase(g)
			if math.IsInf(l.groupLoss(g, phase, math.Inf(1)), 1) {
				continue
			}
			got := slices.Clone(l.groupContacts(g, phase))
			l.rephaseTo(g, phase)
			var want []float64
			for _, i := range l.groups[g].members {
				for j := range l.items {
					if d := l.depths[i*len(l.items)+j]; d > 0 && l.items[j].group != int32(g) {
						want = append(want, l.weights[i*len(l.items)+j]*weightedDepth(d)*l.roots[j])
					}
				}
			}
			slices.SortFunc(want, func(a, b float64) int { return cmp.Compare(b, a) })
			if len(got) != min(3, len(want)) {
				t.Fatalf("%d contacts of %d", len(got), len(want))
			}
			for k, c := range got {
				met++
				if math.Abs(c.loss-want[k]) > 1e-9*(1+c.loss) {
					t.Fatalf("contact %d weighs %v, want %v", k, c.loss, want[k])
				}
			}
		}
	})
	if met < often.Enough(20) {
		t.Errorf("only %d contacts", met)
	}
}

// TestUnknownsMoveTogether: read and applied again nothing moves; one unknown moves one item,
// or all of a group and its phase by as much.
func TestUnknownsMoveTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := laneOf(readyInstance(problem(t)), 1)
		scatter(t, l)
		u := l.unknowns()
		v := u.read(l.at)
		same := l.at.clone()
		if u.apply(same, v); !slices.Equal(same.x, l.at.x) || !slices.Equal(same.y, l.at.y) ||
			!slices.Equal(same.phase, l.at.phase) {
			t.Fatal("applied as they were read, and something moves")
		}
		if u.count == 0 {
			return
		}
		k := rapid.IntRange(0, u.count-1).Draw(t, "unknown")
		v[k] += 3
		p := l.at.clone()
		u.apply(p, v)
		moved := map[int32]int{} // items by group
		for i := range p.x {
			if dx, dy := p.x[i]-l.at.x[i], p.y[i]-l.at.y[i]; dx != 0 || dy != 0 {
				moved[l.items[i].group]++
				if i >= l.movable || math.Abs(dx+dy-3) > 1e-9 || dx*dy != 0 {
					t.Fatalf("item %d moves by (%v, %v)", i, dx, dy)
				}
			}
		}
		for g, n := range moved {
			phase := 0.0
			if g >= 0 {
				phase = p.phase[g][0] - l.at.phase[g][0] + p.phase[g][1] - l.at.phase[g][1]
			}
			alone := n == 1 && phase == 0
			together := g >= 0 && n == len(l.groups[g].members) && math.Abs(phase-3) < 1e-9
			if len(moved) != 1 || !alone && !together {
				t.Fatalf("%d items of group %d move, its phase by %v", n, g, phase)
			}
		}
	})
}
