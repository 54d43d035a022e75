package shapes

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// seamSlack is how much the sides of a seam may differ, mm.
const seamSlack = 0.5

// checkJoins holds that a draft's seams have sides of equal finished length and
// notches at equal finished distances from the start, and returns the list.
func checkJoins(t failer, d Draft) []SewingStep {
	t.Helper()
	pieces := mustDraft(t, d)
	joins, err := joinsOf(d)
	if err != nil {
		t.Fatalf("%T: drafted, but %v", d, err)
	}
	steps, err := SewingOrder(pieces, joins)
	if err != nil {
		t.Fatalf("%T: %v", d, err)
	}
	if len(steps) != len(joins) {
		t.Fatalf("%T: %d steps for %d joins", d, len(steps), len(joins))
	}
	for _, s := range steps {
		if math.Abs(s.Difference) > seamSlack {
			t.Errorf("%T: seam %q: %s is %.3f mm, %s %.3f", d, s.Join.Name, s.Join.A, s.FinishedA, s.Join.B, s.FinishedB)
		}
		a, b := notchesAlong(t, pieces, s.Join.A), notchesAlong(t, pieces, s.Join.B)
		for _, m := range s.Join.Notches {
			if m > min(s.FinishedA, s.FinishedB)-seamSlack {
				continue
			}
			for _, side := range []struct {
				JoinSide
				found    []float64
				finished float64
			}{{s.Join.A, a, s.FinishedA}, {s.Join.B, b, s.FinishedB}} {
				if side.Onto != "" {
					continue // a line of another part
				}
				want := side.Treatment.onCut(m, side.finished)
				if !slices.ContainsFunc(side.found, func(d float64) bool { return math.Abs(d-want) < seamSlack }) {
					t.Errorf("%T: seam %q has no notch at %.2f (cut %.2f) on %s, only %.2f", d, s.Join.Name, m, want, side.JoinSide, side.found)
				}
			}
		}
	}
	return steps
}

// notchesAlong returns the cut distances from the start of a side of its notches
// and of the seams between its edges.
func notchesAlong(t failer, pieces []Piece, s JoinSide) []float64 {
	t.Helper()
	if s.Onto != "" {
		return nil
	}
	edges, err := s.find(pieces)
	if err != nil {
		t.Fatalf("%v", err)
	}
	var out []float64
	start := 0.0
	for _, e := range edges {
		for _, n := range e.piece.Notches {
			if n.Edge != e.Edge {
				continue
			}
			d := fromStart(e.edge, n.At)
			if e.Reversed {
				d = e.edge.Length() - d
			}
			if n.Of > 0 {
				d += float64(n.Copy-1) * e.edge.Length()
			}
			out = append(out, start+d)
		}
		for i := 1; i < e.Copies; i++ {
			out = append(out, start+float64(i)*e.edge.Length())
		}
		start += e.length
		out = append(out, start)
	}
	return out
}

func TestSkirtJoins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGored(t)
		if _, err := piecesOf(g); err != nil {
			t.Skip(err)
		}
		checkJoins(t, g)
	})
	for _, gores := range []int{1, 2, 3, 4, 5, 8} {
		for _, fold := range []bool{false, true} {
			c := circleSkirt(0.75, 28, 40, gores)
			c.FrontOnFold, c.Opening = fold && gores%2 == 0, true
			if gores == 1 {
				c.Fraction = 0.5
			}
			checkJoins(t, c)
		}
	}
}

// Every seam of a skirt is sewn, and as often as there are places for it: as many
// seams as gores, and one fewer where two gores are cut in one.
func TestSkirtSeamsAreAllJoined(t *testing.T) {
	for _, c := range []struct {
		gores int
		fold  bool
		seams int
	}{{2, false, 2}, {3, false, 3}, {5, false, 5}, {8, false, 8}, {8, true, 7}, {2, true, 1}} {
		s := circleSkirt(0.5, 28, 40, c.gores)
		s.FrontOnFold = c.fold
		seams := 0
		for _, step := range checkJoins(t, s) {
			seams += step.Join.Times
		}
		if seams != c.seams {
			t.Errorf("%d gores, front on fold %v: %d seams", c.gores, c.fold, seams)
		}
	}
}

// n sections end to end have n - 1 seams, closed to a ring one more.
func TestSectionJoins(t *testing.T) {
	for n, seams := range map[int]int{1: 0, 2: 1, 3: 2, 5: 4, 8: 7} {
		c := Cape{Neck: 420, Length: 900, Fraction: 0.5, Sections: n, HemRaise: 20, Allowance: Allowance{Seam: 10, Hem: 20}}
		f := Flounce{Top: 600, Bottom: 1000, Depth: 300, Sections: n}
		for _, d := range []Draft{c, f} {
			got := 0
			for _, s := range checkJoins(t, d) {
				got += s.Join.Times
			}
			if got != seams {
				t.Errorf("%T of %d: %d seams", d, n, got)
			}
		}
		f.Closed = true
		got := 0
		for _, s := range checkJoins(t, f) {
			got += max(s.Join.Times, 1)
		}
		if got != n+1 { // and the top
			t.Errorf("a closed flounce of %d: %d seams", n, got)
		}
	}
}

// Tiers: 750 mm gathered 2 to 1 twice, strips across 1400 mm less joins.
func TestTierJoins(t *testing.T) {
	s := Strip{Edge: 750, Fullness: 2, Depth: 200, Tiers: 3, ClothWidth: 1400, Join: 10, Allowance: Allowance{Seam: 10, Hem: 20}}
	steps := checkJoins(t, s)
	// An open run of n strips has n - 1 joins: ceil(1500/1380) = 2, 3 and 5 strips.
	joins := 0
	for _, step := range steps[:len(steps)-2] {
		joins += step.Join.Times
	}
	if joins != 1+2+4 {
		t.Errorf("%d joins of strips", joins)
	}
	last := steps[len(steps)-1]
	near(t, "upper side", last.FinishedA, 3000, 0.01)
	near(t, "lower side, flat", last.CutB, 6000, 0.01)
}

// A seam over several pieces comes after those that put them together.
func TestSewingOrder(t *testing.T) {
	list := func(names ...string) []SewnEdge {
		var out []SewnEdge
		for _, n := range names {
			out = append(out, SewnEdge{Piece: n, Edge: "upper"})
		}
		return out
	}
	var pieces []Piece
	for _, n := range []string{"a", "b", "c"} {
		p, err := NewPiece(n, box(100, 40, 10, 5, 25))
		if err != nil {
			t.Fatal(err)
		}
		pieces = append(pieces, p)
	}
	joins := []Join{
		{Name: "over", A: JoinSide{Edges: list("a", "b")}, B: JoinSide{Edges: list("c"), Treatment: Treatment{Ease: -100}}},
		seamOf("ab", 2, list("a")[0], list("b")[0]),
	}
	steps, err := SewingOrder(pieces, joins)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, s := range steps {
		names = append(names, s.Join.Name)
	}
	if d := cmp.Diff([]string{"ab", "over"}, names); d != "" {
		t.Error(d)
	}
	near(t, "difference", steps[1].Difference, 0, 1e-9)
	joins[1].B.Edges[0].Piece = "d"
	if _, err := SewingOrder(pieces, joins); err == nil || !strings.Contains(err.Error(), `seam "ab": there is no piece "d"`) {
		t.Errorf("got %v", err)
	}
}

// Cut lengths by hand: 300 mm gathered 2 to 1, with two pleats 25 mm deep, a dart
// of 30 mm, 12 mm of ease and an underlap of 20: (300 + 12) 2 + 2 2 25 + 30 + 20 = 774.
func TestTreatmentLengths(t *testing.T) {
	tr := Treatment{Gather: 2, Ease: 12, Pleats: 2, PleatDepth: 25, Darts: []Mouth{{100, 30}}, Lap: 20}
	cut, err := tr.Cut(300)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "cut", cut, 774, 1e-9)
	back, err := tr.Finished(cut)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "finished", back, 300, 1e-9)
	if d := cmp.Diff("gathered 2 to 1, eased by 12 mm, pleats: 2, 25 mm deep, lapped by 20 mm, darts: 30 mm", tr.String()); d != "" {
		t.Error(d)
	}
	// Pleat depth by subtraction, half measures: cloth 44 in over a waist of 14 in
	// leaves 30.0 in for pleats ("A Complete Course in Dressmaking" vol. 5, pp.
	// 63-64, en.m.wikisource.org). In five pleats each is 3 in deep.
	cut, err = Treatment{Pleats: 5, PleatDepth: 3 * inch}.Cut(14 * inch)
	if err != nil {
		t.Fatal(err)
	}
	inches(t, "pleated cloth", cut, 44)
	for want, bad := range map[string]Treatment{
		"fullness is 0.5":        {Gather: 0.5},
		"pleats: -1":             {Pleats: -1},
		"pleat depth is 0 mm":    {Pleats: 3},
		"cut length is -10 mm":   {Ease: -310},
		"dart's width is -3 mm":  {Darts: []Mouth{{10, -3}}},
		"ease is NaN mm, must b": {Ease: math.NaN()},
	} {
		if _, err := bad.Cut(300); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
}

// A treatment that is undone gives what it was given, and marks keep their order.
func TestTreatmentProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(50, 3000).Draw(t, "finished")
		tr := Treatment{
			Gather: rapid.Float64Range(1, 6).Draw(t, "gather"), Ease: rapid.Float64Range(-10, 60).Draw(t, "ease"),
			Pleats: rapid.IntRange(0, 20).Draw(t, "pleats"), PleatDepth: rapid.Float64Range(1, 60).Draw(t, "depth"),
		}
		cut, err := tr.Cut(f)
		if err != nil {
			t.Fatal(err)
		}
		back, err := tr.Finished(cut)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "finished", back, f, 1e-6)
		near(t, "end", tr.onCut(f, f), cut, 1e-6)
		last := 0.0
		for i := range 50 {
			at := tr.onCut(f*float64(i)/50, f)
			if at < last-1e-9 {
				t.Fatalf("mark %d at %.3f, the last at %.3f", i, at, last)
			}
			last = at
		}
	})
}

func TestDartAndPleatMarks(t *testing.T) {
	p, err := NewPiece("panel", box(300, 200, 10, 10, 10))
	if err != nil {
		t.Fatal(err)
	}
	lower, _ := p.Edge("lower")
	foot, out := lower.At(100)
	apex := orb.Point{foot[0] + 15, foot[1] - 90*out[1]}
	if err := p.AddDart("lower", Mouth{100, 30}, apex); err != nil {
		t.Fatal(err)
	}
	if len(p.Inside) != 1 || len(p.Notches) != 2 {
		t.Errorf("%d lines, %d notches", len(p.Inside), len(p.Notches))
	}
	if err := p.AddDart("lower", Mouth{100, 40}, apex); err == nil || !strings.Contains(err.Error(), "legs of 91.2 mm and 93.4 mm") {
		t.Errorf("uneven legs: %v", err)
	}
	if err := p.AddPleats("upper", Treatment{Pleats: 3, PleatDepth: 20}, 60); err != nil {
		t.Fatal(err)
	}
	if len(p.Inside) != 1+9 {
		t.Errorf("%d lines inside", len(p.Inside))
	}
	// 300 mm less 3 pleats of 40 leave 180: the first pleat starts at 30.
	near(t, "first pleat", p.Inside[1][0][0], p.Inside[9][0][0]+240, 1e-6)
	if err := p.AddPleats("upper", Treatment{Pleats: 9, PleatDepth: 20}, 60); err == nil || !strings.Contains(err.Error(), "leaves nothing") {
		t.Errorf("too many pleats: %v", err)
	}
}
