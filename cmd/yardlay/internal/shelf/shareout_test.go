package shelf

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

func oblong(name string, along, across float64, count int) nest.Piece {
	return nest.Piece{Name: name, Count: count,
		Outline: orb.Ring{{0, 0}, {along, 0}, {along, across}, {0, across}, {0, 0}}}
}

func leftover(name string, length, width float64) Length {
	return Length{Name: name, Strip: nest.Strip{Width: width, MaxLength: length}}
}

func useShelf(t *testing.T, p nest.Problem, strips []Length, o Options) Use {
	t.Helper()
	u, err := ShareOut(context.Background(), p, strips, o)
	if err != nil {
		t.Fatal(err)
	}
	judgeUse(t, p, strips, u)
	return u
}

// judgeUse judges a use of the shelf without the code that made it: layouts by
// nest.Verify, and every copy of the whole problem once, with the outline it has
// there and mirrored as it must be.
func judgeUse(t rapid.TB, p nest.Problem, strips []Length, u Use) {
	t.Helper()
	type id struct{ piece, copy int }
	seen := map[id]int{}
	for _, cut := range u.Cuts {
		if err := nest.Verify(cut.Problem, cut.Layout); err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(strips, func(s Length) bool { return s.Name == cut.Name })
		if i < 0 || !cmp.Equal(strips[i].Strip, cut.Problem.Strip) || cut.Layout.Length > strips[i].Strip.MaxLength {
			t.Fatalf("%s is not a strip of the shelf, or too short for %v mm", cut.Name, cut.Layout.Length)
		}
		for _, pl := range cut.Layout.Placed {
			source := cut.Source(pl)
			seen[id{source.Piece, source.Copy}]++
			if p.Pieces[source.Piece].Mirror == nest.Paired && source.Mirrored != (source.Copy%2 == 1) {
				t.Fatalf("copy %d of %q lies the wrong way round", source.Copy, p.Pieces[source.Piece].Name)
			}
			got, want := cut.Problem.Outline(pl), p.Outline(source)
			for _, v := range want {
				if !slices.Contains(got, v) {
					t.Fatalf("copy %d of %q is cut as %v, not %v", source.Copy, p.Pieces[source.Piece].Name, got, want)
				}
			}
		}
	}
	for i, piece := range u.Rest.Problem.Pieces {
		for c := range piece.Count {
			source := u.Rest.Source(nest.Placed{Piece: i, Copy: c, Mirrored: piece.Mirror == nest.Paired && c%2 == 1})
			seen[id{source.Piece, source.Copy}]++
		}
	}
	for i, piece := range p.Pieces {
		for c := range piece.Count {
			if seen[id{i, c}] != 1 {
				t.Fatalf("copy %d of %q is cut %d times", c, piece.Name, seen[id{i, c}])
			}
		}
	}
	switch u.Verdict {
	case Enough:
		if len(u.Rest.Problem.Pieces) > 0 || u.Bought != 0 {
			t.Fatalf("the shelf is enough, yet %d pieces are left and %v mm bought",
				len(u.Rest.Problem.Pieces), u.Bought)
		}
	case Helps:
		if u.Bought >= u.Whole && u.Whole > 0 {
			t.Fatalf("the shelf helps, yet %v mm are bought instead of %v", u.Bought, u.Whole)
		}
	case Idle:
		if len(u.Cuts) > 0 || u.Bought != u.Whole {
			t.Fatalf("the shelf is left alone, yet %d strips are cut, and %v mm bought instead of %v", len(u.Cuts),
				u.Bought, u.Whole)
		}
	}
}

// by is bought at a counter that cuts by the step.
func by(step float64) func(float64) float64 {
	return func(used float64) float64 { return math.Ceil((used-0.01)/step) * step }
}

// Four panels of 400 by 300 mm lie side by side on 1200 mm, the fourth in a second
// row: 800 mm. What the shelf holds changes that, or not.
func TestShelfSaysWhatItIsGoodFor(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 900},
		Pieces: []nest.Piece{oblong("panel", 400, 300, 4), oblong("belt", 100, 80, 1)}}
	for _, c := range []struct {
		name    string
		strips  []Length
		verdict Verdict
		bought  float64
		cuts    string
	}{
		{"holds everything", []Length{leftover("end of bolt", 900, 900)}, Enough, 0, "end of bolt: panel 4 belt 1"},
		{"two hold everything", []Length{leftover("a", 400, 620), leftover("b", 500, 620)}, Enough, 0,
			"a: panel 2; b: panel 2 belt 1"},
		{"holds the odd ones", []Length{leftover("remnant", 500, 300)}, Helps, 400, "remnant: panel 1 belt 1"},
		{"too narrow", []Length{leftover("ribbon", 5000, 79)}, Idle, 0, ""},
		{"holds the belt alone", []Length{leftover("scrap", 120, 90)}, Idle, 800, ""},
		{"a second one adds nothing", []Length{leftover("scrap", 120, 90), leftover("remnant", 500, 300)}, Helps, 400,
			"remnant: panel 1 belt 1"},
		{"none", nil, Idle, 0, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			u := useShelf(t, p, c.strips, Options{Bought: by(100), solve: rows})
			var cuts []string
			for _, cut := range u.Cuts {
				text := cut.Name + ":"
				for _, piece := range cut.Problem.Pieces {
					text += fmt.Sprintf(" %s %d", piece.Name, piece.Count)
				}
				cuts = append(cuts, text)
			}
			if got := strings.Join(cuts, "; "); u.Verdict != c.verdict || u.Bought != c.bought || got != c.cuts {
				t.Errorf("%v, bought %v mm, %q; want %v, %v mm, %q", u.Verdict, u.Bought, got,
					c.verdict, c.bought, c.cuts)
			}
		})
	}
}

// A length on the shelf is a hard limit, and so is a flaw.
func TestShelfLimitsAreHard(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 500}, Pieces: []nest.Piece{oblong("panel", 400, 300, 1)}}
	short := leftover("short", 399.5, 500)
	flawed := leftover("flawed", 500, 400)
	flawed.Strip.Forbidden = []orb.Ring{{{200, 200}, {210, 200}, {210, 210}, {200, 210}, {200, 200}}}
	u := useShelf(t, p, []Length{short, flawed}, Options{Effort: nest.Trial})
	if u.Verdict != Idle {
		t.Errorf("%v with %d cuts, but the panel fits on neither", u.Verdict, len(u.Cuts))
	}
	flawed.Strip.MaxLength = 610.5
	if u := useShelf(t, p, []Length{short, flawed}, Options{Effort: nest.Trial}); u.Verdict != Enough ||
		u.Cuts[0].Name != "flawed" {
		t.Errorf("%v with %d cuts, but the panel fits beyond the flaw", u.Verdict, len(u.Cuts))
	}
}

// Many copies are shared out by rules, with layouts of the search itself: what
// ends within the length of a trial stays on the strip.
func TestShelfWithTheSearch(t *testing.T) {
	gore := nest.Piece{Name: "gore", Count: 6, Mirror: nest.Paired, Turns: []float64{0, 180},
		Outline: orb.Ring{{0, 60}, {500, 0}, {500, 180}, {0, 120}, {0, 60}}}
	p := nest.Problem{Strip: nest.Strip{Width: 400}, Pieces: []nest.Piece{gore, oblong("facing", 90, 70, 6)}}
	strips := []Length{leftover("remnant", 520, 330)}
	u := useShelf(t, p, strips, Options{Effort: nest.Trial, Bought: by(50)})
	if u.Verdict != Helps {
		t.Fatalf("%v", u.Verdict)
	}
	// Two gores head to tail take 300 mm of the 330, so that four are left of six.
	left := 0
	for _, piece := range u.Rest.Problem.Pieces {
		if piece.Name == "gore" {
			left += piece.Count
		}
	}
	if left != 4 {
		t.Errorf("%d gores are left, want 4", left)
	}
}

// A pair is split when there is room for one of the two alone: one is cut as
// drawn, the other mirrored, wherever they lie.
func TestShelfSplitsAPair(t *testing.T) {
	// A right-angled triangle: the mirrored one is no turn of it.
	half := nest.Piece{Name: "half", Count: 2, Mirror: nest.Paired,
		Outline: orb.Ring{{0, 0}, {600, 0}, {600, 300}, {0, 0}},
		Turns:   []float64{30}, Match: &nest.Match{Point: orb.Point{600, 300}}}
	p := nest.Problem{Strip: nest.Strip{Width: 700}, Pieces: []nest.Piece{half}}
	f, err := NewFiller(p, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	d := newDealer(p, f.kinds, f.bundles)
	drawn, mirrored := d.share(p.Strip, counts{1, 0}, nil), d.share(p.Strip, counts{0, 1}, nil)
	if err := checkShares(p, []Share{drawn, mirrored}); err != nil {
		t.Fatal(err)
	}
	odd := mirrored.Problem.Pieces[0]
	if odd.Mirror != nest.AsDrawn || odd.Turns[0] != 330 || odd.Match.Point != (orb.Point{600, -300}) {
		t.Errorf("the mirrored one alone is %+v with %+v", odd, odd.Match)
	}
	if half.Match.Point != (orb.Point{600, 300}) || half.Turns[0] != 30 {
		t.Error("the whole problem has been changed")
	}
	source := mirrored.Source(nest.Placed{Turn: 330, At: orb.Point{5, 7}})
	if want := (nest.Placed{Copy: 1, Turn: 330, Mirrored: true, At: orb.Point{5, 7}}); source != want {
		t.Errorf("it is %+v of the whole, want %+v", source, want)
	}
	p.Pieces[0].Turns, p.Pieces[0].Match = nil, nil
	u := useShelf(t, p, []Length{leftover("remnant", 610, 600)}, Options{solve: rows})
	if u.Verdict != Enough || u.Cuts[0].Problem.Pieces[0].Mirror != nest.Paired {
		t.Errorf("%v, want the pair on the remnant", u.Verdict)
	}
	u = useShelf(t, p, []Length{leftover("remnant", 610, 305), leftover("other", 610, 305)}, Options{solve: rows})
	if u.Verdict != Enough || len(u.Cuts) != 2 {
		t.Errorf("%v with %d cuts, want one half on each", u.Verdict, len(u.Cuts))
	}
}

// What no plan may do is caught.
func TestCheckSharesCatchesWrongOnes(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 700}, Pieces: []nest.Piece{
		{Name: "half", Count: 2, Mirror: nest.Paired, Outline: orb.Ring{{0, 0}, {600, 0}, {600, 300}, {0, 0}}},
	}}
	deal := func(c counts) Share {
		return newDealer(p, kindsOf(p), bundlesOf(kindsOf(p), nil)).share(p.Strip, c, nil)
	}
	turnedBack := deal(counts{0, 1})
	turnedBack.Problem.Pieces[0].Outline = p.Pieces[0].Outline
	wrongWay := deal(counts{0, 1})
	wrongWay.from[0].flipped = false
	for want, shares := range map[string][]Share{
		"cut twice":           {deal(counts{1, 0}), deal(counts{1, 1})},
		"from no cloth":       {deal(counts{1, 0})},
		"not cut by its":      {deal(counts{1, 0}), turnedBack},
		"the wrong way round": {deal(counts{1, 0}), wrongWay},
	} {
		if err := checkShares(p, shares); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
}

// An interrupted plan leaves the shelf alone and says so; what is unsound is
// refused by name.
func TestShelfInterruptedOrUnsound(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 900}, Pieces: []nest.Piece{oblong("panel", 400, 300, 40)}}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	u, err := ShareOut(ctx, p, []Length{leftover("remnant", 500, 300)}, Options{Effort: nest.Trial})
	if err != nil || !u.Stopped || u.Verdict != Idle || u.Rest.Problem.Pieces[0].Count != 40 {
		t.Errorf("got %+v, %v", u, err)
	}
	if _, err := ShareOut(context.Background(), p, []Length{leftover("endless", 0, 300)}, Options{}); err == nil ||
		!strings.Contains(err.Error(), `"endless"`) {
		t.Errorf("got %v", err)
	}
	// What does not lie on bought cloth at all may still be cut from the shelf.
	refuses := func(context.Context, Share, nest.Options) (float64, map[int]orb.Point, error) {
		return 0, nil, errors.New("cannot be folded")
	}
	o := Options{Fresh: refuses, solve: rows}
	p.Pieces[0].Count = 1
	if u := useShelf(t, p, []Length{leftover("remnant", 500, 300)}, o); u.Verdict != Enough {
		t.Errorf("%v", u.Verdict)
	}
	p.Pieces[0].Count = 2
	if u := useShelf(t, p, []Length{leftover("remnant", 500, 300)}, o); u.Verdict != Idle {
		t.Errorf("%v, but the rest can be laid nowhere", u.Verdict)
	}
}

// rows lays pieces in columns from the cut end, as they come and in the first turn
// they may take: no good layouts, but at once.
func rows(_ context.Context, p nest.Problem, _ nest.Options) (nest.Result, error) {
	var l nest.Layout
	x, y, next := 0.0, 0.0, 0.0
	for i, piece := range p.Pieces {
		for c := range piece.Count {
			pl := nest.Placed{Piece: i, Copy: c, Mirrored: piece.Mirror == nest.Paired && c%2 == 1}
			if len(piece.Turns) > 0 {
				pl.Turn = piece.Turns[0]
			}
			if pl.Mirrored {
				pl.Turn = math.Mod(360-pl.Turn, 360)
			}
			b := plane.Bounds(p.Outline(pl))
			if y+b.Max[1]-b.Min[1] > p.Strip.Width {
				x, y = next, 0
			}
			pl.At = orb.Point{x - b.Min[0], y - b.Min[1]}
			end := x + b.Max[0] - b.Min[0]
			y += b.Max[1] - b.Min[1] + p.Gap
			next, l.Length = max(next, end+p.Gap), max(l.Length, end)
			l.Placed = append(l.Placed, pl)
		}
	}
	if err := nest.Verify(p, l); err != nil {
		return nest.Result{}, err
	}
	return nest.Result{Layout: l}, nil
}

// Random jobs of pairs and singles: everything is cut once and never more is
// bought than without the shelf; workers make no difference.
func TestShelfOnRandomJobs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string, least,
			most int) float64 {
			return float64(rapid.IntRange(least, most).Draw(t, name))
		}
		p := nest.Problem{Strip: nest.Strip{Width: length("width", 60, 120)}, Gap: length("gap", 0, 3)}
		for range rapid.IntRange(1, 4).Draw(t, "pieces") {
			a, b := length("along", 5, 60), length("across", 5, 50)
			piece := nest.Piece{Name: "p", Outline: orb.Ring{{0, 0}, {a, 0}, {a, b}, {a / 2, b}, {0, 0}}}
			piece.Mirror = rapid.SampledFrom([]nest.Mirror{nest.AsDrawn, nest.Paired, nest.Free}).Draw(t, "mirror")
			piece.Count = 2 * rapid.IntRange(1, 4).Draw(t, "pairs")
			piece.Turns = rapid.SampledFrom([][]float64{nil, {0, 180}, {45}}).Draw(t, "turns")
			p.Pieces = append(p.Pieces, piece)
		}
		if p.Check() != nil {
			t.Skip("does not fit")
		}
		var strips []Length
		for i := range rapid.IntRange(1, 3).Draw(t, "strips") {
			strips = append(strips, leftover(fmt.Sprint(i), length("length", 20, 150), length("width", 20, 150)))
		}
		o := Options{Effort: nest.Trial, Bought: by(10), Workers: 1, solve: rows}
		u, err := ShareOut(context.Background(), p, strips, o)
		if err != nil {
			t.Fatal(err)
		}
		judgeUse(t, p, strips, u)
		o.Workers = 2
		again, err := ShareOut(context.Background(), p, strips, o)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(u, again, cmp.AllowUnexported(Share{}, shared{})); diff != "" {
			t.Fatal("with two workers:\n", diff)
		}
	})
}

// Few rectangles on two strips: what is bought is what the best of all assignments
// buys, each laid by an exact packing on whole millimetres.
func TestShelfAgainstAllAssignments(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 9))
	verdicts := map[Verdict]int{}
	for range 60 {
		p := nest.Problem{Strip: nest.Strip{Width: 6}}
		for i := range 2 + rng.IntN(4) {
			p.Pieces = append(p.Pieces, oblong(string(rune('a'+i)), float64(1+rng.IntN(4)), float64(1+rng.IntN(4)), 1))
		}
		strips := []Length{
			leftover("first", float64(2+rng.IntN(4)), float64(2+rng.IntN(3))),
			leftover("second", float64(2+rng.IntN(4)), float64(2+rng.IntN(3))),
		}
		u := useShelf(t, p, strips, Options{Bought: by(1), solve: exactly})
		verdicts[u.Verdict]++
		want := leastOfAll(p, strips)
		got := u.Bought
		if u.Verdict == Idle && u.Whole == 0 {
			got = float64(shortest(p.Pieces, 6)) // nothing fits on the shelf, nothing was laid
		}
		if got != want {
			t.Errorf("%v: %v mm are bought, the best assignment buys %v: %v on %v", u.Verdict, got,
				want, p.Pieces, strips)
		}
	}
	if len(verdicts) < 3 {
		t.Errorf("only some verdicts were met: %v", verdicts)
	}
}

// leastOfAll tries every assignment of single rectangles to two strips and the
// bought cloth.
func leastOfAll(p nest.Problem, strips []Length) float64 {
	return leastOf(p, strips, make([]string, len(p.Pieces)))
}

// leastOf does so with those of one name together.
func leastOf(p nest.Problem, strips []Length, names []string) float64 {
	best := math.Inf(1)
	ways := 1
	for range p.Pieces {
		ways *= 3
	}
	for way := range ways {
		var on [3][]nest.Piece
		at, holds := map[string]int{}, true
		for i, piece := range p.Pieces {
			on[way%3] = append(on[way%3], piece)
			was, met := at[names[i]]
			holds = holds && (names[i] == "" || !met || was == way%3)
			at[names[i]] = way % 3
			way /= 3
		}
		for i, s := range strips {
			holds = holds && packed(on[i], int(s.Strip.Width), int(s.Strip.MaxLength)) != nil
		}
		if holds {
			best = min(best, float64(shortest(on[2], int(p.Strip.Width))))
		}
	}
	return best
}

// exactly is a solver for single rectangles with whole sides.
func exactly(_ context.Context, p nest.Problem, _ nest.Options) (nest.Result, error) {
	width, length := int(p.Strip.Width), int(p.Strip.MaxLength)
	if length == 0 {
		length = shortest(p.Pieces, width)
	}
	at := packed(p.Pieces, width, length)
	if at == nil {
		return nest.Result{}, errors.New("too long")
	}
	var l nest.Layout
	for i := range p.Pieces {
		l.Placed = append(l.Placed, nest.Placed{Piece: i, At: at[i]})
		l.Length = max(l.Length, at[i][0]+p.Pieces[i].Outline[2][0])
	}
	return nest.Result{Layout: l}, nest.Verify(p, l)
}

// shortest is the least whole length that rectangles fit in.
func shortest(pieces []nest.Piece, width int) int {
	length := 0
	for packed(pieces, width, length) == nil {
		length++
	}
	return length
}

// packed places rectangles on a grid of unit squares, nil when they do not fit:
// the first free square is the lower left corner of a rectangle, or stays free.
// With whole sides no packing off the grid does better.
func packed(pieces []nest.Piece, width, length int) []orb.Point {
	g := grid{width: width, length: length, taken: make([]bool, width*length), pieces: pieces,
		at: make([]orb.Point, len(pieces))}
	spare := width * length
	for _, p := range pieces {
		spare -= int(p.Outline[2][0] * p.Outline[2][1])
	}
	if spare < 0 || !g.fill(0, 0, spare) {
		return nil
	}
	return g.at
}

type grid struct {
	width, length int
	taken         []bool
	pieces        []nest.Piece
	at            []orb.Point
}

// fill goes on from a square; done says by bits which rectangles lie.
func (g *grid) fill(from, done, spare int) bool {
	if done == 1<<len(g.pieces)-1 {
		return true
	}
	for from < len(g.taken) && g.taken[from] {
		from++
	}
	if from == len(g.taken) {
		return false
	}
	x, y := from/g.width, from%g.width
	for i, p := range g.pieces {
		a, b := int(p.Outline[2][0]), int(p.Outline[2][1])
		if done>>i&1 == 1 || x+a > g.length || y+b > g.width || !g.mark(x, y, a, b, true) {
			continue
		}
		g.at[i] = orb.Point{float64(x), float64(y)}
		if g.fill(from, done|1<<i, spare) {
			return true
		}
		g.mark(x, y, a, b, false)
	}
	if spare == 0 {
		return false
	}
	g.taken[from] = true
	ok := g.fill(from+1, done, spare-1)
	g.taken[from] = ok
	return ok
}

// mark takes or frees a rectangle of squares; it does nothing and says false when
// one of those to take is taken.
func (g *grid) mark(x, y, a, b int, taken bool) bool {
	for i := x; i < x+a && taken; i++ {
		if slices.Contains(g.taken[i*g.width+y:i*g.width+y+b], true) {
			return false
		}
	}
	for i := x; i < x+a; i++ {
		for j := y; j < y+b; j++ {
			g.taken[i*g.width+j] = taken
		}
	}
	return true
}
