package search

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestStartsWithin: a state of any kind lies on the strip of the length asked for,
// and one laid with room to spare stands without overlap.
func TestStartsWithin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		given := problem(t)
		given.Groups, given.Repeat = nil, [2]float64{}
		for i := range given.Items {
			given.Items[i].Group = 0
		}
		l := laneOf(readyInstance(given), rapid.Uint64().Draw(t, "seed"))
		l.best = l.construct(1, never, unreported)
		kind := startKind(rapid.IntRange(0, int(startKinds)-1).Draw(t, "kind"))
		least, roomy := 0.0, 4*l.best.length
		for i := range l.movable {
			sh := &l.shapes[l.items[i].ways[0].shape] // half a turn leaves its extents
			least, roomy = math.Max(least, sh.w), roomy+sh.w+sh.h
		}
		length := math.Max(least, rapid.Float64Range(0.5, 2).Draw(t, "share")*l.best.length)
		start := l.startWithin(length, kind)
		if l.load(start, length); !onStrip(given, l.instance, l.at) {
			t.Fatal("off the strip")
		}
		if len(given.Forbidden) == 0 {
			l.load(l.startWithin(roomy, kind), roomy)
			if d := overlapOf(l.instance, l.at); d > 0 {
				t.Fatalf("overlap %v", d)
			}
		}
	})
}

// TestAnywhereIsOnTheStrip: what is drawn is a place for the item, all over the strip.
func TestAnywhereIsOnTheStrip(t *testing.T) {
	l := laneOf(readyInstance(Problem{Width: 50, Items: []Item{{Choices: bothEnds(wedge)}}}), 1)
	var ends [2]float64
	for range 400 {
		at := l.anywhere(0, 200)
		s := &l.shapes[l.items[0].ways[at.way].shape]
		if at.x < 0 || at.x > 200-s.w || at.y < 0 || at.y > 50-s.h {
			t.Fatalf("%+v", at)
		}
		ends[0], ends[1] = max(ends[0], at.x+s.w), max(ends[1], at.y+s.h)
	}
	if ends[0] < 190 || ends[1] < 48 {
		t.Errorf("no place ends beyond %v", ends)
	}
}

// TestTryWithinEnds: an attempt that is granted no work gives up, and says so.
func TestTryWithinEnds(t *testing.T) {
	given := Problem{Width: 100}
	for range 40 {
		given.Items = append(given.Items, Item{Choices: bothEnds(rectangle(30, 17))})
	}
	l := laneOf(readyInstance(given), 1)
	l.best = l.construct(1, never, unreported)
	l.pool.shared = l.best
	for k := range startKinds {
		before := l.evals
		if l.tryWithin(l.best.length/2, k) {
			t.Errorf("kind %d: half the length is found enough", k)
		}
		if used := l.evals - before; used > 2*max(l.evals, meetEvery)/leapMost {
			t.Errorf("kind %d: %d evaluations", k, used)
		}
	}
}
