package nest

import (
	"context"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes/plane"
)

// walled draws a problem with strips as wide as the cloth, or nearly, among others.
func walled(t *rapid.T) Problem {
	p := Problem{Strip: Strip{Width: plane.Snap(rapid.Float64Range(80, 140).Draw(t, "width"))}}
	p.Gap = rapid.SampledFrom([]float64{0, 1.5, 3.3}).Draw(t, "gap")
	if rapid.IntRange(0, 3).Draw(t, "folded") == 0 {
		p.Strip.Folds = FoldBelow
	}
	turns := rapid.SampledFrom([][]float64{nil, {0}, {0, 180}, {90}, {0, 90}})
	shaped := rapid.Bool().Draw(t, "shaped")
	for n := range rapid.IntRange(1, 6).Draw(t, "kinds") {
		a, b := float64(rapid.IntRange(5, 50).Draw(t, "a")), float64(rapid.IntRange(8, 50).Draw(t, "b"))
		piece := Piece{Outline: rect(0, 0, a, b), Count: 2 * rapid.IntRange(1, 3).Draw(t, "pairs"),
			Turns: turns.Draw(t, "turns"), Mirror: rapid.SampledFrom([]Mirror{AsDrawn, Paired, Free}).Draw(t, "mirror")}
		across := rapid.SampledFrom([]float64{p.Strip.Width, p.Strip.Width - halfGap(p.Gap), p.Strip.Width - 4})
		switch {
		case rapid.Bool().Draw(t, "wide"): // and longer, maybe, so that it fits in some ways alone
			a *= rapid.SampledFrom([]float64{1, 1, 4}).Draw(t, "longer")
			piece.Outline, piece.Turns = rect(3, -2, 3+a, -2+across.Draw(t, "across")), turns.Draw(t, "ways")
		case shaped && n > 0:
			piece.Outline = ring(orb.Point{0, 0}, orb.Point{a, b / 3}, orb.Point{a, b}, orb.Point{a / 2, b / 2})
		}
		p.Pieces = append(p.Pieces, piece)
	}
	p.Pieces = rapid.Permutation(p.Pieces).Draw(t, "order")
	return p
}

// TestWallsTakenOut: a layout whose walls are taken out is one of the other pieces, and put before that they make one
// of all, no longer than it was. Rows in any order stand for all layouts.
func TestWallsTakenOut(t *testing.T) {
	some, narrower, behind := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p := walled(t)
		if p.Check() != nil {
			return
		}
		all := rows(t, p)
		if err := Verify(p, all); err != nil {
			t.Fatal(err)
		}
		s := newSearcher(p, nil)
		if s.walls == 0 {
			return
		}
		some++
		rest := s.withoutWalls(all)
		q, numbers := p, map[int]int{}
		q.Pieces = nil
		for i, piece := range p.Pieces {
			if slices.ContainsFunc(rest.Placed, func(pl Placed) bool { return pl.Piece == i }) {
				numbers[i] = len(q.Pieces)
				q.Pieces = append(q.Pieces, piece)
			} else if plane.Bounds(piece.Outline).Max[1]-plane.Bounds(piece.Outline).Min[1] < p.Strip.Width {
				narrower++
			}
		}
		alone := Layout{Length: rest.Length}
		for _, pl := range rest.Placed {
			pl.Piece = numbers[pl.Piece]
			alone.Placed = append(alone.Placed, pl)
		}
		if len(q.Pieces) > 0 {
			behind++
			if err := Verify(q, alone); err != nil {
				t.Fatalf("without walls: %v", err)
			}
		}
		back := Layout{Length: s.whole(rest.Length)}
		for n, pl := range s.order {
			if s.items[n] == wallItem {
				back.Placed = append(back.Placed, pl)
			}
		}
		for _, pl := range rest.Placed {
			pl.At[0] += s.walls
			back.Placed = append(back.Placed, pl)
		}
		if err := Verify(p, back); err != nil {
			t.Fatalf("with walls before the others: %v", err)
		}
		if back.Length > all.Length {
			t.Fatalf("%v mm with walls before the others, %v before", back.Length, all.Length)
		}
	})
	if some < often.Enough(30) || narrower < often.Enough(8) || behind < often.Enough(10) {
		t.Errorf("walls in %d problems, %d of them narrower than the cloth, other pieces behind in %d", some, narrower,
			behind)
	}
}

// TestWallsAreLaidFirst: what comes out is judged and lies above its bound, walls before everything else; from a
// layout that is given it never comes out longer.
func TestWallsAreLaidFirst(t *testing.T) {
	some := 0
	rapid.Check(t, func(t *rapid.T) {
		p := walled(t)
		if p.Check() != nil {
			return
		}
		o := Options{Effort: Trial, Work: 1 << 12, Seed: rapid.Uint64().Draw(t, "seed")}
		if rapid.Bool().Draw(t, "given") {
			given := rows(t, p)
			o.Start = &given
		} else {
			for i := range p.Pieces {
				p.Pieces[i].Alike = rapid.Bool().Draw(t, "alike")
			}
		}
		var last Progress
		o.Progress = func(now Progress) { last = now }
		r, err := Solve(context.Background(), p, o)
		if err != nil {
			t.Fatal(err)
		}
		if err := Verify(p, r.Layout); err != nil {
			t.Fatal(err)
		}
		if len(p.Pieces) <= 2 { // of more it takes a while
			if b := LowerBound(context.Background(), p); b.Length > r.Layout.Length {
				t.Fatalf("%v mm, the bound is %v", r.Layout.Length, b.Length)
			}
		}
		if o.Start != nil && r.Layout.Length > o.Start.Length {
			t.Fatalf("%v mm from one of %v", r.Layout.Length, o.Start.Length)
		}
		if r.Stats.FirstLength < r.Layout.Length-plane.Lattice || last.Length != 0 &&
			last.Length < r.Layout.Length-plane.Lattice {
			t.Fatalf("%v mm, first layout %v, last seen %v", r.Layout.Length, r.Stats.FirstLength, last.Length)
		}
		if last.Laid > last.Pieces {
			t.Fatalf("%d of %d pieces are laid", last.Laid, last.Pieces)
		}
		s := newSearcher(p, p.grainsOf(r.Layout))
		if s.walls == 0 {
			return
		}
		some++
		for n, pl := range s.order {
			first := slices.IndexFunc(r.Layout.Placed, func(l Placed) bool { return l.Piece == pl.Piece && l.Copy == pl.Copy })
			from := plane.Bounds(p.Outline(r.Layout.Placed[first])).Min[0]
			if s.items[n] != wallItem && from < s.walls {
				t.Fatalf("copy %d of piece %d begins at %v, before walls of %v mm", pl.Copy, pl.Piece, from, s.walls)
			}
		}
	})
	if some < often.Enough(30) {
		t.Errorf("walls in %d problems", some)
	}
}

// TestWallsWithinALimit: on a strip that ends too soon for all, an error names what is needed and there; on one that
// just holds them they lie on it.
func TestWallsWithinALimit(t *testing.T) {
	p := Problem{Strip: Strip{Width: 100}, Gap: 2, Pieces: []Piece{
		{Name: "band", Outline: rect(0, 0, 30, 100), Count: 3}, {Name: "cuff", Outline: rect(0, 0, 20, 40), Count: 2},
	}}
	for _, c := range []struct {
		most float64
		fits bool
	}{{0, true}, {116, true}, {115.5, false}, {97, false}, {96, false}, {90, false}} {
		p.Strip.MaxLength = c.most
		r, err := Solve(context.Background(), p, Options{Effort: Trial, Work: 1 << 12})
		switch {
		case (err == nil) != c.fits:
			t.Errorf("on %v mm: %v", c.most, err)
		case c.fits && r.Layout.Length != 116:
			t.Errorf("on %v mm: %v mm long, 3 x 30 and 20 with gaps of 2 take 116", c.most, r.Layout.Length)
		}
	}
	p.Pieces, p.Strip.MaxLength = p.Pieces[:1], 94
	r, err := Solve(context.Background(), p, Options{Effort: Trial, Work: 1 << 12})
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(94.0, r.Layout.Length); d != "" {
		t.Errorf("walls alone: %s", d)
	}
	if err := Verify(p, r.Layout); err != nil {
		t.Error(err)
	}
}
