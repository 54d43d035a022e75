package search

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes/plane"
)

// TestGroupLoss: the loss of a group at another phase is that of its members once they
// lie there; asking changes nothing.
func TestGroupLoss(t *testing.T) {
	moved := 0
	rapid.Check(t, func(t *rapid.T) {
		l := laneOf(readyInstance(problem(t)), 1)
		scatter(t, l)
		l.raiseWeights()
		for g := range l.groups {
			if len(l.groups[g].members) == 0 || l.groups[g].Given {
				continue
			}
			before := l.at.clone()
			phase := l.anyPhase(g)
			loss := l.groupLoss(g, phase, math.Inf(1))
			if !slices.Equal(before.phase, l.at.phase) || !slices.Equal(before.x, l.at.x) {
				t.Fatal("asking moves the group")
			}
			if math.IsInf(loss, 1) {
				continue
			}
			moved++
			l.rephaseTo(g, phase)
			if got := lossBesideGroup(l, g); math.Abs(got-loss) > 1e-9*(1+loss) {
				t.Fatalf("loss %v was said, %v is there", loss, got)
			}
			checkBooks(t, l)
		}
	})
	if moved < often.Enough(20) {
		t.Errorf("only %d groups moved", moved)
	}
}

// TestPhasesAreRead: from items that lie on a phase that phase is read again, up to whole
// repeats, and rounding it brings the first of a group onto the steps asked for.
func TestPhasesAreRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := laneOf(readyInstance(problem(t)), 1)
		scatter(t, l)
		p := l.at.clone()
		l.readPhases(p)
		for g := range l.groups {
			for axis := range 2 {
				off := l.turns(axis, p.phase[g][axis]-l.at.phase[g][axis])
				if math.Abs(off) > plane.Lattice && len(l.groups[g].members) > 0 {
					t.Fatalf("group %d, axis %d: phase %v read, %v is there", g, axis, p.phase[g], l.at.phase[g])
				}
			}
		}
		// Each a little off, as rounded, none is farther from what is read than need be.
		for i := range l.movable {
			p.x[i] += plane.Lattice * rapid.Float64Range(-0.5, 0.5).Draw(t, "off x")
			p.y[i] += plane.Lattice * rapid.Float64Range(-0.5, 0.5).Draw(t, "off y")
		}
		l.readPhases(p)
		for g := range l.groups {
			if l.groups[g].Given || len(l.groups[g].members) == 0 {
				continue
			}
			for axis := range 2 {
				least, most := math.Inf(1), math.Inf(-1)
				for _, i := range l.groups[g].members {
					off := l.turns(axis, l.pointAt(p, i)[axis]-p.phase[g][axis])
					least, most = min(least, off), max(most, off)
				}
				if math.Abs(least+most) > 1e-6 {
					t.Fatalf("group %d lies %v to %v about its phase", g, least, most)
				}
			}
		}
		p = l.at.clone()
		l.readPhases(p)
		const quantum = 0.25
		l.roundPhases(p, quantum)
		for g := range l.groups {
			if l.groups[g].Given || len(l.groups[g].members) == 0 {
				continue
			}
			i := l.groups[g].members[0]
			for axis, at := range [2]float64{p.x[i], p.y[i]} {
				moved := p.phase[g][axis] - l.at.phase[g][axis]
				off := math.Remainder(at+l.turns(axis, moved), quantum)
				if l.repeat[axis] > 0 && math.Abs(off) > plane.Lattice {
					t.Fatalf("group %d: its first item comes to lie %v off the steps", g, off)
				}
			}
		}
	})
}

// TestCornerPhasesSuffice: where a group fits at any of many phases, it does at one that
// puts a member against an edge or an end.
func TestCornerPhasesSuffice(t *testing.T) {
	found := map[bool]int{}
	rapid.Check(t, func(t *rapid.T) {
		whole := func(name string, least,
			most int) float64 {
			return float64(rapid.IntRange(least, most).Draw(t, name))
		}
		repeat := [2]float64{whole("along", 10, 30), whole("across", 10, 30)}
		p := Problem{Width: float64(rapid.IntRange(30, 40).Draw(t, "width")), Repeat: repeat, Groups: []Group{{}}}
		for range rapid.IntRange(3, 5).Draw(t, "items") {
			w, h := float64(rapid.IntRange(5, 35).Draw(t, "w")), float64(rapid.IntRange(5, 30).Draw(t, "h"))
			point := orb.Point{float64(rapid.IntRange(0, 30).Draw(t, "x")), float64(rapid.IntRange(0, 30).Draw(t, "y"))}
			choice := Choice{Ring: rectangle(w, h), Seat: Seat{Point: point}}
			p.Items = append(p.Items, Item{Group: 1, Choices: []Choice{choice}})
		}
		in := newInstance(p, never)
		const length = 36.5
		at := in.phasesOnly()
		fits := func(phase orb.Point) bool {
			at.phase[0] = phase
			return in.groupFits(at, 0, length)
		}
		any := false
		for x := 0.0; x < repeat[0] && !any; x += 0.5 {
			for y := 0.0; y < repeat[1] && !any; y += 0.5 {
				any = fits(orb.Point{x, y})
			}
		}
		corner := false
		for phase := range in.cornerPhases(0, length) {
			corner = corner || fits(phase)
		}
		found[any]++
		if any && !corner {
			t.Fatal("some phase does, and none of the corners")
		}
	})
	if found[true] < often.Enough(20) || found[false] < often.Enough(5) {
		t.Errorf("lopsided: %v", found)
	}
}

// leaning draws pairs of gores that may lean by 2 degrees either way.
func leaning(t *rapid.T) Problem {
	p := Problem{Width: 90}
	for n := range rapid.IntRange(1, 3).Draw(t, "pairs") {
		a, b := float64(rapid.IntRange(20, 60).Draw(t, "a")), float64(rapid.IntRange(10, 40).Draw(t, "b"))
		ring := orb.Ring{{0, b / 4}, {a, 0}, {a, b}, {0, b / 2}, {0, b / 4}}
		for side := range 2 {
			it := Item{Pair: n + 1}
			for family, turn := range []float64{0, 180} {
				for _, lean := range []float64{0, 2, -2} {
					sense := lean
					if side == 1 {
						sense = -lean
					}
					pose := plane.Pose{Mirrored: side == 1, Turn: turn + sense}
					turned := plane.SnapRing(pose.Apply(ring))
					it.Choices = append(it.Choices, Choice{Ring: turned, Family: family, Lean: lean})
				}
			}
			p.Items = append(p.Items, it)
		}
	}
	return p
}

// TestPairsKeepOneLean: whatever moves are made, both of a pair lean alike, and the books
// are in order.
func TestPairsKeepOneLean(t *testing.T) {
	leant := 0
	rapid.Check(t, func(t *rapid.T) {
		l := laneOf(readyInstance(leaning(t)), rapid.Uint64().Draw(t, "seed"))
		scatter(t, l)
		for range 12 {
			i := rapid.IntRange(0, l.movable-1).Draw(t, "item")
			if rapid.Bool().Draw(t, "together") {
				l.leanTogether(i)
			} else {
				l.move(i)
			}
			for k, other := range l.partner {
				a, b := l.items[k].ways[l.at.way[k]].lean, l.items[other].ways[l.at.way[other]].lean
				if a != b {
					t.Fatalf("items %d and %d lean %v and %v", k, other, a, b)
				}
				if a != 0 {
					leant++
				}
			}
		}
		checkBooks(t, l)
	})
	if leant < often.Enough(1) {
		t.Error("no pair ever leant")
	}
}

// TestLeansNextToEachOther: straight ways are tried everywhere, the others near where the
// item lies in a way next to them in lean, of one family.
func TestLeansNextToEachOther(t *testing.T) {
	var choices []Choice
	it := item{}
	for _, c := range []Choice{
		{Lean: 2}, {Lean: 0}, {Lean: -2}, {Lean: 4}, {Family: 1, Lean: 0}, {Family: 1, Lean: 3},
	} {
		it.ways = append(it.ways, way{choice: len(choices), family: c.Family, lean: c.Lean})
		choices = append(choices, c)
	}
	it.sortWays(choices)
	// In order: -2, 0, 2, 4 of the first family, 0 and 3 of the second.
	want := [][]int32{{3}, {2, 0}, nil, {0}, {5}, nil}
	if !slices.Equal(it.straight, []int32{1, 4}) || !slices.EqualFunc(it.nextLeans, want, slices.Equal) {
		t.Errorf("straight %v, next %v", it.straight, it.nextLeans)
	}
	for w := range it.ways {
		it.ways[w].lo = 5 // no room across
	}
	it.straight = nil
	if it.sortWays(choices); len(it.straight) != len(it.ways) {
		t.Errorf("without room for a straight one %v are tried", it.straight)
	}
}

// TestLeansInOrder: the leans of an item but one, the nearest first; those that lean so
// much, and those that lean the least.
func TestLeansInOrder(t *testing.T) {
	it := item{}
	for _, lean := range []float64{0, 2, -2, 4, 0, 2} {
		it.ways = append(it.ways, way{lean: lean})
	}
	if got := it.otherLeans(2); !slices.Equal(got, []float64{0, 4, -2}) {
		t.Errorf("others than 2: %v", got)
	}
	if got := it.leaning(2); !slices.Equal(got, []int32{1, 5}) {
		t.Errorf("ways that lean 2: %v", got)
	}
	it.ways[0].lo, it.ways[4].lo = 5, 5 // no room across
	if got := it.leastLeaning(); !slices.Equal(got, []int32{1, 5}) {
		t.Errorf("of those with room lean the least: %v", got)
	}
	if got := partners([]Item{{Pair: 2}, {}, {Pair: 1}, {Pair: 2}}); !slices.Equal(got, []int{3, -1, -1, 0}) {
		t.Errorf("partners %v", got)
	}
}
