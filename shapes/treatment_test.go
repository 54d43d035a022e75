package shapes

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// inch is 25.4 mm exactly (international yard and pound agreement, 1959).
const inch = 25.4

// near fails when got is further than slack from want.
func near(t interface {
	Helper()
	Errorf(format string, args ...any)
}, what string, got, want, slack float64) {
	t.Helper()
	if !(math.Abs(got-want) <= slack) {
		t.Errorf("%s is %.6f, want %.6f within %g", what, got, want, slack)
	}
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
		{Name: "over", A: JoinSide{Edges: list("a", "b")},
			B: JoinSide{Edges: list("c"), Treatment: Treatment{Ease: -100}}},
		{Name: "ab", Times: 2, A: JoinSide{Edges: list("a")}, B: JoinSide{Edges: list("b")}},
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
	if _, err := SewingOrder(pieces, joins); err == nil ||
		!strings.Contains(err.Error(), `seam "ab": there is no piece "d"`) {
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
	if d := cmp.Diff("gathered 2 to 1, eased by 12 mm, pleats: 2, 25 mm deep, lapped by 20 mm, darts: 30 mm",
		tr.String()); d != "" {
		t.Error(d)
	}
	// Pleat depth by subtraction, half measures: cloth 44 in over a waist of 14 in
	// leaves 30.0 in for pleats ("A Complete Course in Dressmaking" vol. 5, pp.
	// 63-64, en.m.wikisource.org). In five pleats each is 3 in deep.
	cut, err = Treatment{Pleats: 5, PleatDepth: 3 * inch}.Cut(14 * inch)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "pleated cloth in inches", cut/inch, 44, 0.0005)
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
		near(t, "end", tr.OnCut(f, f), cut, 1e-6)
		last := 0.0
		for i := range 50 {
			at := tr.OnCut(f*float64(i)/50, f)
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
	if err := p.AddDart("lower", Mouth{100, 40}, apex); err == nil ||
		!strings.Contains(err.Error(), "legs of 91.2 mm and 93.4 mm") {
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
	if err := p.AddPleats("upper", Treatment{Pleats: 9, PleatDepth: 20}, 60); err == nil ||
		!strings.Contains(err.Error(), "leaves nothing") {
		t.Errorf("too many pleats: %v", err)
	}
}
