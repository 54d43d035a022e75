package nest

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"
	"time"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes/plane"
)

var quarterTurns = []float64{0, 180, 90, 270}

// A pair of which one lies along the cloth and the other across is refused, drawn
// or mirrored, and whatever it leans.
func TestPairOnTwoGrainsIsRefused(t *testing.T) {
	for _, mirror := range []Mirror{Paired, Free} {
		p := Problem{Strip: Strip{Width: 200}, Pieces: []Piece{{
			Name: "front", Outline: rect(0, 0, 60, 30), Count: 2, Mirror: mirror, Alike: true,
			Turns: slices.Concat(quarterTurns, []float64{8, 98}),
		}}}
		across := Placed{Copy: 1, Mirrored: mirror == Paired, Turn: 270, At: orb.Point{100, 100}}
		along := across
		along.Turn = 180
		leant := along
		leant.Turn = 8
		if leant.Mirrored {
			leant.Turn = -8
		}
		for _, c := range []struct {
			second Placed
			ok     bool
		}{{across, false}, {along, true}, {leant, false}} {
			l := Layout{Placed: []Placed{{At: orb.Point{0, 0}}, c.second}}
			for _, pl := range l.Placed {
				for _, v := range p.Outline(pl) {
					l.Length = max(l.Length, v[0])
				}
			}
			err := Verify(p, l)
			var broken *Broken
			if c.ok && err != nil || !c.ok && (!errors.As(err, &broken) || broken.Rule != MixedGrain) {
				t.Errorf("%v turned %v beside 0: %v", mirror, c.second.Turn, err)
			}
		}
	}
}

// A pair lies across where that is shorter, both of it: 100 x 30 twice on 105 takes
// 60 across and 100 along. Two pairs beside each other lie on a grain each where
// that is shortest: 100 x 40 and 60 x 50, twice each, on 100.
func TestPairsLieOnTheShorterGrain(t *testing.T) {
	pair := func(long, wide float64) Piece {
		return Piece{Name: fmt.Sprint(long, " x ", wide), Outline: rect(0, 0, long, wide), Count: 2, Mirror: Paired,
			Alike: true, Turns: quarterTurns}
	}
	for _, c := range []struct {
		width, want float64
		pieces      []Piece
	}{
		{105, 60, []Piece{pair(100, 30)}},
		{100, 140, []Piece{pair(100, 40), pair(60, 50)}},
	} {
		p := Problem{Strip: Strip{Width: c.width}, Pieces: c.pieces}
		r, err := Solve(context.Background(), p, Options{Work: often.Full[int64](1<<18, 0), Workers: 1})
		if err != nil {
			t.Fatal(err)
		}
		if r.Layout.Length != c.want {
			t.Errorf("on %v: %v mm, want %v", c.width, r.Layout.Length, c.want)
		}
	}
}

// A slat of 200 x 40 drawn 2 degrees askew takes 201.3 x 47 straight. Leant by those 2
// degrees two lie abreast on 95 and two behind them, in 400: both of a pair lean, as mirror
// images. On 42 it has no room straight.
func TestPairsLeanTogether(t *testing.T) {
	slat := plane.SnapRing(plane.Pose{Turn: -2}.Apply(rect(0, 0, 200, 40)))
	for i, width := range []float64{95, 42} {
		mirrors := []Mirror{Paired, Free}
		for _, mirror := range often.Full(mirrors[i:i+1], mirrors) {
			p := Problem{Strip: Strip{Width: width}, Pieces: []Piece{{
				Name: "slat", Outline: slat, Count: 4, Mirror: mirror, Alike: true, Turns: []float64{0, 359, 1, 358, 2},
			}}}
			r, err := Solve(context.Background(), p, Options{Work: 1 << 20, Workers: 1})
			if err != nil {
				t.Fatal(err)
			}
			if want := 40000 / math.Floor(width/40) / 50; r.Layout.Length > want+0.1 {
				t.Errorf("on %v, %v: %v mm, want %v", width, mirror, r.Layout.Length, want)
			}
		}
	}
}

// Of every layout, folded ones opened out too, pairs lie on one grain, and the
// result does not depend on the number of workers.
func TestPairsLieAlike(t *testing.T) {
	problems := rapid.Custom(func(t *rapid.T) Problem {
		p := Problem{Strip: Strip{Width: 300}, Gap: rapid.SampledFrom([]float64{0, 3}).Draw(t, "gap")}
		for i := range rapid.IntRange(1, 3).Draw(t, "kinds") {
			long, wide, tip := rapid.IntRange(30, 140).Draw(t, "long"), rapid.IntRange(20, 100).Draw(t, "wide"),
				rapid.IntRange(0, 40).Draw(t, "tip")
			p.Pieces = append(p.Pieces, Piece{
				Name: fmt.Sprint("piece ", i), Count: 2 * rapid.IntRange(1, 3).Draw(t, "pairs"), Alike: true,
				Outline: orb.Ring{{0, 0}, {float64(long), 0}, {float64(long + tip), float64(wide)}, {0, float64(wide)},
					{0, 0}},
				Mirror: rapid.SampledFrom([]Mirror{Paired, Free}).Draw(t, "mirror"),
				Turns: rapid.SampledFrom([][]float64{quarterTurns, {0, 90}, {0, 2, 358, 90, 92, 88},
					{0, 1, 2, 359, 358}, {0, 3, 357, 180, 183, 177}, {45, 225, 135, 315}}).Draw(t, "turns"),
			})
		}
		return p
	})
	for seed := range often.Jobs(4, 24) {
		p := problems.Example(seed)
		lay := []Lay{Open, LengthwiseFold, CrosswiseTurned, Open}[seed%4]
		stretches, err := Fold(p, lay, 0)
		if err != nil {
			continue
		}
		var layouts []Layout
		for _, s := range stretches {
			one, err := Solve(context.Background(), s.Problem, Options{Effort: Trial, Workers: 1})
			if err != nil {
				t.Fatal(err)
			}
			two, err := Solve(context.Background(), s.Problem, Options{Effort: Trial, Workers: 2})
			if err != nil || !slices.Equal(one.Layout.Placed, two.Layout.Placed) {
				t.Errorf("problem %d: workers change the layout (%v)", seed, err)
			}
			if again, err := Solve(context.Background(), s.Problem,
				Options{Effort: Trial, Workers: 1, Start: &one.Layout}); err != nil ||
				again.Layout.Length > one.Layout.Length {
				t.Errorf("problem %d: beginning from its own layout: %v, %v", seed, again.Layout.Length, err)
			}
			layouts = append(layouts, one.Layout)
		}
		opened := Unfold(p, stretches, layouts)
		if err := Verify(p, opened); err != nil {
			t.Fatalf("problem %d, %v: %v", seed, lay, err)
		}
		turn := map[[2]int]float64{} // without the judge's help
		for _, pl := range opened.Placed {
			turned := pl.Turn
			if pl.Mirrored {
				turned = -turned
			}
			of := [2]int{pl.Piece, pl.Copy / 2}
			if other, ok := turn[of]; ok && math.Abs(math.Sin((turned-other)*math.Pi/180)) > 1e-6 {
				t.Errorf("problem %d, %v: a pair of piece %d lies %v and %v", seed, lay, pl.Piece, other, turned)
			}
			turn[of] = turned
		}
	}
}

// Trials of grains leave leans aside and most of the time to the search, whether the
// ceiling is an option's or the context's.
func TestTrialsOfGrainsAreSparing(t *testing.T) {
	p := Problem{Strip: Strip{Width: 100}, Pieces: []Piece{
		{Name: "gore", Outline: orb.Ring{{0, 0}, {60, 0}, {60, 30}, {0, 20}, {0, 0}}, Count: 2, Mirror: Paired,
			Alike: true,
			Turns: []float64{0, 2, 358, 90, 92, 88}},
		{Name: "strap", Outline: orb.Ring{{0, 0}, {40, 0}, {40, 10}, {0, 10}, {0, 0}}, Count: 1, Turns: []float64{45}},
	}}
	upright := p.withoutLeans()
	if got := upright.Pieces[0].Turns; !slices.Equal(got, []float64{0, 90}) {
		t.Errorf("turns of trials are %v", got)
	}
	if got := upright.Pieces[1].Turns; !slices.Equal(got, []float64{45}) {
		t.Errorf("a piece on the bias is tried at %v", got)
	}
	limited, done := context.WithTimeout(t.Context(), time.Hour)
	defer done()
	trials, cancel := shareOfTime(limited, trialShare)
	defer cancel()
	if end, ok := trials.Deadline(); !ok || time.Until(end) > 15*time.Minute || time.Until(end) < 14*time.Minute {
		t.Errorf("trials of a run of an hour end in %v", time.Until(end))
	}
	unlimited, cancel := shareOfTime(t.Context(), trialShare)
	defer cancel()
	if end, ok := unlimited.Deadline(); ok {
		t.Errorf("without a ceiling trials end at %v", end)
	}
}

// Grains on the bias beside straight ones are tried as well, and a tilt too narrow to be
// a lean: each leaves the copies a way to lie.
func TestTrialsOfGrainsOnTheBias(t *testing.T) {
	gore := orb.Ring{{0, 0}, {60, 0}, {60, 30}, {0, 20}, {0, 0}}
	for _, turns := range [][]float64{{0, 45, 315}, {0, 1}, {0, 90, 30}} {
		p := Problem{Strip: Strip{Width: 100}, Pieces: []Piece{{
			Name: "gore", Outline: gore, Count: 2, Mirror: Paired, Alike: true, Turns: turns,
		}}}
		for _, grain := range p.grainChoices(0) {
			for copy := range 2 {
				if item, _ := p.withoutLeans().choices(0, copy, grains{0: {grain}}); len(item.Choices) == 0 {
					t.Errorf("of turns %v copy %d has no way to lie on the grain of %v", turns, copy, grain)
				}
			}
		}
	}
}
