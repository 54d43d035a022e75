package bound_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"yardlay/benchmarks/often"
	"yardlay/nest/bound"
	"yardlay/shapes/plane"
)

func twelveStraightGores() bound.Problem {
	return bound.Problem{Width: 55 * inch, Pieces: []bound.Piece{turned("gore", 12, straightGore(), 0, 180)}}
}

// Twelve straight-sided gores on 55 in, two-way: head to tail a row of n takes
// n(5+12)/2 + (12-5)/2 in across, six take 54.5, so two rows, 80 in, are enough;
// and on any shorter cloth a line along it cannot hold two pieces where both are
// 40 in long, that is on 5 in of each: 12*5 = 60 in of such lines are needed.
func TestTwelveStraightGores(t *testing.T) {
	p := twelveStraightGores()
	b := best(p)
	if b.Length != 80*inch {
		t.Errorf("bound %v in by %s, want 80", b.Length/inch, b.Kind)
	}
	check(t, p, b)
}

// Eight gores of 45 degrees on 58 in. The layouts are the shortest found by long
// searches: no bound may pass them.
func TestEightCircleGores(t *testing.T) {
	for _, tc := range []struct {
		name                string
		turns               []float64
		atLeast, best, area float64 // in
	}{
		{"along two-way", []float64{0, 180}, 138.0, 143.97, 95.1},
		{"along one-way", []float64{0}, 165.4, 165.74, 95.1},
		{"across two-way", []float64{90, 270}, 129.6, 129.76, 95.1},
		{"across one-way", []float64{90}, 198.7, math.Inf(1), 95.1},
	} {
		p := bound.Problem{Width: 58 * inch, Pieces: []bound.Piece{turned("gore", 8, circleGore(), tc.turns...)}}
		began := time.Now()
		all := lower(p)
		t.Logf("%s: %.3f in by %s, %v", tc.name, all[0].Length/inch, all[0].Kind,
			time.Since(began).Round(time.Millisecond))
		if got := all[0].Length / inch; got < tc.atLeast || got > tc.best {
			t.Errorf("%s: bound %.3f in, want at least %v and at most %v", tc.name, got, tc.atLeast, tc.best)
		}
		for _, b := range all {
			if b.Kind == bound.Area && math.Abs(b.Length/inch-tc.area) > 0.05 {
				t.Errorf("%s: area bound %.3f in, want %v", tc.name, b.Length/inch, tc.area)
			}
			check(t, p, b)
		}
	}
}

// dighe1 is a jigsaw that fills its strip of 100 by 100 (Dighe & Jakiela 1996).
func TestJigsawByArea(t *testing.T) {
	in := readInstance(t, "dighe1")
	if got := best(fromNest(in.Problem)); got.Length != 100*in.Scale || got.Kind != bound.Area {
		t.Errorf("dighe1: bound %v by %s, want 100 by area", got.Length/in.Scale, got.Kind)
	}
}

// Sixteen strips across the whole cloth, 1/8 in between them, can only lie one
// behind another: sixteen heights and fifteen gaps, each whole steps of the
// lattice.
func TestStripsWithGaps(t *testing.T) {
	for _, turns := range [][]float64{{0}, {0, 180}} {
		const high, gap = 4 * inch, 3251 * plane.Lattice // 1/8 in, on the lattice
		p := bound.Problem{Width: 54 * inch, Gap: gap, Pieces: []bound.Piece{
			turned("strip", 16, plane.SnapRing(ring(0, 0, high, 0, high, 54*inch, 0, 54*inch)), turns...),
		}}
		width := plane.Snap(high)
		p.Width = plane.Bounds(p.Pieces[0].Ways[0]).Max[1]
		want := 16*width + 15*gap
		if got := best(p); got.Length != want {
			t.Errorf("bound %v mm by %s, want %v", got.Length, got.Kind, want)
		}
	}
}

// Two triangles that fill a square but for a diagonal gap: on every line the gap
// runs aslant, and counts by more than its width.
func TestGapAslant(t *testing.T) {
	p := bound.Problem{Width: 100, Gap: 10, Pieces: []bound.Piece{
		{Name: "right", Count: 1, Ways: nil}, {Name: "left", Count: 1},
	}}
	p.Pieces[0].Ways = append(p.Pieces[0].Ways, ring(0, 0, 100, 0, 100, 100))
	p.Pieces[1].Ways = append(p.Pieces[1].Ways, ring(0, 0, 100, 100, 0, 100))
	if got, want := best(p).Length, 100+10*math.Sqrt2; got > want+plane.Lattice || got < want-0.2 {
		t.Errorf("bound %v mm, want just under %v", got, want)
	}
}

// A flaw right across the cloth from 60 to 70 mm leaves room for one panel of 50
// before it.
func TestForbiddenZone(t *testing.T) {
	p := bound.Problem{Width: 100, Pieces: []bound.Piece{turned("panel", 3, ring(0, 0, 50, 0, 50, 100, 0, 100), 0)}}
	p.Forbidden = append(p.Forbidden, ring(60, -5, 70, -5, 70, 105, 60, 105))
	for _, gap := range []float64{0, 2} {
		p.Gap = gap
		if got := best(p); got.Length > 170 || got.Length < 169.9 {
			t.Errorf("gap %v: bound %v mm by %s, want just under 170", gap, got.Length, got.Kind)
		}
	}
}

// Every reason is a sentence with the pieces' names and with lengths in the unit
// asked for, where it has any.
func TestReasons(t *testing.T) {
	inches := func(mm float64) string { return fmt.Sprintf("%.4g in", mm/inch) }
	seen := make(map[bound.Kind]string)
	for _, p := range []bound.Problem{
		{Width: 58 * inch, Pieces: []bound.Piece{turned("gore", 8, circleGore(), 0, 180)}},
		twelveStraightGores(),
		{Width: 110 * inch, Pieces: []bound.Piece{turned("gore", 12, circleGore(), 0)}},
		{Width: 30 * inch, Pieces: []bound.Piece{turned("gore", 3, ring(0, 0, 16*inch, 0, 16*inch, 10*inch, 0, 10*inch),
			0)}},
	} {
		for _, b := range lower(p) {
			seen[b.Kind] = b.Reason(inches)
		}
	}
	for kind, want := range map[bound.Kind]string{
		bound.Area:         "the pieces alone cover 16 in of the cloth, with nothing left between them",
		bound.LongestPiece: "gore is 16 in long along the cloth whichever way it may lie",
		bound.Row: "gore crosses the line 29 in from the edge wherever laid: such pieces follow each other " +
			"in one row, and no order makes that row shorter",
		bound.Column: "on a shorter cloth a line across runs through gore, and side by side they are wider than the " +
			"cloth",
	} {
		if seen[kind] != want {
			t.Errorf("%s: %q, want %q", kind, seen[kind], want)
		}
	}
	for kind, part := range map[bound.Kind]string{
		bound.Prices: "the scarce part of the cloth is from ",
		bound.OneWay: "gore all point one way and leave cloth idle between them",
	} {
		if !strings.Contains(seen[kind], part) {
			t.Errorf("%s: %q lacks %q", kind, seen[kind], part)
		}
	}
}

// gown is a cloth of 21 pieces: a skirt of eight gores, a bodice in left and right
// panels, sleeves, a waistband and facings.
func gown() bound.Problem {
	p := bound.Problem{Width: 57 * inch, Gap: inch / 8, Pieces: []bound.Piece{turned("gore", 8, circleGore(), 0, 180)}}
	panel := func(name string, count int, xy ...float64) {
		outline := ring(xy...)
		for i := range outline {
			outline[i][0], outline[i][1] = outline[i][0]*inch, outline[i][1]*inch
		}
		mirrored := turned(name, count, plane.Pose{Mirrored: true}.Apply(outline), 0, 180)
		p.Pieces = append(p.Pieces, turned(name, count, outline, 0, 180), mirrored)
	}
	panel("front", 1, 0, 0, 16, 0, 17, 7, 9, 9, 0, 8)
	panel("side front", 1, 0, 0, 15, 1, 12, 5, 8, 6, 0, 4)
	panel("back", 1, 0, 0, 14, 0, 15, 6, 8, 8, 0, 7)
	panel("side back", 1, 0, 0, 13, 1, 11, 5, 7, 6, 0, 4)
	panel("sleeve", 1, 0, 0, 20, 2, 24, 8, 20, 14, 0, 12)
	p.Pieces = append(p.Pieces, turned("waistband", 1, ring(0, 0, 31*inch, 0, 31*inch, 3*inch, 0, 3*inch), 0, 180))
	p.Pieces = append(p.Pieces, turned("facing", 2, ring(0, 0, 14*inch, 0, 14*inch, 3*inch, 0, 3*inch), 0, 180))
	return p
}

// Budget: a cloth of a gown takes 0.3 s, the 99 pieces of shirts 0.3 s too. The work that
// this is, counted, grows by a tenth at the most.
func TestBudget(t *testing.T) {
	type allowance struct {
		name    string
		problem bound.Problem
		allowed int // terms and steps
	}
	all := []allowance{
		{"gown", gown(), 20_600_000},
		{"shirts", fromNest(readInstance(t, "shirts").Problem), 4_370_000},
	}
	for _, tc := range often.Full(all[:1], all) {
		if work := bound.Work(tc.problem); work > tc.allowed {
			t.Errorf("%s takes %d terms and steps, %d are allowed", tc.name, work, tc.allowed)
		}
	}
}

func BenchmarkGown(b *testing.B) {
	p := gown()
	for b.Loop() {
		bound.Lower(b.Context(), p)
	}
}

func BenchmarkShirts(b *testing.B) {
	p := fromNest(readInstance(b, "shirts").Problem)
	for b.Loop() {
		bound.Lower(b.Context(), p)
	}
}

// The same problem gives the same bounds, and a cancelled context at least area
// and the longest piece.
func TestRepeatableAndCancelled(t *testing.T) {
	p := often.Full(twelveStraightGores(), gown())
	ctx, cancel := context.WithCancel(context.Background())
	one, two := lower(p), bound.Lower(ctx, p)
	if diff := cmp.Diff(one, two); diff != "" {
		t.Errorf("another call, other bounds:\n%s", diff)
	}
	cancel()
	short := bound.Lower(ctx, p)
	if len(short) != 2 || short[0].Kind != bound.Area || short[1].Kind != bound.LongestPiece {
		t.Errorf("cancelled: %v", short)
	}
}

// Problems without a piece, or with one that fits in no way, have no marker, and
// bounds that say little.
func TestNothingToLay(t *testing.T) {
	for _, p := range []bound.Problem{
		{Width: 100},
		{Width: 100, Pieces: []bound.Piece{turned("wide", 2, ring(0, 0, 50, 0, 50, 101, 0, 101), 0)}},
		{Width: 100, MaxLength: 40, Pieces: []bound.Piece{turned("long", 1, ring(0, 0, 50, 0, 50, 10, 0, 10), 0)}},
	} {
		if got := bound.Lower(context.Background(), p); len(got) < 2 {
			t.Errorf("%v: %v", p, got)
		}
	}
}
