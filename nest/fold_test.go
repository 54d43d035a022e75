package nest

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes/plane"
)

var lays = []Lay{Open, LengthwiseFold, CrosswiseFold, CrosswiseTurned, DoubleFold}

// TestFoldedLaysUnfold: whatever is folded and laid, cutting it gives every copy
// of the open problem, by a layout of the open cloth that the judge accepts.
func TestFoldedLaysUnfold(t *testing.T) {
	laid, behind := map[Lay]int{}, 0
	rapid.Check(t, func(t *rapid.T) {
		lay := rapid.SampledFrom(lays).Draw(t, "lay")
		p := foldable(t, lay)
		stretches, err := Fold(p, lay, rapid.SampledFrom([]float64{0, 3.3, 10}).Draw(t, "selvedge"))
		if err != nil {
			return
		}
		var layouts []Layout
		for _, s := range stretches {
			if err := s.Problem.Check(); err != nil {
				t.Fatalf("%v: %v", s.Lay, err)
			}
			l := rows(t, s.Problem)
			if most := s.Problem.Strip.MaxLength; most > 0 && l.Length > most {
				return
			}
			if err := Verify(s.Problem, l); err != nil {
				t.Fatalf("%v: %v", s.Lay, err)
			}
			layouts = append(layouts, l)
		}
		opened := Unfold(p, stretches, layouts)
		if len(stretches) > 1 && p.Strip.MaxLength > 0 && opened.Length > p.Strip.MaxLength {
			return // each fits alone
		}
		if err := Verify(p, opened); err != nil {
			t.Fatalf("unfolded from a %v: %v", lay, err)
		}
		laid[lay]++
		if len(stretches) > 1 {
			behind++
		} else if most := stretches[0].Cloth(layouts[0].Length); opened.Length > most {
			t.Fatalf("unfolded %v mm long, the stretch takes %v", opened.Length, most)
		}
	})
	t.Logf("laid %v, %d with an open stretch behind", laid, behind)
	for _, lay := range lays {
		if !t.Failed() && laid[lay] < often.Enough(1) {
			t.Errorf("%d problems laid on a %v: not worth the name of a test", laid[lay], lay)
		}
	}
}

// TestMovedOffAFoldedLay: a piece of a sound folded marker, moved a little
// against one rule, breaks that rule.
func TestMovedOffAFoldedLay(t *testing.T) {
	const one = plane.Lattice
	broke := map[Rule]int{}
	rapid.Check(t, func(t *rapid.T) {
		lay := rapid.SampledFrom([]Lay{LengthwiseFold, DoubleFold}).Draw(t, "lay")
		p := foldable(t, lay)
		p.Strip.Forbidden, p.Strip.MaxLength = nil, 0
		stretches, err := Fold(p, lay, 5)
		if err != nil {
			return
		}
		q := stretches[0].Problem
		sound := rows(t, q)
		spoil := func(n int, want Rule, dx, dy float64) {
			l := sound
			l.Placed = slices.Clone(sound.Placed)
			l.Placed[n].At[0] += dx
			l.Placed[n].At[1] += dy
			var broken *Broken
			if err := Verify(q, l); !errors.As(err, &broken) || broken.Rule != want {
				t.Fatalf("piece %d moved by (%v, %v): got %v, want %q", n, dx, dy, err, want)
			}
			broke[want]++
		}
		for n, pl := range sound.Placed {
			box := plane.Bounds(q.Outline(pl))
			up := box.Min[1] >= q.Strip.Width/2
			switch {
			case q.Pieces[pl.Piece].OnFold && up && lay == DoubleFold:
				spoil(n, OffFold, 0, -one)
			case q.Pieces[pl.Piece].OnFold && box.Max[1] < q.Strip.Width:
				spoil(n, OffFold, 0, one)
			case !q.Pieces[pl.Piece].OnFold && q.Gap > 0:
				spoil(n, NearFold, 0, plane.Snap(q.Gap/2)-2*one-box.Min[1])
			}
			if q.Strip.Folds == FoldBoth && !q.Pieces[pl.Piece].OnFold {
				spoil(n, OverMiddle, 0, plane.Snap(q.Strip.Width/2-q.Strip.Middle)+2*one-box.Max[1])
				spoil(n, OverMiddle, 0, plane.Snap(q.Strip.Width/2+q.Strip.Middle)-2*one-box.Min[1])
			}
			if q.Pieces[pl.Piece].Match != nil && q.Strip.Repeat.Along > 0 && shared(q, pl) > 1 {
				spoil(n, OffRepeat, 3*one, 0)
			}
		}
	})
	t.Logf("broken %v", broke)
	for _, rule := range []Rule{OffFold, NearFold, OverMiddle, OffRepeat} {
		if !t.Failed() && broke[rule] < often.Enough(10) {
			t.Errorf("%q broken %d times: not worth the name of a test", rule, broke[rule])
		}
	}
}

// shared counts the copies that lie on one phase with a placed one.
func shared(p Problem, of Placed) int {
	n := 0
	for _, piece := range p.Pieces {
		for k := range piece.Count {
			if piece.Match != nil && piece.Match.group(k) == p.Pieces[of.Piece].Match.group(of.Copy) {
				n++
			}
		}
	}
	return n
}

// bodice is a small gown on 1400 mm: a front that may lie on the fold, left and
// right sides, two bands, one loop.
func bodice() Problem {
	half := ring(orb.Point{0, 0}, orb.Point{500, 0}, orb.Point{500, 300}, orb.Point{0, 200})
	return Problem{
		Strip: Strip{Width: 1400},
		Pieces: []Piece{
			{Name: "front", Outline: shifted(plane.Unfold(half, 0), 0, 300), Half: half, Count: 1},
			{Name: "side", Outline: ring(orb.Point{0, 0}, orb.Point{400, 0}, orb.Point{400, 300}, orb.Point{0, 150}),
				Count: 4, Mirror: Paired},
			{Name: "band", Outline: rect(0, 0, 700, 100), Count: 2},
			{Name: "loop", Outline: rect(0, 0, 100, 40), Count: 1},
		},
	}
}

// TestFoldSharesOut: which piece goes where, how often.
func TestFoldSharesOut(t *testing.T) {
	type cut struct {
		Name   string
		Count  int
		OnFold bool
	}
	cuts := func(s Stretch) (out []cut) {
		for _, piece := range s.Problem.Pieces {
			out = append(out, cut{piece.Name, piece.Count, piece.OnFold})
		}
		return out
	}
	twoWay := bodice()
	for i := range twoWay.Pieces {
		twoWay.Pieces[i].Turns = []float64{0, 180}
	}
	onFold := []cut{{"front", 1, true}, {"side", 2, false}, {"band", 1, false}}
	across := []cut{{"side", 2, false}, {"band", 1, false}}
	for _, c := range []struct {
		lay    Lay
		p      Problem
		strip  Strip
		folded []cut
		rest   []cut
	}{
		{LengthwiseFold, bodice(), Strip{Width: 700, Folds: FoldBelow}, onFold, []cut{{"loop", 1, false}}},
		{DoubleFold, bodice(), Strip{Width: 710, Folds: FoldBoth, Middle: 10}, onFold, []cut{{"loop", 1, false}}},
		{CrosswiseTurned, bodice(), Strip{Width: 1400}, across, []cut{{"front", 1, false}, {"loop", 1, false}}},
		{CrosswiseFold, twoWay, Strip{Width: 1400}, across, []cut{{"front", 1, false}, {"loop", 1, false}}},
	} {
		got, err := Fold(c.p, c.lay, 10)
		if err != nil || len(got) != 2 {
			t.Fatalf("%v: %d stretches, %v", c.lay, len(got), err)
		}
		if diff := cmp.Diff(c.strip, got[0].Problem.Strip); diff != "" {
			t.Errorf("%v: strip\n%s", c.lay, diff)
		}
		if diff := cmp.Diff([][]cut{c.folded, c.rest}, [][]cut{cuts(got[0]), cuts(got[1])}); diff != "" {
			t.Errorf("%v:\n%s", c.lay, diff)
		}
		if got[0].Lay != c.lay || got[1].Lay != Open || got[1].Layers() != 1 ||
			(got[0].Layers() == 2) != (c.lay == CrosswiseFold || c.lay == CrosswiseTurned) {
			t.Errorf("%v: lays %v and %v", c.lay, got[0].Lay, got[1].Lay)
		}
	}
}

// TestFoldRefuses: what cannot lie on a lay is refused by name, with what helps.
func TestFoldRefuses(t *testing.T) {
	for _, c := range []struct {
		name  string
		lay   Lay
		spoil func(*Problem)
		says  []string
	}{
		{"nap across", CrosswiseFold, func(p *Problem) {}, []string{`"side"`, "180 degrees", "turn the upper layer"}},
		{"repeat across", LengthwiseFold, func(p *Problem) { p.Strip.Repeat.Across = 90 },
			[]string{"repeat across", "open"}},
		{"repeat on a double fold", DoubleFold, func(p *Problem) { p.Strip.Repeat.Across = 90 },
			[]string{"repeat across", "open"}},
		{"repeat along, folded across", CrosswiseTurned, func(p *Problem) { p.Strip.Repeat.Along = 90 },
			[]string{"repeat", "open"}},
		{"flaw on a double fold", DoubleFold, func(p *Problem) { p.Strip.Forbidden = []orb.Ring{rect(0, 0, 9, 9)} },
			[]string{"flaws", "cut the flaws out"}},
		{"flaw and a piece left over", LengthwiseFold,
			func(p *Problem) { p.Strip.Forbidden = []orb.Ring{rect(0, 0, 9, 9)} },
			[]string{`"loop" is cut once`, "open", "flaws"}},
		{"just fits, half a gap from the fold", LengthwiseFold,
			func(p *Problem) { p.Strip.Width = 630; p.Pieces = p.Pieces[1:2]; p.Gap = 30 }, nil},
		{"half a gap too wide", LengthwiseFold,
			func(p *Problem) { p.Strip.Width = 628; p.Pieces = p.Pieces[1:2]; p.Gap = 30 },
			[]string{`"side" takes 300 mm across`, "room for 299 mm"}},
		{"too wide", LengthwiseFold, func(p *Problem) { p.Strip.Width = 590; p.Pieces = p.Pieces[1:2] },
			[]string{`"side" takes 300 mm across`, "room for 295 mm", "open"}},
		{"alone", DoubleFold, func(p *Problem) { p.Pieces = p.Pieces[3:] }, []string{`"loop" is cut once`}},
		{"one way up", LengthwiseFold, func(p *Problem) { p.Pieces = p.Pieces[1:2]; p.Pieces[0].Mirror = AsDrawn },
			[]string{`"side"`, "mirror image"}},
		{"unknown", 9, func(p *Problem) {}, []string{"lay 9"}},
		{"unsound", LengthwiseFold, func(p *Problem) { p.Pieces[0].Half = rect(0, 0, 500, 300) },
			[]string{`"front": half`, "not the outline"}},
	} {
		p := bodice()
		c.spoil(&p)
		_, err := Fold(p, c.lay, 0)
		if c.says == nil {
			if err != nil {
				t.Errorf("%s: %v", c.name, err)
			}
			continue
		}
		if err == nil {
			t.Errorf("%s: accepted", c.name)
			continue
		}
		for _, part := range c.says {
			if !strings.Contains(err.Error(), part) {
				t.Errorf("%s: %q lacks %q", c.name, err, part)
			}
		}
	}
}

// A lay that cannot be spread says what is in the way in few words as well, and
// carries what would help and the sizes of a piece that is too large.
func TestLayErrorsAreBrief(t *testing.T) {
	wide := Problem{Strip: Strip{Width: 100},
		Pieces: []Piece{{Name: "panel", Outline: rect(0, 0, 30, 60), Count: 2, Mirror: Free, Turns: []float64{0}}}}
	once := wide
	once.Pieces = []Piece{{Name: "panel", Outline: rect(0, 0, 30, 20), Count: 1, Turns: []float64{0}}}
	patterned := wide
	patterned.Strip.Repeat.Along = 10
	flawed := wide
	flawed.Strip.Forbidden = []orb.Ring{rect(0, 0, 9, 9)}
	for _, c := range []struct {
		p     Problem
		lay   Lay
		brief string
		size  bool
		help  Remedy
	}{
		{wide, LengthwiseFold, "nothing can be cut double", true, LayOpen},
		{once, LengthwiseFold, "nothing can be cut double", false, LayOpen},
		{wide, CrosswiseFold, "the nap of the upper layer would run the other way", false, TurnUpperOrLayOpen},
		{patterned, CrosswiseTurned, "the repeat of the two layers does not meet", false, LayOpen},
		{flawed, DoubleFold, "flaws cannot be kept clear of on this fold", false, LayOpenOrCutOut},
	} {
		_, err := Fold(c.p, c.lay, 0)
		var refused *LayError
		if !errors.As(err, &refused) {
			t.Errorf("%v: %v", c.lay, err)
			continue
		}
		if refused.Brief != c.brief || refused.Lay != c.lay || refused.Remedy != c.help ||
			(refused.Size != nil) != c.size {
			t.Errorf("%v: %+v", c.lay, refused)
		}
		if c.size && (refused.Size.Across != 60 || refused.Size.Width != 50) {
			t.Errorf("sizes are %+v", refused.Size)
		}
	}
}
