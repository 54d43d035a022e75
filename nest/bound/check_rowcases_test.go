package bound_test

import (
	"fmt"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/nest/bound"
	"yardlay/shapes/plane"
)

// rowsOf returns the certificates of rows and columns.
func rowsOf(p bound.Problem) (out []bound.Bound) {
	for _, b := range lower(p) {
		if b.Kind == bound.Row || b.Kind == bound.Column {
			out = append(out, b)
		}
	}
	return out
}

// The rows of the eight gores, every one.
func TestRowsOfGoresChecked(t *testing.T) {
	all := [][]float64{{0, 180}, {90, 270}, {0}, {90}}
	for _, turns := range often.Jobs(often.Full(all[:1], all[:2]), all) {
		p := bound.Problem{Width: 58 * inch, Pieces: []bound.Piece{turned("gore", 8, circleGore(), turns...)}}
		rows := rowsOf(p)
		if len(rows) == 0 {
			t.Errorf("turns %v: no row", turns)
		}
		for _, b := range rows {
			if v := checkRow(t, p, b, 1e8); v != confirmed {
				t.Errorf("turns %v: %s of %.3f in not confirmed: %d", turns, b.Kind, b.Length/inch, v)
			}
		}
	}
}

// A row said to be longer than it is is refuted: two triangles head to tail make a
// rectangle 300 long.
func TestTooLongARowRefuted(t *testing.T) {
	p := bound.Problem{Width: 1000, Pieces: []bound.Piece{turned("half", 2, ring(0, 0, 300, 0, 0, 1000), 0, 180)}}
	for length, want := range map[float64]verdict{300: confirmed, 301: refuted} {
		b := bound.Bound{Kind: bound.Row, Length: length, Pieces: []string{"half"}}
		b.Certificate.Length, b.Certificate.At = length, 500
		if got := checkRow(t, p, b, 1e6); got != want {
			t.Errorf("length %v: %d, want %d", length, got, want)
		}
	}
}

// Small problems with wide pieces, most of them with dents, some with a gap: they
// must follow each other in rows.
func TestRowsChecked(t *testing.T) {
	checkSmall(t, often.Seeds([]int{0, 2, 5, 7}, often.Jobs(6, 30)), bound.Row,
		func(t *rapid.T) orb.Ring { return dented(t, 51, 100, 20, 90) })
}

// Pieces longer than half the shortest marker must lie side by side.
func TestColumnsChecked(t *testing.T) {
	checkSmall(t, often.Seeds([]int{0, 2, 6, 7}, often.Jobs(5, 20)), bound.Column,
		func(t *rapid.T) orb.Ring { return dented(t, 26, 60, 80, 160) })
}

// checkSmall looks at problems of a few pieces drawn; those whose search is too
// long are counted and must be few.
func checkSmall(t *testing.T, seeds []int, kind bound.Kind, outline func(*rapid.T) orb.Ring) {
	t.Helper()
	checkEach(t, seeds, kind, smallProblems(outline))
}

// Matched pieces of one to three groups, and some that match nothing, at points anywhere.
func TestRowsOnARepeatChecked(t *testing.T) {
	for kind, small := range map[bound.Kind]*rapid.Generator[bound.Problem]{
		bound.Row:    smallProblems(func(t *rapid.T) orb.Ring { return dented(t, 51, 100, 20, 90) }),
		bound.Column: smallProblems(func(t *rapid.T) orb.Ring { return dented(t, 20, 45, 80, 160) }),
	} {
		checkEach(t, often.Seeds([]int{0, 2, 5, 7}, often.Jobs(5, 40)), kind, rapid.Custom(func(t *rapid.T) bound.Problem {
			p := small.Draw(t, "plain")
			p.Repeat = rapid.SampledFrom([][2]float64{{31.7, 0}, {50, 17.35}, {0, 23}}).Draw(t, "repeat")
			if kind == bound.Column {
				p.Repeat[0], p.Repeat[1] = p.Repeat[1], p.Repeat[0]
			}
			for i := range p.Pieces {
				if g := rapid.SampledFrom([]int{1, 1, 2, 0}).Draw(t, "group"); g > 0 {
					m := &bound.Match{Group: g}
					for range p.Pieces[i].Ways {
						m.Points = append(m.Points,
							orb.Point{rapid.Float64Range(-20, 60).Draw(t, "x"),
								rapid.Float64Range(-20, 60).Draw(t, "y")})
					}
					p.Pieces[i].Match = m
				}
			}
			return p
		}))
	}
}

func smallProblems(outline func(*rapid.T) orb.Ring) *rapid.Generator[bound.Problem] {
	return rapid.Custom(func(t *rapid.T) bound.Problem {
		p := bound.Problem{Width: 100, Gap: rapid.SampledFrom([]float64{0, 0, 4}).Draw(t, "gap")}
		for i := range rapid.IntRange(1, 2).Draw(t, "kinds") {
			count := rapid.IntRange(1, 3).Draw(t, "count")
			turns := rapid.SampledFrom([][]float64{{0}, {0, 180}}).Draw(t, "turns")
			p.Pieces = append(p.Pieces, turned(fmt.Sprint("piece ", i), count, outline(t), turns...))
		}
		return p
	})
}

func checkEach(t *testing.T, seeds []int, kind bound.Kind, all *rapid.Generator[bound.Problem]) {
	t.Helper()
	seen := make(map[verdict]int)
	of, onRepeat, repeats := 0, 0, false
	for _, seed := range seeds {
		p := all.Example(seed)
		repeats = repeats || p.Repeat != [2]float64{}
		for _, b := range rowsOf(p) {
			v := checkRow(t, p, b, 1e5)
			if v == refuted {
				t.Errorf("problem %d: %s of %v, length %v: there is a shorter row", seed, b.Kind, b.Pieces, b.Length)
			}
			seen[v]++
			if b.Kind == kind && v == confirmed {
				of++
				if b.OnRepeat() {
					onRepeat++
				}
			}
		}
	}
	t.Logf("%d confirmed, %d of them of kind %s, %d on a repeat, and %d too large to look through",
		seen[confirmed], of, kind, onRepeat, seen[undecided])
	if of == 0 || repeats && onRepeat < of/10 || seen[undecided] > seen[confirmed]/3 {
		t.Error("too few to speak of")
	}
}

// dented draws a triangle, or an outline of up to six corners, with extents in
// the given ranges.
func dented(t *rapid.T, wideFrom, wideTo, longFrom, longTo int) orb.Ring {
	x := func(label string, lo, hi int) float64 { return float64(rapid.IntRange(lo, hi).Draw(t, label)) }
	wide, long := x("wide", wideFrom, wideTo), x("long", longFrom, longTo)
	r := ring(0, 0, long, wide*x("apex", 0, 4)/4, 0, wide)
	if rapid.Bool().Draw(t, "corners") {
		r = ring(x("a", 0, 15), 0, long-x("b", 0, 9), x("c", 0, 40)/100*wide, long-x("f", 0, 15), wide/2, long, wide,
			x("d", 0, 15), wide-x("e", 0, 15), x("g", 0, 20), wide/2)
	}
	if plane.CheckSimple(r) != nil || plane.Area(r) <= 0 {
		return ring(0, 0, long, 0, long, wide, 0, wide)
	}
	return r
}
