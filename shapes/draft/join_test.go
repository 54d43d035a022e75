package draft

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes"
)

// seamSlack is how much the sides of a seam may differ, mm.
const seamSlack = 0.5

// checkJoins holds that a draft's seams have sides of equal finished length and
// notches at equal finished distances from the start, and returns the list.
func checkJoins(t failer, d Draft) []shapes.SewingStep {
	t.Helper()
	pieces := mustDraft(t, d)
	joins, err := joinsOf(d)
	if err != nil {
		t.Fatalf("%T: drafted, but %v", d, err)
	}
	steps, err := shapes.SewingOrder(pieces, joins)
	if err != nil {
		t.Fatalf("%T: %v", d, err)
	}
	if len(steps) != len(joins) {
		t.Fatalf("%T: %d steps for %d joins", d, len(steps), len(joins))
	}
	for _, s := range steps {
		if math.Abs(s.Difference) > seamSlack {
			t.Errorf("%T: seam %q: %s is %.3f mm, %s %.3f", d, s.Join.Name, s.Join.A, s.FinishedA, s.Join.B,
				s.FinishedB)
		}
		a, b := notchesAlong(t, pieces, s.Join.A), notchesAlong(t, pieces, s.Join.B)
		for _, m := range s.Join.Notches {
			if m > min(s.FinishedA, s.FinishedB)-seamSlack {
				continue
			}
			for _, side := range []struct {
				shapes.JoinSide
				found    []float64
				finished float64
			}{{s.Join.A, a, s.FinishedA}, {s.Join.B, b, s.FinishedB}} {
				if side.Onto != "" {
					continue // a line of another part
				}
				want := side.Treatment.OnCut(m, side.finished)
				if !slices.ContainsFunc(side.found, func(d float64) bool { return math.Abs(d-want) < seamSlack }) {
					t.Errorf("%T: seam %q has no notch at %.2f (cut %.2f) on %s, only %.2f", d, s.Join.Name, m, want,
						side.JoinSide,
						side.found)
				}
			}
		}
	}
	return steps
}

// notchesAlong returns the cut distances from the start of a side of its notches
// and of the seams between its edges.
func notchesAlong(t failer, pieces []shapes.Piece, s shapes.JoinSide) []float64 {
	t.Helper()
	if s.Onto != "" {
		return nil
	}
	var out []float64
	start := 0.0
	for _, sewn := range s.Edges {
		p := pieceOf(t, pieces, sewn.Piece)
		e, ok := p.Edge(sewn.Edge)
		if !ok {
			t.Fatalf("%s has no edge %q", p.Name, sewn.Edge)
		}
		for _, n := range p.Notches {
			if n.Edge != e.Name {
				continue
			}
			d := fromStart(e, n.At)
			if sewn.Reversed {
				d = e.Length() - d
			}
			if n.Of > 0 {
				d += float64(n.Copy-1) * e.Length()
			}
			out = append(out, start+d)
		}
		for range max(sewn.Copies, 1) {
			start += e.Length()
			out = append(out, start)
		}
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
		c := Cape{Neck: 420, Length: 900, Fraction: 0.5, Sections: n, HemRaise: 20,
			Allowance: shapes.Allowance{Seam: 10, Hem: 20}}
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
	s := Strip{Edge: 750, Fullness: 2, Depth: 200, Tiers: 3, ClothWidth: 1400, Join: 10,
		Allowance: shapes.Allowance{Seam: 10, Hem: 20}}
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

// pieceOf returns the piece of that name.
func pieceOf(t failer, pieces []shapes.Piece, name string) shapes.Piece {
	t.Helper()
	i := slices.IndexFunc(pieces, func(p shapes.Piece) bool { return p.Name == name })
	if i < 0 {
		t.Fatalf("there is no piece %q", name)
	}
	return pieces[i]
}
