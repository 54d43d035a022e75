package nest_test

import (
	"context"
	"errors"
	"math"
	"os"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/instance"
	"yardlay/benchmarks/often"
	"yardlay/benchmarks/processor"
	"yardlay/nest"
	"yardlay/shapes/plane"
)

const inch = 25.4

// gore is a straight-sided gore, its top at low x: top and hem widths and height in mm.
func gore(top, hem, height float64) orb.Ring {
	d := (hem - top) / 2
	return orb.Ring{{0, d}, {height, 0}, {height, hem}, {0, d + top}, {0, d}}
}

func rectangle(along, across float64) orb.Ring {
	return orb.Ring{{0, 0}, {along, 0}, {along, across}, {0, across}, {0, 0}}
}

func solve(t testing.TB, p nest.Problem, o nest.Options) nest.Result {
	t.Helper()
	r, err := nest.Solve(context.Background(), p, o)
	if err != nil {
		t.Fatal(err)
	}
	if err := nest.Verify(p, r.Layout); err != nil {
		t.Fatal(err)
	}
	return r
}

// TestTwelveGores: twelve straight-sided gores, top 5, hem 12, height 40 in, on
// cloth of 55 in. Head to tail a row of six takes 6 (5 + 12)/2 + (12 - 5)/2 =
// 54.5 in of the width, so two rows, 80 in; all one way four a row, three rows,
// 120 in. Plain geometry; a lay must not be longer than these rows.
func TestTwelveGores(t *testing.T) {
	for _, c := range []struct {
		name  string
		turns []float64
		most  float64
	}{{"two-way", []float64{0, 180}, 80}, {"one-way", []float64{0}, 120}} {
		t.Run(c.name, func(t *testing.T) {
			p := nest.Problem{
				Strip: nest.Strip{Width: 55 * inch},
				Pieces: []nest.Piece{{Name: "gore", Outline: gore(5*inch, 12*inch, 40*inch), Count: 12,
					Turns: c.turns}},
			}
			most := func(used float64) float64 { return max(used, c.most*inch) } // shorter ones are not looked for
			r := solve(t, p, nest.Options{Effort: nest.Quick, Bought: most})
			if got := r.Layout.Length / inch; got > c.most+1e-3 {
				t.Errorf("%.3f in, the rows take %v in", got, c.most)
			}
			if area := 4080.0 / 55; r.Bound.Length/inch < area-1e-6 || r.Bound.Length > r.Layout.Length {
				t.Errorf("bound %.3f in, area alone gives %.3f, layout %.3f", r.Bound.Length/inch, area,
					r.Layout.Length/inch)
			}
		})
	}
}

// TestJigsaw: dighe1 (Dighe & Jakiela 1996, constructed by E. Hopper; ESICUP,
// CC0) is a cut-up square: its optimum is length 100 on a strip of 100.
func TestJigsaw(t *testing.T) {
	f, err := os.Open("../testdata/instances/dighe1.geojson")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	in, err := instance.Read(f)
	if err != nil {
		t.Fatal(err)
	}
	soon := nest.Options{Seed: 4, Effort: nest.Quick} // both end at the bound
	r := solve(t, in.Problem, often.Full(soon, nest.Options{Seed: 1, Effort: nest.Thorough}))
	if length := r.Layout.Length / in.Scale; length > 102 {
		t.Errorf("length %v, the optimum is 100", length)
	}
}

// randomProblem draws pieces of every kind the cloth allows.
func randomProblem(t *rapid.T) nest.Problem {
	p := nest.Problem{Strip: nest.Strip{Width: float64(rapid.IntRange(60, 140).Draw(t, "width"))}}
	p.Gap = rapid.SampledFrom([]float64{0, 0, 1.5}).Draw(t, "gap")
	turns := rapid.SampledFrom([][]float64{nil, {0}, {0, 180}, {0, 90, 180, 270}, {0, 45, 315}, {3, -3, 0}})
	for range rapid.IntRange(1, 4).Draw(t, "kinds") {
		a := float64(rapid.IntRange(8, 50).Draw(t, "a"))
		b := float64(rapid.IntRange(8, 30).Draw(t, "b"))
		piece := nest.Piece{Name: "piece", Count: 2 * rapid.IntRange(1, 3).Draw(t, "pairs"),
			Turns: turns.Draw(t, "turns")}
		piece.Mirror = rapid.SampledFrom([]nest.Mirror{nest.AsDrawn, nest.Paired, nest.Free}).Draw(t, "mirror")
		switch rapid.IntRange(0, 4).Draw(t, "kind") {
		case 0:
			piece.Outline = rectangle(a, b)
		case 1:
			piece.Outline = gore(b/3, b, a)
		case 2: // an angle
			piece.Outline = orb.Ring{{0, 0}, {a, 0}, {a, b / 3}, {a / 4, b / 3}, {a / 4, b}, {0, b}, {0, 0}}
		case 3: // a hollow arc
			piece.Outline = orb.Ring{{0, 0}, {a / 2, b / 3}, {a, 0}, {a, b / 2}, {a / 2, b}, {0, b / 2}, {0, 0}}
		case 4: // a half on the fold
			piece.Half = orb.Ring{{0, 0}, {a, 0}, {a, b}, {a / 2, b / 2}, {0, 0}}
			piece.Outline = plane.Unfold(piece.Half, 0)
		}
		p.Pieces = append(p.Pieces, piece)
	}
	if rapid.IntRange(0, 2).Draw(t, "patterned") == 0 {
		p.Strip.Repeat = rapid.SampledFrom([]nest.Repeat{{Along: 17.3}, {Across: 11}, {Along: 8, Across: 8}}).Draw(t,
			"repeat")
		for i := range p.Pieces {
			x, y := rapid.Float64Range(0, 30).Draw(t, "match x"), rapid.Float64Range(0, 30).Draw(t, "match y")
			p.Pieces[i].Match = &nest.Match{Point: orb.Point{x, y}}
			for range p.Pieces[i].Count / 2 {
				g := rapid.IntRange(0, 3).Draw(t, "group")
				p.Pieces[i].Match.Groups = append(p.Pieces[i].Match.Groups, g,
					max(g, rapid.IntRange(0, 3).Draw(t, "partner")))
			}
		}
	}
	if rapid.Bool().Draw(t, "flawed") {
		x := float64(rapid.IntRange(0, 60).Draw(t, "flaw"))
		p.Strip.Forbidden = []orb.Ring{{{x, 10}, {x + 9, 12}, {x + 4, 22}, {x, 10}}}
	}
	return p
}

// TestEveryLayoutPasses: any sound problem, on any lay that its pieces allow, ends
// in layouts that pass the judge, folded and opened out, and are no shorter than
// their bounds.
func TestEveryLayoutPasses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProblem(t)
		lay := rapid.SampledFrom([]nest.Lay{nest.Open, nest.Open, nest.LengthwiseFold, nest.CrosswiseFold,
			nest.CrosswiseTurned, nest.DoubleFold}).Draw(t, "lay")
		stretches, err := nest.Fold(p, lay, 2)
		if err != nil {
			return // too big, or not for this lay
		}
		layouts := make([]nest.Layout, len(stretches))
		for i, s := range stretches {
			s = s.Matching(stretches[:i], layouts[:i])
			r, err := nest.Solve(context.Background(), s.Problem, nest.Options{Effort: nest.Trial, Work: 1 << 15})
			if err != nil {
				t.Fatal(err)
			}
			if err := nest.Verify(s.Problem, r.Layout); err != nil {
				t.Fatal(err)
			}
			if r.Bound.Length > r.Layout.Length*(1+1e-12) {
				t.Fatalf("bound %v above layout %v", r.Bound.Length, r.Layout.Length)
			}
			layouts[i] = r.Layout
		}
		if err := nest.Verify(p, nest.Unfold(p, stretches, layouts)); err != nil {
			t.Fatalf("unfolded from a %v: %v", lay, err)
		}
	})
}

// unproved is the effort of searches with a work of their own of which nobody reads the bound: by hand none is looked
// for but the plainest.
var unproved = often.Full(nest.Trial, nest.Normal)

// proofs remembers the bounds of what is laid more than once.
var proofs nest.Proofs

func goresAndBands() nest.Problem {
	return nest.Problem{Strip: nest.Strip{Width: 1400}, Gap: 3, Pieces: []nest.Piece{
		{Name: "gore", Outline: gore(90, 640, 1040), Count: 6, Turns: []float64{0, 180}},
		{Name: "band", Outline: rectangle(720, 95), Count: 3},
	}}
}

// TestSameBytes: problem, effort and seed decide, not the number of workers.
func TestSameBytes(t *testing.T) {
	p := goresAndBands()
	var first nest.Layout
	work := often.Full[int64](1<<18, 2<<20) // the lanes meet once or twice
	for i, workers := range []int{1, 3} {
		r := solve(t, p, nest.Options{Seed: 7, Work: work, Workers: workers, Proofs: &proofs})
		if i == 0 {
			first = r.Layout
		} else if diff := cmp.Diff(first, r.Layout); diff != "" {
			t.Fatalf("%d workers: layout differs:\n%s", workers, diff)
		}
	}
}

// The same on a repeat, where groups are moved and layouts are built anew.
func TestSameBytesOnARepeat(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 1400, Repeat: nest.Repeat{Along: 127, Across: 80.01}}, Gap: 3,
		Pieces: []nest.Piece{
			{Name: "gore", Outline: gore(90, 640, 1040), Count: 6, Turns: []float64{0, 180},
				Match: &nest.Match{Groups: []int{0, 0, 0, 1, 1, 1}}},
			{Name: "band", Outline: rectangle(720, 95), Count: 3, Match: &nest.Match{Groups: []int{0, 1, 2}}},
		}}
	work := often.Full[int64](1<<18, 2<<20)
	first := solve(t, p, nest.Options{Seed: 7, Work: work, Workers: 1, Proofs: &proofs})
	again := solve(t, p, nest.Options{Seed: 7, Work: work, Workers: 3, Proofs: &proofs})
	if diff := cmp.Diff(first.Layout, again.Layout); diff != "" {
		t.Fatalf("three workers: layout differs:\n%s", diff)
	}
	if first.Bound.Length > first.Layout.Length || first.Layout.Length > first.Stats.FirstLength {
		t.Errorf("bound %v, layout %v, first %v", first.Bound.Length, first.Layout.Length, first.Stats.FirstLength)
	}
	// Begun from its own layout nothing is lost.
	if more := solve(t, p, nest.Options{Effort: nest.Trial,
		Start: &first.Layout}); more.Layout.Length > first.Layout.Length {
		t.Errorf("begun from %v: %v", first.Layout.Length, more.Layout.Length)
	}
}

// mixed is a problem that no bound settles soon.
func mixed() nest.Problem {
	return nest.Problem{Strip: nest.Strip{Width: 1400}, Pieces: []nest.Piece{
		{Name: "gore", Outline: gore(90, 440, 840), Count: 7, Turns: []float64{0, 180}},
		{Name: "yoke", Outline: gore(300, 520, 260), Count: 5, Turns: []float64{0, 180}},
		{Name: "godet", Outline: gore(20, 310, 430), Count: 9, Turns: []float64{0, 180}},
	}}
}

func TestCancelKeepsTheBest(t *testing.T) {
	p := mixed()
	ctx, cancel := context.WithCancel(context.Background())
	var cancelled time.Duration
	time.AfterFunc(300*time.Millisecond, func() { cancelled = processor.Time(); cancel() })
	r, err := nest.Solve(ctx, p, nest.Options{Effort: nest.Endless})
	if err != nil {
		t.Fatal(err)
	}
	if late := processor.Time() - cancelled; processor.Exceeds(late, time.Second) { // 0.1 s
		t.Errorf("came back %v of processor time after the cancellation", late)
	}
	if r.Status != nest.Stopped {
		t.Errorf("status %v, want stopped", r.Status)
	}
	if err := nest.Verify(p, r.Layout); err != nil {
		t.Error(err)
	}
}

func TestTimeIsACeiling(t *testing.T) {
	p := mixed()
	r := solve(t, p, nest.Options{Effort: nest.Endless, Time: 200 * time.Millisecond})
	if r.Status != nest.OutOfTime {
		t.Errorf("status %v, want out of time", r.Status)
	}
}

func TestLimitedLength(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 100, MaxLength: 210}, Pieces: []nest.Piece{
		{Name: "card", Outline: rectangle(50, 50), Count: 8, Turns: []float64{0}},
	}}
	if r := solve(t, p, nest.Options{Effort: nest.Quick}); r.Layout.Length > 210 {
		t.Errorf("length %v above the limit", r.Layout.Length)
	}
	p.Strip.MaxLength = 199
	if _, err := nest.Solve(context.Background(), p, nest.Options{Effort: nest.Trial}); err == nil {
		t.Error("eight squares of 50 on 100 x 199: no error")
	}
}

// TestWarmStart: a search that begins from a layout ends no longer than it.
func TestWarmStart(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 1400}, Pieces: []nest.Piece{
		{Name: "gore", Outline: gore(90, 640, 1040), Count: 9, Turns: []float64{0}, Mirror: nest.Free},
	}}
	oneWay := solve(t, p, nest.Options{Effort: unproved, Work: 1 << 19})
	p.Pieces[0].Turns = []float64{0, 180}
	twoWay := solve(t, p, nest.Options{Effort: nest.Trial, Start: &oneWay.Layout})
	if twoWay.Layout.Length > oneWay.Layout.Length {
		t.Errorf("two-way %v, begun from one-way %v", twoWay.Layout.Length, oneWay.Layout.Length)
	}
	broken := oneWay.Layout
	broken.Length = math.Nextafter(broken.Length, 0)
	if _, err := nest.Solve(context.Background(), p, nest.Options{Start: &broken}); err == nil {
		t.Error("a layout that breaks a rule was taken to start from")
	}
}

// TestStripsFillTheWidth: strips exactly as wide as half the cloth lie in pairs
// without loss; an exact fit is a fit.
func TestStripsFillTheWidth(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 2700}, Pieces: []nest.Piece{
		{Name: "tier", Outline: rectangle(500, 1350), Count: 8},
	}}
	if r := solve(t, p, nest.Options{Effort: nest.Quick}); r.Layout.Length != 2000 {
		t.Errorf("%v mm, want 2000", r.Layout.Length)
	}
}

// panels is a problem of plain panels that fill the width of a patterned cloth,
// their upper ends at one place of the repeat.
func panels(count int, long, repeat float64) nest.Problem {
	return nest.Problem{
		Strip: nest.Strip{Width: 1350, Repeat: nest.Repeat{Along: repeat}},
		Pieces: []nest.Piece{{Name: "panel", Outline: rectangle(plane.Snap(long), 1350), Count: count,
			Match: &nest.Match{}}},
	}
}

// TestPanelsOnARepeat: the cut length of a panel on patterned cloth is its length
// up to whole repeats, ceil(length / repeat) x repeat. 240 cm at a repeat of 37 cm
// take 7 repeats, 259 cm (et-wholesale.com.au, curtain leaflet); 48 in at 12.6 in
// take 4, 50.4 in, six panels 302.4 in: plain arithmetic by the same rule. The
// last panel's cut end is not used: what it reaches is the used length.
func TestPanelsOnARepeat(t *testing.T) {
	for _, c := range []struct {
		name               string
		count              int
		long, repeat, each float64
	}{
		{"curtain", 2, 2400, 370, 2590},
		{"skirt panel", 6, 48 * inch, 12.6 * inch, 50.4 * inch},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := panels(c.count, c.long, c.repeat)
			r := solve(t, p, nest.Options{Effort: unproved, Work: often.Full[int64](1<<17, 1<<19)})
			places := make([]float64, 0, c.count)
			for _, pl := range r.Layout.Placed {
				places = append(places, pl.At[0])
			}
			slices.Sort(places)
			for i, at := range places {
				if want := float64(i) * c.each; math.Abs(at-want) > plane.Lattice {
					t.Errorf("panel %d begins at %v mm, want %v", i+1, at, want)
				}
			}
			if want := float64(c.count-1)*c.each + c.long; math.Abs(r.Layout.Length-want) > 2*plane.Lattice {
				t.Errorf("%v mm, want %v", r.Layout.Length, want)
			}
			// a repeat less and the panels lie over each other; half a repeat less
			// and the pattern does not meet
			last := &r.Layout.Placed[slices.IndexFunc(r.Layout.Placed,
				func(pl nest.Placed) bool { return pl.At[0] == places[c.count-1] })]
			for rule, less := range map[nest.Rule]float64{nest.Overlap: c.repeat, nest.OffRepeat: c.repeat / 2} {
				moved := last.At[0]
				last.At[0] = plane.Snap(moved - less)
				l := r.Layout
				l.Length = last.At[0] + plane.Snap(c.long)
				var broken *nest.Broken
				if err := nest.Verify(p, l); !errors.As(err, &broken) || broken.Rule != rule {
					t.Errorf("%v mm less: %v, want %q", less, err, rule)
				}
				last.At[0] = moved
			}
		})
	}
}
