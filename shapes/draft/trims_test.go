package draft

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// says fails when an error does not say the words.
func says(t failer, err error, want string) {
	t.Helper()
	if err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("error %v does not say %q", err, want)
	}
}

func workedSash() Sash {
	return Sash{Length: 3000, Width: 160, TailWidth: 240, End: 120, Allowance: shapes.Allowance{Seam: 10, Hem: 8}}
}

// sashArea by plane geometry: a pointed half is a trapezium from Width to TailWidth
// over L/2 - End and a triangle of TailWidth x End / 2; a slanted one, by the
// shoelace sum over (0, -W/2), (L/2, -T/2), (L/2 - E, T/2), (0, W/2), is
// (W + T)/2 (L/2 - E/2).
func sashArea(s Sash) float64 {
	if s.Slanted {
		return (s.Width + s.TailWidth) * (s.Length - s.End) / 2
	}
	return (s.Length/2-s.End)*(s.Width+s.TailWidth) + s.TailWidth*s.End
}

func TestSash(t *testing.T) {
	for _, c := range []struct {
		change func(*Sash)
		want   string
		count  int
		pair   bool
		seams  []string
	}{
		{func(*Sash) {}, "sash", 1, false, nil},
		{func(s *Sash) { s.Halves = true }, "sash half", 2, false, []string{"centre back"}},
		{func(s *Sash) { s.Halves, s.Slanted = true, true }, "sash half", 2, true, []string{"centre back"}},
		{func(s *Sash) { s.Layers = 2 }, "sash", 2, false, []string{"far end", "upper edge", "near end", "lower edge"}},
		{func(s *Sash) { s.Halves, s.Layers, s.End = true, 2, 0 }, "sash half", 4, false,
			[]string{"centre back", "end", "upper edge", "lower edge"}},
	} {
		s := workedSash()
		c.change(&s)
		p := draftOne(t, s)
		soundGore(t, p)
		if p.Name != c.want || p.Count != c.count || p.Pair != c.pair {
			t.Errorf("%d x %s, pair %v; want %d x %s", p.Count, p.Name, p.Pair, c.count, c.want)
		}
		var seams []string
		for _, step := range checkJoins(t, s) {
			seams = append(seams, strings.TrimPrefix(step.Join.Name, "layer to layer, "))
		}
		if d := cmp.Diff(c.seams, seams); d != "" {
			t.Error(d)
		}
	}
}

// A bagged sash is left open by 4 in at the centre of its lower edge, 101.6 mm; by a
// third of an edge that is shorter than three times as much. Every layer carries a mark
// at both ends of the gap, which lies at the centre back; one layer has neither.
func TestABaggedSashHasAGap(t *testing.T) {
	for _, c := range []struct {
		length, end float64
		slanted     bool
		gap         float64
	}{{3000, 120, false, 101.6}, {3000, 120, true, 101.6}, {3000, 0, false, 101.6}, {270, 0, false, 90}} {
		for _, halves := range []bool{false, true} {
			s := Sash{Length: c.length, Width: 160, End: c.end, Slanted: c.slanted, Halves: halves, Layers: 2,
				Allowance: shapes.Allowance{Seam: 10}}
			p := draftOne(t, s)
			steps := checkJoins(t, s)
			last := steps[len(steps)-1]
			j := last.Join
			near(t, "gap", j.Gap.To-j.Gap.From, c.gap, 1e-6)
			near(t, "its middle", (j.Gap.To+j.Gap.From)/2, last.FinishedA/2, 1e-6)
			if j.Times > 1 || last.CutA != last.CutB || last.CutA > s.Length || last.CutA < s.Length-2*s.End {
				t.Errorf("seam with the gap: %+v", last)
			}
			for _, other := range steps[:len(steps)-1] {
				if other.Join.Gap != (shapes.Gap{}) {
					t.Errorf("%s has a gap too", other.Join.Name)
				}
			}
			// x from the centre back: of the whole its middle, of a half its edge there.
			var marks []float64
			low, high := plane.Bounds(p.Seam).Min[0], plane.Bounds(p.Seam).Max[0]
			back := (low + high) / 2
			if halves {
				back = low
			}
			for _, n := range p.Notches {
				if n.Edge == "lower edge" {
					marks = append(marks, n.At[0]-back)
				}
			}
			slices.Sort(marks)
			want := []float64{-c.gap / 2, c.gap / 2}
			if halves {
				want = want[1:]
			}
			if d := cmp.Diff(want, marks, cmpopts.EquateApprox(0, 1e-6)); d != "" {
				t.Errorf("halves %t: marks from the centre back: %s", halves, d)
			}
			s.Layers = 1
			for _, step := range checkJoins(t, s) {
				if step.Join.Gap != (shapes.Gap{}) {
					t.Errorf("one layer: %s has a gap", step.Join.Name)
				}
			}
		}
	}
}

func TestSashProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		s := Sash{
			Length: mm("length", 1000, 5000), Width: mm("width", 40, 400), TailWidth: mm("tail width", 40, 600),
			End:     mm("end", 0, 400),
			Slanted: rapid.Bool().Draw(t, "slanted"), Halves: rapid.Bool().Draw(t, "halves"),
			Layers:    rapid.IntRange(0, 2).Draw(t, "layers"),
			Allowance: shapes.Allowance{Seam: mm("seam", 0, 15), Hem: mm("hem", 0, 15)},
		}
		area := func(s Sash) float64 {
			p := draftOne(t, s)
			soundGore(t, p)
			return float64(p.Count) * plane.Area(p.Seam) / float64(max(s.Layers, 1))
		}
		checkJoins(t, s)
		was := area(s)
		near(t, "area", was, sashArea(s), 1)
		for what, change := range map[string]func(*Sash){
			"longer":      func(s *Sash) { s.Length += 5 },
			"wider":       func(s *Sash) { s.Width += 2 },
			"wider tails": func(s *Sash) { s.TailWidth += 2 },
		} {
			more := s
			change(&more)
			if bigger := area(more); bigger <= was {
				t.Errorf("%s: area %.0f, was %.0f", what, bigger, was)
			}
		}
	})
}

func TestSashRefuses(t *testing.T) {
	with := func(change func(*Sash)) Sash { s := workedSash(); change(&s); return s }
	refuses(t, []refusal{
		{"no length", with(func(s *Sash) { s.Length = 0 }), "sash: length is 0 mm"},
		{"negative tail", with(func(s *Sash) { s.TailWidth = -1 }), "tail width is -1 mm"},
		{"all end", with(func(s *Sash) { s.End = 1500 }), "ends of 1500 mm take the whole length of 3000 mm"},
		{"layers", with(func(s *Sash) { s.Layers = 3 }), "layers: 3, must be 1 or 2"},
		{"allowance", with(func(s *Sash) { s.Allowance.Hem = -1 }), "hem allowance is -1 mm"},
	})
}

// A tail that closes up on the lattice has no tip to cut.
func TestSashTailsTooThinAreRefused(t *testing.T) {
	for _, tail := range []float64{1e-9, plane.Lattice / 4} {
		_, err := piecesOf(Sash{Length: 800, Width: 60, TailWidth: tail, End: 60})
		says(t, err, "too thin to cut")
	}
	draftOne(t, Sash{Length: 800, Width: 60, TailWidth: 4 * plane.Lattice, End: 60})
}

func workedBow() Bow {
	return Bow{Width: 300, Height: 140, TailLength: 420, TailWidth: 90, TailSlant: 60, KnotLength: 130, KnotWidth: 50,
		Allowance: shapes.Allowance{Seam: 10}}
}

// Finished, a strip folded lengthwise is half as wide as it is cut and the loop
// half as long: 2 x 300 + 20 by 2 x 140 + 20 mm for a bow of 300 by 140. At the
// tip of a tail the allowance is mitred, 1/sin of the angle from fold to end.
func TestBow(t *testing.T) {
	b := workedBow()
	b.Count = 3
	want := map[string]struct {
		count         int
		along, across float64
	}{"bow loop": {3, 620, 300}, "bow tail": {6, 430 + 10*math.Hypot(60, 90)/90, 200}, "bow knot": {3, 150, 120}}
	pieces := mustDraft(t, b)
	if len(pieces) != len(want) {
		t.Errorf("%d pieces", len(pieces))
	}
	for _, p := range pieces {
		soundGore(t, p)
		w := want[p.Name]
		along, across := p.CutSize()
		near(t, p.Name+" along", along, w.along, 0.1)
		near(t, p.Name+" across", across, w.across, 0.1)
		if p.Count != w.count || len(p.Inside) != 1 {
			t.Errorf("%s: %d copies, %d folds", p.Name, p.Count, len(p.Inside))
		}
	}
	if steps := checkJoins(t, b); len(steps) != 6 || steps[2].Join.Times != 6 {
		t.Errorf("%d seams", len(steps))
	}
	b.TailLength = 0
	if pieces := mustDraft(t, b); len(pieces) != 2 {
		t.Errorf("%d pieces without tails", len(pieces))
	}
}

func TestBowRefuses(t *testing.T) {
	with := func(change func(*Bow)) Bow { b := workedBow(); change(&b); return b }
	refuses(t, []refusal{
		{"no width", with(func(b *Bow) { b.Width = 0 }), "bow: width is 0 mm"},
		{"negative tail", with(func(b *Bow) { b.TailLength = -1 }), "tail length is -1 mm"},
		{"tail without width", with(func(b *Bow) { b.TailWidth = 0 }), "tail width is 0 mm"},
		{"all slant", with(func(b *Bow) { b.TailSlant = 420 }), "tail: slant of 420 mm takes the whole length"},
		{"wide knot", with(func(b *Bow) { b.KnotWidth = 300 }), "knot width of 300 mm hides a bow 300 mm wide"},
		{"count", with(func(b *Bow) { b.Count = 501 }), "count is 501, the most is 500"},
	})
}

// Folded, both halves of a tie lie on each other; its area is that of both.
func TestTies(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		tie := Ties{Length: mm("length", 100, 1500), Width: mm("width", 8, 80), Slant: mm("slant", 0, 90),
			Count:     rapid.IntRange(0, 9).Draw(t, "count"),
			Allowance: shapes.Allowance{Seam: mm("seam", 0, 12)}}
		p := draftOne(t, tie)
		soundGore(t, p)
		checkJoins(t, tie)
		near(t, "area", plane.Area(p.Seam), tie.Width*(2*tie.Length-tie.Slant), 1e-3)
		for what, change := range map[string]func(*Ties){
			"longer":       func(s *Ties) { s.Length += 5 },
			"wider":        func(s *Ties) { s.Width++ },
			"less slanted": func(s *Ties) { s.Length++; s.Slant *= 0.9 },
		} {
			more := tie
			change(&more)
			if bigger := draftOne(t, more); plane.Area(bigger.Seam) <= plane.Area(p.Seam) {
				t.Errorf("%s: area %.0f, was %.0f", what, plane.Area(bigger.Seam), plane.Area(p.Seam))
			}
		}
	})
	refuses(t, []refusal{
		{"no width", Ties{Length: 300}, "tie: width is 0 mm"},
		{"named", Ties{Name: "apron string", Width: 20}, "apron string: length is 0 mm"},
		{"negative slant", Ties{Length: 300, Width: 20, Slant: -1}, "slant is -1 mm"},
		{"all slant", Ties{Length: 300, Width: 20, Slant: 300}, "slant of 300 mm takes the whole length of 300 mm"},
		{"count", Ties{Length: 300, Width: 20, Count: -1}, "count is -1"},
	})
}

// Loops 50 mm long and 5 wide with 6 mm allowances are cut 62 by 22 mm; cloth of
// 400 mm gives strips of 400 sqrt 2 = 565.7 mm, less 22 for the end on the bias:
// floor(543.7/62) = 8 loops. 420 mm filled at a pitch of 20 take 21: two strips of
// 8 and one of 5 (plane geometry).
func TestLoops(t *testing.T) {
	l := Loops{Opening: 420, Pitch: 20, Length: 50, Width: 5, ClothWidth: 400, Allowance: shapes.Allowance{Seam: 6}}
	if l.Number() != 21 {
		t.Errorf("%d loops", l.Number())
	}
	pieces := mustDraft(t, l)
	var got []int
	for _, p := range pieces {
		soundGore(t, p)
		got = append(got, p.Count, len(p.Inside))
		_, across := p.CutSize()
		near(t, p.Name+" across", across, (62*float64(len(p.Inside))+22)/math.Sqrt2, 0.001)
		// The last loop is cut off at the upper end: a loop after its own line.
		last := p.Inside[len(p.Inside)-1]
		corner := p.Cut[3] // the upper end's nearer corner, where a square cut would start
		near(t, "rest", math.Hypot(corner[0]-last[0][0], corner[1]-last[0][1]), math.Hypot(62, 6), 0.01)
	}
	if d := cmp.Diff([]int{2, 8, 1, 5}, got); d != "" {
		t.Error(d)
	}
	checkJoins(t, l)
}

func TestLoopsRefuse(t *testing.T) {
	good := Loops{Count: 20, Length: 50, Width: 5, ClothWidth: 400, Allowance: shapes.Allowance{Seam: 6}}
	with := func(change func(*Loops)) Loops { l := good; change(&l); return l }
	refuses(t, []refusal{
		{"no length", with(func(l *Loops) { l.Length = 0 }), "loops: length is 0 mm"},
		{"neither count nor opening", with(func(l *Loops) { l.Count = 0 }), "opening is 0 mm"},
		{"both", with(func(l *Loops) { l.Opening = 400 }), "both a count (20) and an opening to fill (400 mm)"},
		{"narrow pitch", with(func(l *Loops) { l.Count, l.Opening, l.Pitch = 0, 400, 4 }),
			"pitch of 4 mm is less than the width of 5 mm"},
		{"short opening", with(func(l *Loops) { l.Count, l.Opening, l.Pitch = 0, 10, 20 }), "count is 0"},
		{"too many", with(func(l *Loops) { l.Count, l.Opening, l.Pitch = 0, 50_000, 5 }), "count is 1001"},
		{"negative count", with(func(l *Loops) { l.Count = -1 }), "count is -1"},
		{"narrow cloth", with(func(l *Loops) { l.ClothWidth = 50 }), "more than cloth 50.0 mm wide gives on the bias"},
	})
}

// More, longer and wider loops take more cloth, and their strips are not higher
// than the cloth is wide.
func TestLoopsProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		l := Loops{Count: rapid.IntRange(1, 60).Draw(t, "count"), Length: mm("length", 20, 120),
			Width:      mm("width", 3, 10),
			ClothWidth: mm("cloth", 200, 1500),
			Allowance:  shapes.Allowance{Seam: mm("seam", 0, 8)}}
		area := func(l Loops) (sum float64) {
			loops := 0
			for _, p := range mustDraft(t, l) {
				soundGore(t, p)
				if _, across := p.CutSize(); across > l.ClothWidth {
					t.Errorf("a strip %g mm high from cloth of %g mm", across, l.ClothWidth)
				}
				sum += float64(p.Count) * p.Area()
				loops += p.Count * len(p.Inside)
			}
			if loops != l.Count {
				t.Errorf("%d loops, want %d", loops, l.Count)
			}
			return sum
		}
		checkJoins(t, l)
		was := area(l)
		// A strip is as long as its loops and one cut width, by the cut width.
		strips := math.Ceil(float64(l.Count) / float64(l.perStrip()))
		near(t, "area", was, l.cutWidth()*(float64(l.Count)*l.cut()+strips*l.cutWidth()),
			0.01*l.cut()*float64(l.Count)+0.01*strips*l.cutWidth())
		for what, change := range map[string]func(*Loops){
			"more":   func(l *Loops) { l.Count++ },
			"longer": func(l *Loops) { l.Length++ },
			"wider":  func(l *Loops) { l.Width++ },
		} {
			more := l
			change(&more)
			if bigger := area(more); bigger <= was {
				t.Errorf("%s: area %.0f, was %.0f", what, bigger, was)
			}
		}
	})
}
