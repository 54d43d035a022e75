package bound_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/nest"
	"yardlay/nest/bound"
	"yardlay/shapes/plane"
)

// slowPlaces is the slow twin of the search for rectangles: the least length, a gap behind the last piece counted, in
// which each piece can begin at some whole step so that on each step those that lie there fit the width with gaps
// between them, and without gaps when each is longer by the gap. It tries every step for every piece.
func slowPlaces(width, gap int64, pieces [][2]int64) int64 {
	best := int64(0)
	for _, p := range pieces {
		best += p[0] + gap
	}
	spaced, plain := make([]int64, best), make([]int64, best)
	var lay func(k int, first, end int64)
	lay = func(k int, first, end int64) {
		if end >= best {
			return
		}
		if k == len(pieces) {
			best = end
			return
		}
		p := pieces[k]
		if k > 0 && p != pieces[k-1] {
			first = 0
		}
		for at := first; at+p[0]+gap < best; at++ {
			fits := true
			for x := at; x < at+p[0]+gap && fits; x++ {
				fits = plain[x]+p[1] <= width && (x >= at+p[0] || spaced[x]+p[1]+gap <= width+gap)
			}
			if !fits {
				continue
			}
			put := func(sign int64) {
				for x := at; x < at+p[0]+gap; x++ {
					plain[x] += sign * p[1]
					if x < at+p[0] {
						spaced[x] += sign * (p[1] + gap)
					}
				}
			}
			put(1)
			lay(k+1, at, max(end, at+p[0]+gap))
			put(-1)
		}
	}
	lay(0, 0, 0)
	return best
}

// slowLayout returns the length of the shortest layout of rectangles on whole steps, none turned, with a gap between
// any two along the cloth or across it: every place of every piece is tried.
func slowLayout(width, gap int64, pieces [][2]int64) int64 {
	best := int64(0)
	for _, p := range pieces {
		best += p[0] + gap
	}
	at := make([][2]int64, len(pieces))
	var lay func(k int, end int64)
	lay = func(k int, end int64) {
		if end >= best {
			return
		}
		if k == len(pieces) {
			best = end
			return
		}
		p := pieces[k]
		for x := int64(0); x+p[0]+gap < best; x++ {
		next:
			for y := int64(0); y+p[1] <= width; y++ {
				for i, o := range at[:k] {
					q := pieces[i]
					if x < o[0]+q[0]+gap && o[0] < x+p[0]+gap && y < o[1]+q[1]+gap && o[1] < y+p[1]+gap {
						y = o[1] + q[1] + gap - 1
						continue next
					}
				}
				at[k] = [2]int64{x, y}
				lay(k+1, max(end, x+p[0]+gap))
			}
		}
	}
	lay(0, 0)
	return best - gap
}

// rectanglesOf draws some small rectangles, the largest first, whether each may be turned by a quarter, and a width
// that each fits.
func rectanglesOf(t *rapid.T, most int) (width, gap int64, pieces [][2]int64, turns []bool) {
	width, gap = rapid.Int64Range(3, 9).Draw(t, "width"), rapid.Int64Range(0, 2).Draw(t, "gap")
	for range rapid.IntRange(1, most).Draw(t, "rectangles") {
		p := [2]int64{rapid.Int64Range(1, 5).Draw(t, "along"), rapid.Int64Range(1, width).Draw(t, "across")}
		pieces = append(pieces, p)
		if len(pieces) < most && rapid.IntRange(0, 2).Draw(t, "again") == 0 {
			pieces = append(pieces, p)
		}
	}
	slices.SortFunc(pieces, func(a, b [2]int64) int { return slices.Compare(b[:], a[:]) })
	some := rapid.Bool().Draw(t, "turns")
	for i, p := range pieces {
		again := i > 0 && p == pieces[i-1]
		turns = append(turns, some && (again && turns[i-1] || !again && p[0] <= width && rapid.Bool().Draw(t, "turn")))
	}
	return width, gap, pieces, turns
}

// leastTurned is the least of all ways to turn pieces by a quarter.
func leastTurned(pieces [][2]int64, turns []bool, least func([][2]int64) int64) int64 {
	k := slices.Index(turns, true)
	if k < 0 {
		return least(pieces)
	}
	turned, rest := slices.Clone(pieces), slices.Clone(turns)
	rest[k] = false
	turned[k][0], turned[k][1] = turned[k][1], turned[k][0]
	return min(leastTurned(pieces, rest, least), leastTurned(turned, rest, least))
}

// The search, and what it takes apart before, find the same as trying every step for every piece.
func TestPlacesAsTheSlowTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width, gap, pieces, turns := rectanglesOf(t, 6)
		var sizes bound.Sizes
		for i, p := range pieces {
			sizes = append(sizes, [4]int64{p[0], p[1], 1, 0})
			if turns[i] {
				sizes[i][3] = 1
			}
		}
		got, exact := bound.Schedule(context.Background(), width, gap, sizes, 1<<26)
		want := leastTurned(pieces, turns, func(p [][2]int64) int64 { return slowPlaces(width, gap, p) })
		if got != want || !exact {
			t.Fatalf("%v on %d, gap %d, turned %v: %d, exact %v, want %d", pieces, width, gap, turns, got, exact, want)
		}
	})
}

// No bound is above the shortest layout of a few rectangles, every place of each being tried; and without a gap nearly
// all are that long. With a gap a layout may be shorter than those tried, as pieces may come nearer corner to corner.
func TestRectanglesAgainstAllLayouts(t *testing.T) {
	drawn, reached := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		width, gap, pieces, turns := rectanglesOf(t, 4)
		p := bound.Problem{Width: float64(width), Gap: float64(gap)}
		for i, r := range pieces {
			piece := box(fmt.Sprint("rectangle ", i), 1, float64(r[0]), float64(r[1]))
			if turns[i] {
				piece.Ways = append(piece.Ways, box("", 1, float64(r[1]), float64(r[0])).Ways...)
			}
			p.Pieces = append(p.Pieces, piece)
		}
		want := float64(leastTurned(pieces, turns, func(p [][2]int64) int64 { return slowLayout(width, gap, p) }))
		got := best(p)
		if got.Length > want {
			t.Fatalf("%v on %d, gap %d: %v by %s, and a layout takes %v", pieces, width, gap, got.Length, got.Kind, want)
		}
		if gap > 0 {
			return
		}
		if drawn++; got.Length > want-0.01 {
			reached++
		}
	})
	if t.Logf("%d of %d are as long", reached, drawn); reached < drawn*9/10-1 {
		t.Errorf("%d of %d bounds are as long as the shortest layout", reached, drawn)
	}
}

// box is a rectangle that may lie either way up.
func box(name string, count int, along, across float64) bound.Piece {
	return turned(name, count, ring(0, 0, along, 0, along, across, 0, across), 0, 180)
}

// What lies on one line is worth one at the most, by every worth: with a gap beside each piece, and without.
func TestWorthsOfRectangles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width, gap := rapid.Int64Range(5, 60).Draw(t, "width"), rapid.Int64Range(0, 3).Draw(t, "gap")
		var sizes bound.Sizes
		for range rapid.IntRange(1, 5).Draw(t, "sizes") {
			sizes = append(sizes, [4]int64{rapid.Int64Range(1, 9).Draw(t, "along"),
				rapid.Int64Range(1, width).Draw(t, "across"), rapid.Int64Range(1, 9).Draw(t, "copies")})
		}
		all, spaced, whole := bound.RectangleWorths(width, gap, sizes)
		for i, of := range all {
			line, beside := width, int64(0)
			if spaced[i] {
				line, beside = width+gap, gap
			}
			most := make([]int64, line+1) // worth of what fits so much of the line
			for x := range most {
				for k, s := range sizes {
					if need := s[1] + beside; need <= int64(x) {
						most[x] = max(most[x], most[int64(x)-need]+of[k])
					}
				}
			}
			if most[line] > whole {
				t.Fatalf("%v on %d, gap %d, worths %v: a line is worth %d of %d", sizes, width, gap, of, most[line], whole)
			}
		}
	})
}

// A cloth cut into rectangles by cuts from edge to edge, of no width or as wide as the gap, is a marker of them.
func TestNeverAboveAJigsawOfRectangles(t *testing.T) {
	type marker struct {
		bound.Problem
		length float64
	}
	cut := rapid.Custom(func(t *rapid.T) (m marker) {
		turn := rapid.IntRange(0, 2).Draw(t, "turn") == 0
		m.Width, m.length = coordinate(t, "width"), 2*coordinate(t, "length")
		m.Gap = rapid.SampledFrom([]float64{0, 0, 3, 3.1748046875}).Draw(t, "gap")
		parts := []orb.Bound{{Max: orb.Point{m.length, m.Width}}}
		for range rapid.IntRange(1, 24).Draw(t, "cuts") {
			k, axis := rapid.IntRange(0, len(parts)-1).Draw(t, "part"), rapid.IntRange(0, 1).Draw(t, "axis")
			a, b := parts[k], parts[k]
			size := a.Max[axis] - a.Min[axis] - m.Gap
			if size < 8 {
				continue
			}
			// Often in halves or thirds, so that many are alike.
			a.Max[axis] = a.Min[axis] + plane.Snap(size/12*float64(rapid.IntRange(3, 9).Draw(t, "twelfths")))
			b.Min[axis] = a.Max[axis] + m.Gap
			parts[k] = a
			parts = append(parts, b)
		}
		for i, p := range parts {
			if m.Gap == 0 || rapid.IntRange(0, 9).Draw(t, "kept") > 0 {
				piece := box(fmt.Sprint("part ", i), 1, p.Max[0]-p.Min[0], p.Max[1]-p.Min[1])
				if turn && i%2 == 0 {
					piece.Ways = append(piece.Ways, box("", 1, p.Max[1]-p.Min[1], p.Max[0]-p.Min[0]).Ways...)
				}
				m.Pieces = append(m.Pieces, piece)
			}
		}
		return m
	})
	soon := []int{1, 3, 5, 7, 8, 9, 10, 11, 13, 14, 15, 16, 18, 20, 27, 28, 40, 42}
	for _, seed := range often.Seeds(soon, often.Jobs(200, 4000)) {
		m := cut.Example(seed)
		found := bound.RectangleBounds(m.Problem, 8<<20)
		if seed%40 == 0 {
			found = bound.Lower(t.Context(), m.Problem)
		}
		for _, b := range found {
			if b.Length > m.length+2*plane.Lattice {
				t.Fatalf("%d: %s: bound %v, and the parts fill %v by %v", seed, b.Kind, b.Length, m.length, m.Width)
			}
		}
	}
}

// Short searches of rectangles with turns, flaws and other pieces beside them, that the judge confirms.
func TestNeverAboveASearchOfRectangles(t *testing.T) {
	problems := rapid.Custom(func(t *rapid.T) nest.Problem {
		p := nest.Problem{Strip: nest.Strip{Width: coordinate(t, "width") + 100}}
		p.Gap = rapid.SampledFrom([]float64{0, 3, 12}).Draw(t, "gap")
		if rapid.IntRange(0, 3).Draw(t, "flaw") == 0 {
			x := coordinate(t, "flaw x")
			p.Strip.Forbidden = []orb.Ring{ring(x, 10, x+40, 10, x+20, 60)}
		}
		for i := range rapid.IntRange(1, 4).Draw(t, "kinds") {
			outline := figure(t)
			if i < 3 {
				a, b := coordinate(t, "along")/2, coordinate(t, "across")
				outline = ring(0, 0, a, 0, a, b, 0, b)
			}
			p.Pieces = append(p.Pieces, nest.Piece{
				Name: fmt.Sprint("piece ", i), Count: rapid.IntRange(1, 4).Draw(t, "copies"), Outline: outline,
				Turns: rapid.SampledFrom([][]float64{{0}, {0, 180}, {0, 90, 180, 270}, {90}}).Draw(t, "turns"),
			})
		}
		return p
	})
	raised := 0
	for seed := range often.Jobs(often.Full(6, 20), 60) {
		p := problems.Example(seed)
		if p.Check() != nil {
			continue // a piece that does not fit
		}
		r, err := nest.Solve(context.Background(), p, nest.Options{Effort: nest.Trial, Workers: 1})
		if err != nil {
			t.Fatal(err)
		}
		b := best(fromNest(p))
		if b.Length > r.Layout.Length {
			t.Errorf("problem %d: %s: bound %v mm, and a marker takes %v", seed, b.Kind, b.Length, r.Layout.Length)
		}
		if b.Kind == bound.Rectangles {
			raised++
		}
	}
	t.Logf("%d bounds by rectangles", raised)
}

// Two that would be side by side but for half the gap may lie corner to corner, and then come nearer to each other
// along the cloth than the gap: the judge lets them, and the bound does not ask for more.
func TestRectanglesCornerToCorner(t *testing.T) {
	const long, free, gap = 100.0, 2.0, 4.0
	near := plane.Ceil(math.Sqrt(gap*gap - free*free))
	p := nest.Problem{Strip: nest.Strip{Width: 100}, Gap: gap, Pieces: []nest.Piece{
		{Name: "wide", Count: 1, Outline: ring(0, 0, long, 0, long, 60, 0, 60)},
		{Name: "narrow", Count: 1, Outline: ring(0, 0, long, 0, long, 38, 0, 38)},
	}}
	l := nest.Layout{Length: 2*long + near, Placed: []nest.Placed{
		{Piece: 0}, {Piece: 1, At: orb.Point{long + near, 62}},
	}}
	if err := nest.Verify(p, l); err != nil {
		t.Fatal(err)
	}
	if b := best(fromNest(p)); b.Length > l.Length {
		t.Errorf("%s: %v mm, and a layout takes %v", b.Kind, b.Length, l.Length)
	}
}
