package shelf

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"yardlay/nest"
)

// newFloor is one over bolts that can be laid so far; bounds of a trial are areas.
func newFloor(t *testing.T, p nest.Problem, effort nest.Effort, room ...float64) *Floor {
	t.Helper()
	f, err := NewFiller(p, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	return NewFloor(t.Context(), f, room, effort)
}

// leastCut tries every way to cut rectangles from bolts of the cloth's width or from the
// counter, and returns the shortest of what the counter then has to hold.
func leastCut(p nest.Problem, bolts []float64) float64 {
	best, ways := math.Inf(1), 1
	for range p.Pieces {
		ways *= len(bolts) + 1
	}
	for way := range ways {
		on := make([][]nest.Piece, len(bolts)+1)
		for _, piece := range p.Pieces {
			on[way%(len(bolts)+1)] = append(on[way%(len(bolts)+1)], piece)
			way /= len(bolts) + 1
		}
		holds := true
		for i, length := range bolts {
			holds = holds && packed(on[i], int(p.Strip.Width), int(length)) != nil
		}
		if holds {
			best = min(best, float64(shortest(on[len(bolts)], int(p.Strip.Width))))
		}
	}
	return best
}

// A floor is never above what the best of all ways leaves for the counter. Rectangles wider
// than half the cloth lie in one row, where bounds are exact, and so is the floor.
func TestFloorAgainstAllWays(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 15))
	tight := 0
	for job := range 88 {
		inRow, effort := job%11 == 0, nest.Trial
		if inRow {
			effort = nest.Quick
		}
		p := nest.Problem{Strip: nest.Strip{Width: 6}}
		for i := range 2 + r.IntN(3) {
			across := 1 + r.IntN(6)
			if inRow {
				across = 4 + r.IntN(3)
			}
			p.Pieces = append(p.Pieces, oblong(fmt.Sprint(i), float64(1+r.IntN(4)), float64(across), 1))
		}
		sizes := []float64{float64(2 + r.IntN(5)), float64(2 + r.IntN(5))}
		floor := newFloor(t, p, effort, sizes...)
		for _, counts := range [][]int{{0, 0}, {1, 0}, {0, 1}, {1, 1}, {2, 0}} {
			bolts := slices.Concat(slices.Repeat(sizes[:1], counts[0]), slices.Repeat(sizes[1:], counts[1]))
			got, want := floor.Cut(counts), leastCut(p, bolts)
			if got > want || inRow && got != want {
				t.Fatalf("job %d: at least %v mm are cut besides bolts of %v, the best way cuts %v\n%+v", job, got,
					bolts, want, p.Pieces)
			}
			if got > want-1 {
				tight++
			}
		}
	}
	if tight < 200 {
		t.Errorf("the floor is within 1 mm in only %d of 440 cases", tight)
	}
}

// Of more than can be tried every way each kind is taken to have the bolts for itself, and
// all together take no less than their lengths less the bolts'.
func TestFloorOfMany(t *testing.T) {
	const room, each = 20.0, 12 // two of 7 on a bolt, or four of 5
	p := nest.Problem{Strip: nest.Strip{Width: 10},
		Pieces: []nest.Piece{oblong("slat", 7, 9, each), oblong("tab", 5, 8, each)}}
	floor := newFloor(t, p, nest.Quick, room, 4)
	for n := range 9 {
		alone := 7*max(0, each-2*n) + 5*max(0, each-4*n)
		together := 12*each - room*n
		if got := floor.Cut([]int{n, 0}); got != float64(max(0, alone, together)) {
			t.Errorf("besides %d bolts at least %v mm, want %v or %v", n, got, alone, together)
		}
		if got, other := floor.Cut([]int{n, 1}), floor.Cut([]int{n, 0}); got > other || got < other-4 {
			t.Errorf("besides %d bolts and one that holds nothing at least %v mm, without it %v", n, got, other)
		}
	}
}

// The gap between markers is no cloth: two slats of 100 with 10 between them take 210 in
// one length, and two bolts of 100.
func TestFloorCountsNoGapBetweenBolts(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 10}, Gap: 10, Pieces: []nest.Piece{oblong("slat", 100, 9, 2)}}
	floor := newFloor(t, p, nest.Quick, 100)
	for n, want := range []float64{210, 100, 0, 0} {
		if got := floor.Cut([]int{n}); math.Abs(got-want) > 0.001 {
			t.Errorf("besides %d bolts at least %v mm, want %v", n, got, want)
		}
	}
}

// What no bolt changes: flaws, repeats and folds of the cloth are left out of the floor.
func TestFloorForgetsRepeatAndFold(t *testing.T) {
	slat := onRepeat("slat", 30, 5, 0)
	slat.Count, slat.Match.Groups = 2, nil
	p := nest.Problem{Strip: nest.Strip{Width: 10, Repeat: nest.Repeat{Along: 40}}, Pieces: []nest.Piece{slat}}
	if got := newFloor(t, p, nest.Quick, 30).Full.Length; got != 60 {
		t.Errorf("both take at least %v mm, want 60 without the repeat", got)
	}
}

// minimal keeps what no other has less of, each once.
func TestMinimalKeepsTheLeast(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	for range 300 {
		var all []counts
		for range 1 + r.IntN(6) {
			all = append(all, counts{r.IntN(4), r.IntN(4), r.IntN(3)})
		}
		kept := minimal(slices.Clone(all))
		for _, c := range all {
			below := 0
			for _, d := range kept {
				if d.within(c) {
					below++
				}
			}
			isKept := slices.ContainsFunc(kept, func(d counts) bool { return slices.Equal(c, d) })
			if below == 0 || isKept && below != 1 {
				t.Fatalf("of %v %v are kept: %d of them within %v", all, kept, below, c)
			}
		}
	}
}
