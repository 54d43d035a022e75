package nest_test

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/nest"
	"yardlay/nest/bound"
	"yardlay/shapes/plane"
)

// efforts has one with the bounds that take longer now and then.
var efforts = []nest.Effort{nest.Trial, nest.Trial, nest.Trial, nest.Trial, nest.Trial, nest.Trial, nest.Quick}

// pinnable draws a problem as it is laid on some stretch of a lay, with a layout of it.
func pinnable(t *rapid.T) (nest.Problem, nest.Layout) {
	p := randomProblem(t)
	for i := range p.Pieces {
		p.Pieces[i].Alike = rapid.IntRange(0, 4).Draw(t, "alike") == 4
	}
	lay := rapid.SampledFrom([]nest.Lay{nest.Open, nest.Open, nest.LengthwiseFold, nest.CrosswiseTurned,
		nest.DoubleFold}).Draw(t, "lay")
	stretches, err := nest.Fold(p, lay, 2)
	if err != nil {
		t.Skip(err) // too big, or not for this lay
	}
	p = stretches[rapid.IntRange(0, len(stretches)-1).Draw(t, "stretch")].Problem
	r, err := nest.Solve(context.Background(), p, nest.Options{Effort: nest.Trial, Work: 1 << 13})
	if err != nil {
		t.Fatal(err)
	}
	return p, r.Layout
}

// pin pins some of a layout, some of it moved along the cloth and across it.
func pin(t *rapid.T, p nest.Problem, l nest.Layout) []nest.Placed {
	var pins []nest.Placed
	far := float64(rapid.SampledFrom([]int{0, 0, 300}).Draw(t, "far"))
	if along := p.Strip.Repeat.Along; along > 0 {
		far = 0
	}
	for _, pl := range l.Placed {
		if rapid.IntRange(0, 2).Draw(t, "pinned") != 0 {
			continue
		}
		pl.At[0] += far
		if rapid.IntRange(0, 3).Draw(t, "moved") == 0 && p.Strip.Repeat == (nest.Repeat{}) {
			pl.At[0] += plane.Snap(rapid.Float64Range(0, 90).Draw(t, "along"))
		}
		pins = append(pins, pl)
	}
	return pins
}

// TestPinsStand: whatever may be pinned stands where it is, the others are laid around it by
// all rules, no layout is shorter than its farthest pin, and no bound lies above one.
func TestPinsStand(t *testing.T) {
	pinned := 0
	rapid.Check(t, func(t *rapid.T) {
		p, l := pinnable(t)
		p.Pins = pin(t, p, l)
		if err := p.Check(); err != nil {
			if !errors.As(err, new(*nest.PinError)) {
				t.Fatal(err)
			}
			t.Skip(err)
		}
		pinned += len(p.Pins)
		r, err := nest.Solve(context.Background(), p, nest.Options{Effort: rapid.SampledFrom(efforts).Draw(t, "effort"),
			Work: 1 << 14})
		if err != nil {
			t.Fatal(err)
		}
		stand(t, p, r)
	})
	if pinned < often.Enough(20) {
		t.Errorf("%d pins in all", pinned)
	}
}

// stand checks a result without the judge's help, and with it.
func stand(t *rapid.T, p nest.Problem, r nest.Result) {
	far := 0.0
	for _, pin := range p.Pins {
		if !slices.Contains(r.Layout.Placed, pin) {
			t.Fatalf("%+v is not where it is pinned: %+v", pin, r.Layout.Placed)
		}
		far = max(far, plane.Bounds(p.Outline(pin)).Max[0])
	}
	if err := nest.Verify(p, r.Layout); err != nil {
		t.Fatal(err)
	}
	free := p
	free.Pins = nil
	if err := nest.Verify(free, r.Layout); err != nil {
		t.Fatal(err)
	}
	switch b := r.Bound; {
	case b.Length > r.Layout.Length, b.Length < far, r.Layout.Length < far:
		t.Fatalf("bound %v, farthest pin %v, layout %v", b.Length, far, r.Layout.Length)
	case b.Kind == bound.LastPin && b.Length != far:
		t.Fatalf("bound %+v, farthest pin %v", b, far)
	}
}

// TestAllPinned: with every copy of a layout pinned there is that layout, and no shorter.
func TestAllPinned(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, l := pinnable(t)
		p.Pins = slices.Clone(l.Placed)
		r, err := nest.Solve(context.Background(), p,
			nest.Options{Effort: nest.Trial, Work: 1 << 13, Start: started(t, l)})
		if err != nil {
			t.Fatal(err)
		}
		stand(t, p, r)
		if r.Layout.Length != l.Length || r.Status != nest.Proved || len(r.Layout.Placed) != len(l.Placed) {
			t.Fatalf("%v of %v, %v", r.Layout.Length, l.Length, r.Status)
		}
	})
}

// started begins from a layout or not.
func started(t *rapid.T, l nest.Layout) *nest.Layout {
	if rapid.Bool().Draw(t, "started") {
		return &l
	}
	return nil
}

// TestPinsOnAnyNumberOfWorkers: the same bytes; and begun from a layout in which the pins
// stand, nothing is lost.
func TestPinsOnAnyNumberOfWorkers(t *testing.T) {
	p := mixed()
	first := solve(t, p, nest.Options{Effort: nest.Trial})
	for _, pl := range first.Layout.Placed[:6] {
		pl.At[0] += 150
		p.Pins = append(p.Pins, pl)
	}
	work := often.Full[int64](1<<18, 2<<20)
	one := solve(t, p, nest.Options{Effort: unproved, Seed: 7, Work: work, Workers: 1})
	three := solve(t, p, nest.Options{Effort: unproved, Seed: 7, Work: work, Workers: 3})
	if diff := cmp.Diff(one.Layout, three.Layout); diff != "" {
		t.Fatalf("three workers: layout differs:\n%s", diff)
	}
	again := solve(t, p, nest.Options{Effort: nest.Trial, Start: &one.Layout})
	if again.Layout.Length > one.Layout.Length {
		t.Errorf("begun from %v: %v", one.Layout.Length, again.Layout.Length)
	}
}

// TestRowsAroundPins: a lot too large to be searched is laid in rows around its pins, a gap off.
func TestRowsAroundPins(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 300}, Gap: 2.5, Pieces: []nest.Piece{
		{Name: "tab", Outline: rectangle(9, 7), Count: 2600}, {Name: "panel", Outline: gore(60, 120, 100), Count: 2},
	}}
	p.Pins = []nest.Placed{{Piece: 1, At: orb.Point{30, 0}}, {Piece: 0, Copy: 7, At: orb.Point{3, 140}}}
	r := solve(t, p, nest.Options{Effort: nest.Quick})
	p.Pins = nil
	free := solve(t, p, nest.Options{Effort: nest.Quick})
	t.Logf("%v long, %v without pins", r.Layout.Length, free.Layout.Length)
	if r.Layout.Length > 1.06*free.Layout.Length {
		t.Errorf("%v long, %v without pins", r.Layout.Length, free.Layout.Length)
	}
}

// TestPinsRefused: pins that could be in no layout are refused by name, rule and place, with
// what would help, before any search.
func TestPinsRefused(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 100, MaxLength: 400,
		Forbidden: []orb.Ring{{{200, 0}, {210, 0}, {210, 10}, {200, 10}, {200, 0}}},
		Repeat:    nest.Repeat{Along: 40}}, Gap: 5, Pieces: []nest.Piece{
		{Name: "front", Outline: rectangle(50, 30), Count: 2, Mirror: nest.Paired, Alike: true,
			Turns: []float64{0, 90, 180, 270}},
		{Name: "cuff", Outline: rectangle(20, 12), Count: 2, Match: &nest.Match{}},
	}}
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	front := nest.Placed{At: orb.Point{0, 0}}
	for name, c := range map[string]struct {
		pins []nest.Placed
		want string
	}{
		"off the cloth": {[]nest.Placed{{At: orb.Point{0, 80}}},
			`"front" copy 1 lies outside the strip near (50 mm, 110 mm)`},
		"before the cut end": {[]nest.Placed{{At: orb.Point{-1, 0}}}, `"front" copy 1 lies outside the strip`},
		"beyond the end":     {[]nest.Placed{{At: orb.Point{351, 0}}}, `"front" copy 1 lies outside the strip`},
		"on a flaw":          {[]nest.Placed{{At: orb.Point{170, 5}}}, `"front" copy 1 covers a forbidden zone near`},
		"against the nap":    {[]nest.Placed{{Turn: 45}}, `"front" copy 1 is turned as it may not be`},
		"mirrored": {[]nest.Placed{{Mirrored: true, At: orb.Point{0, 40}}},
			`"front" copy 1 is mirrored as it may not be`},
		"off the lattice": {[]nest.Placed{{At: orb.Point{0.0001, 0}}}, `"front" copy 1 is off the lattice`},
		"no number":       {[]nest.Placed{{At: orb.Point{math.NaN(), 0}}}, `"front" copy 1 is off the lattice`},
		"of no piece":     {[]nest.Placed{{Piece: 2}}, `does not match the count`},
		"of no copy":      {[]nest.Placed{{Copy: 2}}, `"front" copy 3 does not match the count`},
		"twice":           {[]nest.Placed{front, front}, `"front" copy 1 does not match the count: placed twice`},
		"over each other": {[]nest.Placed{front, {Piece: 1, At: orb.Point{40, 10}}},
			`"front" copy 1 overlaps "cuff" copy 1 near`},
		"too close": {[]nest.Placed{front, {Piece: 1, At: orb.Point{54, 10}}},
			`"front" copy 1 is too close to "cuff" copy 1 near`},
		"on another grain": {[]nest.Placed{front, {Copy: 1, Mirrored: true, Turn: 90, At: orb.Point{100, 0}}},
			`"front" copy 2 lies on another grain than the other of its pair`},
		"off the repeat": {[]nest.Placed{{Piece: 1, At: orb.Point{0, 50}}, {Piece: 1, Copy: 1, At: orb.Point{79, 50}}},
			`"cuff" copy 2 lies off the repeat`},
	} {
		p.Pins = c.pins
		_, err := nest.Solve(context.Background(), p, nest.Options{})
		var bad *nest.PinError
		if !errors.As(err, &bad) {
			t.Errorf("%s: %v", name, err)
			continue
		}
		what, hint := bad.Parts(nil)
		if !strings.Contains(what, "a pinned piece cannot lie there: ") || !strings.Contains(what, c.want) ||
			hint == "" {
			t.Errorf("%s: %q, hint %q; want %q", name, what, hint, c.want)
		}
	}
	p.Pins = []nest.Placed{front}
	if _, err := nest.Fold(p, nest.LengthwiseFold, 0); err == nil {
		t.Error("pins on the open cloth pass for those of a folded one")
	}
}

// TestPinsOfPairs: of a pair that has to lie alike the one that is not pinned lies on the grain
// of the other and leans as that does, whichever way it is turned.
func TestPinsOfPairs(t *testing.T) {
	for _, turn := range []float64{0, 3, -3, 90, 93, 87, 180, 183, 177} {
		for copy := range 2 {
			p := nest.Problem{Strip: nest.Strip{Width: 150}, Pieces: []nest.Piece{
				{Name: "side", Outline: gore(20, 40, 70), Count: 4, Mirror: nest.Paired, Alike: true,
					Turns: []float64{0, 3, -3, 90, 93, 87, 180, 183, 177}},
				{Name: "yoke", Outline: gore(30, 35, 25), Count: 3, Turns: []float64{0, 180}},
			}}
			pin := nest.Placed{Copy: copy, Turn: turn, Mirrored: copy == 1, At: orb.Point{100, 75}}
			if pin.Mirrored {
				pin.Turn = -turn
			}
			p.Pins = []nest.Placed{pin}
			r := solve(t, p, nest.Options{Effort: nest.Trial, Work: 1 << 15})
			for _, pl := range r.Layout.Placed {
				drawn := pl.Turn
				if pl.Mirrored {
					drawn = -drawn
				}
				if pl.Piece == 0 && pl.Copy/2 == 0 && math.Abs(math.Remainder(drawn-turn, 180)) > 1e-9 {
					t.Errorf("pinned at %v, copy %d lies at %v", turn, pl.Copy, drawn)
				}
			}
		}
	}
}
