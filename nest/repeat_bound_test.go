package nest_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/nest"
	"yardlay/nest/bound"
	"yardlay/shapes/plane"
)

// Six widths cut at 48 in on a repeat of 12.6: cut length is the next whole repeat,
// 50.4 (a curtain leaflet of et-wholesale.com.au), for all but the last of the lay:
// 5 x 50.4 + 48 = 300 in. Of several garments the sets lie anywhere against each other:
// two sets of two, one behind the other or turn about, take 196.8; three pieces in a row are
// looked at together, not four, so that the bound is as of one set about the other.
func TestPanelsTakeWholeRepeats(t *testing.T) {
	const in = 25.4
	panel := func(groups ...int) nest.Problem {
		return nest.Problem{
			Strip: nest.Strip{Width: 54 * in, Repeat: nest.Repeat{Along: 12.6 * in}},
			Pieces: []nest.Piece{{
				Name: "width", Count: len(groups), Outline: plane.SnapRing(rectangle(48*in, 54*in)),
				Match: &nest.Match{Groups: groups},
			}},
		}
	}
	for name, c := range map[string]struct {
		groups      []int
		least, most float64
	}{
		"one set":        {[]int{0, 0, 0, 0, 0, 0}, 300, 300},
		"two sets":       {[]int{0, 1, 0, 1}, 194.4, 196.8},
		"each by itself": {[]int{0, 1, 2}, 144, 144},
	} {
		p := panel(c.groups...)
		p.Strip.Width = plane.Bounds(p.Pieces[0].Outline).Max[1]
		b := nest.LowerBound(context.Background(), p)
		if b.Length > c.most*in+0.01 || b.Length < c.least*in-0.01 {
			t.Errorf("%s: bound %v in by %s, want %v", name, b.Length/in, b.Kind, c.least)
		}
		if want := name != "each by itself"; b.OnRepeat() != want {
			t.Errorf("%s: counts the repeat: %v", name, b.OnRepeat())
		}
	}
}

// wideStripes draws jobs of stripes in which many pieces must follow each other.
func wideStripes(seed uint64) stripes {
	r := rand.New(rand.NewPCG(seed, 11))
	between := func(least, most int) int { return least + r.IntN(most-least+1) }
	s := stripes{width: between(10, 16), along: between(3, 14)}
	if r.IntN(3) == 0 {
		s.across = between(2, 6)
	}
	left := between(3, 5)
	for k := 0; left > 0 && k < 3; k++ {
		kind := stripeKind{long: between(2, 12), wide: between(s.width/2-2, s.width-1), count: min(left, between(1, 4)),
			group: r.IntN(k + 1)}
		kind.at, kind.level = r.IntN(kind.long+1), r.IntN(kind.wide+1)
		left -= kind.count
		s.kinds = append(s.kinds, kind)
	}
	return s
}

// narrowStripes draws jobs of stripes in which several panels lie abreast.
func narrowStripes(seed uint64) stripes {
	r := rand.New(rand.NewPCG(seed, 17))
	between := func(least, most int) int { return least + r.IntN(most-least+1) }
	s := stripes{width: between(8, 14), along: between(3, 12)}
	if r.IntN(3) == 0 {
		s.along, s.across = 0, between(3, 7)
	}
	left := between(3, 5)
	for k := 0; left > 0 && k < 2; k++ {
		kind := stripeKind{long: between(2, 12), wide: between(2, s.width/2), count: min(left, between(2, 5))}
		kind.at, kind.level = r.IntN(kind.long+1), r.IntN(kind.wide+1)
		if r.IntN(4) == 0 {
			kind.group = k
		}
		left -= kind.count
		s.kinds = append(s.kinds, kind)
	}
	return s
}

// TestNoBoundAboveTheBestOnARepeat: the best of all phases and places, tried one by one,
// is never shorter than the bound, and often as long.
func TestNoBoundAboveTheBestOnARepeat(t *testing.T) {
	for name, draw := range map[string]func(seed uint64) stripes{"in a row": wideStripes, "abreast": narrowStripes} {
		t.Run(name, func(t *testing.T) { noBoundAboveTheBest(t, draw) })
	}
}

func noBoundAboveTheBest(t *testing.T, draw func(seed uint64) stripes) {
	counted, met, kinds, jobs := 0, 0, map[bound.Kind]int{}, often.Jobs(15, 300)
	for seed := range jobs {
		s := draw(uint64(seed))
		p := s.problem()
		if p.Check() != nil {
			continue // a group that finds no place across
		}
		b := nest.LowerBound(context.Background(), p)
		least := int(math.Ceil(b.Length/10 - 1e-3)) // rounding to the lattice gives a little
		if s.fits(least - 1) {
			t.Errorf("job %d: %+v: bound %v mm by %s, and %d cm are enough", seed, s, b.Length, b.Kind, least-1)
		}
		if b.OnRepeat() {
			kinds[b.Kind]++
			if counted++; s.fits(least) {
				met++
			}
		}
	}
	t.Logf("%d bounds count the repeat, %d of them are met: %v", counted, met, kinds)
	if counted < jobs/5 || met < counted/3 {
		t.Error("too few to speak of")
	}
}

// TestNoBoundAboveALayoutOnARepeat: of pieces of all outlines, turned, mirrored, matched at
// points anywhere, in several groups, some with a phase that is given.
func TestNoBoundAboveALayoutOnARepeat(t *testing.T) {
	problems, counted, jobs := rapid.Custom(onRepeat), 0, often.Jobs(often.Full(2, 4), 100) // thousands were laid, once
	for seed := range jobs {
		p := problems.Example(seed)
		if p.Check() != nil {
			continue
		}
		r, err := nest.Solve(context.Background(), p, nest.Options{Work: 1 << 14, Workers: 1})
		if err != nil {
			t.Fatalf("problem %d: %v", seed, err)
		}
		b := nest.LowerBound(context.Background(), p)
		if b.Length > r.Layout.Length {
			t.Errorf("problem %d: bound %v by %s, and a layout takes %v", seed, b.Length, b.Kind, r.Layout.Length)
		}
		if b.OnRepeat() {
			counted++
		}
	}
	t.Logf("%d of %d bounds count the repeat", counted, jobs)
	if counted < jobs/5 {
		t.Error("too few to speak of")
	}
}

func onRepeat(t *rapid.T) nest.Problem {
	p := nest.Problem{Strip: nest.Strip{Width: 100}}
	p.Strip.Repeat.Along = rapid.SampledFrom([]float64{31.7, 50, 12.6, 0}).Draw(t, "along")
	p.Strip.Repeat.Across = rapid.SampledFrom([]float64{0, 17.35, 31.7}).Draw(t, "across")
	p.Gap = rapid.SampledFrom([]float64{0, 0, 2}).Draw(t, "gap")
	if rapid.IntRange(0, 3).Draw(t, "given") == 3 {
		p.Phases = map[int]orb.Point{1: {rapid.Float64Range(0, 60).Draw(t, "phase along"),
			rapid.Float64Range(0, 60).Draw(t, "phase across")}}
	}
	x := func(label string, lo, hi int) float64 { return float64(rapid.IntRange(lo, hi).Draw(t, label)) }
	for i := range rapid.IntRange(1, 2).Draw(t, "kinds") {
		wide, long := x("wide", 20, 90), x("long", 20, 70) // in a row, or abreast
		outline := rectangle(long, wide)
		switch rapid.IntRange(0, 2).Draw(t, "kind") {
		case 0:
			outline = orb.Ring{{0, 0}, {long, wide * x("apex", 0, 4) / 4}, {0, wide}, {0, 0}}
		case 1:
			outline = orb.Ring{{x("a", 0, 9), 0}, {long, 0}, {long - x("b", 0, 9), wide / 2}, {long, wide}, {0, wide},
				{0, 0}}
			outline[5] = outline[0]
		}
		piece := nest.Piece{
			Name: fmt.Sprint("piece ", i), Count: 2 * rapid.IntRange(1, 3).Draw(t, "pairs"),
			Outline: plane.SnapRing(outline),
			Turns:   rapid.SampledFrom([][]float64{{0}, {0, 180}, {2, 0, 358}, {0, 90, 180, 270}}).Draw(t, "turns"),
			Mirror:  rapid.SampledFrom([]nest.Mirror{nest.AsDrawn, nest.Paired, nest.Free}).Draw(t, "mirror"),
		}
		if rapid.IntRange(0, 4).Draw(t, "matched") < 4 {
			piece.Match = &nest.Match{Point: orb.Point{rapid.Float64Range(-20, 60).Draw(t, "point x"),
				rapid.Float64Range(-20, 60).Draw(t, "point y")}}
			for range piece.Count {
				piece.Match.Groups = append(piece.Match.Groups, rapid.SampledFrom([]int{1, 1, 1, 2}).Draw(t, "group"))
			}
		}
		p.Pieces = append(p.Pieces, piece)
	}
	return p
}

// A phase that is given was found by laying other pieces, and with another one less may
// be enough: 50 mm that begin 20 mm off the cut end are not proved to need 70.
func TestBoundsHoldAtEveryPhase(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 100, Repeat: nest.Repeat{Along: 40}}, Pieces: []nest.Piece{
		{Name: "panel", Count: 1, Outline: rectangle(50, 80), Match: &nest.Match{}},
	}, Phases: map[int]orb.Point{0: {20, 0}}}
	r, err := nest.Solve(context.Background(), p, nest.Options{Effort: nest.Trial})
	if err != nil || r.Layout.Length != 70 || r.Bound.Length != 50 {
		t.Errorf("laid on %v mm, bound %v, %v; want 70 and 50", r.Layout.Length, r.Bound.Length, err)
	}
}

// The reason of a bound that counts the repeat says so.
func TestReasonNamesTheRepeat(t *testing.T) {
	s := stripes{width: 10, along: 7, kinds: []stripeKind{{long: 8, wide: 9, count: 3}}}
	b := nest.LowerBound(context.Background(), s.problem())
	want := "piece 0 crosses the line 50 mm from the edge wherever laid: such pieces follow each other in one row, " +
		"matched ones whole repeats apart, and no order makes that row shorter"
	if got := b.Reason(func(mm float64) string { return fmt.Sprintf("%.4g mm", mm) }); got != want ||
		b.Kind != bound.Row {
		t.Errorf("%s: %q, want %q", b.Kind, got, want)
	}
	s = stripes{width: 10, along: 4, kinds: []stripeKind{{long: 5, wide: 3, count: 7}}}
	b = nest.LowerBound(context.Background(), s.problem())
	want = "counting how many pieces fit one behind another on each line along a shorter cloth, " +
		"matched ones whole repeats apart, the pieces need more such lines than the cloth is wide"
	if got := b.Reason(func(mm float64) string { return fmt.Sprintf("%.4g mm", mm) }); got != want ||
		math.Abs(b.Length-210) > 0.01 {
		t.Errorf("%s of %v mm: %q, want %q", b.Kind, b.Length, got, want)
	}
}
