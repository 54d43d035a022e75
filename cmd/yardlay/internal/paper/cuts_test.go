package paper

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/say"
)

// Two patterns that reach into what their sheet shares with the next do not share it: each has sheets of its own, which
// are not joined to those of the other.
func TestPatternsOnSheetsOfTheirOwn(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	for _, search := range []bool{true, false} {
		if !search {
			cancel() // they lie apart
		}
		all := []Pattern{ringPattern("front", sheet.Box(0, 0, 186, 270), 2)}
		made, err := tiledOn(a4).Pieces(ctx, all)
		if err != nil || made.Sheets != 2 {
			t.Fatalf("%d sheets: %v", made.Sheets, err)
		}
		laid, _, err := a4.onSheets(ctx, all)
		if err != nil {
			t.Fatal(err)
		}
		rings := laid.rings(all)
		if err := apartAll(rings); err != nil {
			t.Error(err)
		}
		a, b := rings[0].Bound(), rings[1].Bound()
		if dx, dy := max(a.Min[0]-b.Max[0], b.Min[0]-a.Max[0]), max(a.Min[1]-b.Max[1], b.Min[1]-a.Max[1]); max(dx, dy) < 6 {
			t.Errorf("they lie %.1f mm apart", max(dx, dy))
		}
		for _, one := range laidOnTable(t, a4, made) {
			for _, it := range one.page.Views[len(one.page.Views)-1].Drawing.Groups[0].Items {
				if it.(sheet.Line).Role == sheet.RoleJoin {
					t.Errorf("%s is joined to another", one.page.Bookmark)
				}
			}
		}
	}
}

// A segment meets a box where a slow walk along it comes inside.
func TestSegmentsThatCrossABox(t *testing.T) {
	box := orb.Bound{Min: orb.Point{10, 20}, Max: orb.Point{40, 30}}
	rapid.Check(t, func(t *rapid.T) {
		point := func(name string) orb.Point {
			x, y := rapid.IntRange(0, 50).Draw(t, name+" x"), rapid.IntRange(10, 40).Draw(t, name+" y")
			return orb.Point{float64(x), float64(y)}
		}
		a, b := point("from"), point("to")
		slow := false
		for k := range 2001 {
			f := float64(k) / 2000
			slow = slow || box.Contains(orb.Point{a[0] + f*(b[0]-a[0]), a[1] + f*(b[1]-a[1])})
		}
		got := crosses(a, b, box)
		if slow && !got || !slow && crosses(a, b, box.Pad(-0.05)) { // the walk steps over less
			t.Fatalf("%v to %v: %v, walked %v", a, b, got, slow)
		}
	})
}

// A fine stretch holds the places that are said to be in it: those in even ones are shown by two sheets, those in odd
// ones by one.
func TestFineStretchesPartTheAxis(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step, overlap := rapid.Float64Range(80, 400).Draw(t, "step"), rapid.Float64Range(0, 40).Draw(t, "overlap")
		x := rapid.Float64Range(0, 3000).Draw(t, "place")
		if rapid.Bool().Draw(t, "near where two meet") {
			x = float64(rapid.IntRange(0, 7).Draw(t, "meet"))*step + rapid.Float64Range(-1, 1).Draw(t, "off")*overlap
			x = max(x, 0)
		}
		n := partAt(x, step, overlap)
		from, to := stretch(n, step, overlap)
		if x < from-1e-9 || x > to+1e-9 {
			t.Fatalf("%v is not between %v and %v", x, from, to)
		}
		shows := 0
		for i := -1; float64(i)*step < x+step; i++ { // windows of sheets in a row
			if x >= float64(i)*step-overlap/2 && x <= float64(i+1)*step+overlap/2 {
				shows++
			}
		}
		if shows != len(sheetsOf(n)) && math.Min(x-from, to-x) > 1e-9 {
			t.Fatalf("%v in stretch %d is shown by %d sheets, not by %v", x, n, shows, sheetsOf(n))
		}
	})
}

// Sheets just within each limit are taken; just beyond it they are refused, with what would do.
func TestLimitsOfSheets(t *testing.T) {
	const most = 14400 * 25.4 / 72
	const page, square, margin, overlap = "at most each way", "the test square needs", "from 0 to 60mm", "trim and butt"
	of := func(width, height, margin, overlap float64) Sheets {
		return Sheets{Width: width, Height: height, Margin: margin, Overlap: overlap}
	}
	for name, c := range map[string]struct {
		good, bad Sheets
		want      string
	}{
		"wide":         {of(most, 300, 0, 0), of(most+1, 300, 0, 0), page},
		"high":         {of(300, most, 0, 0), of(300, most+1, 0, 0), page},
		"no width":     {of(102, 300, 0, 0), of(0, 300, 0, 0), page},
		"narrow":       {of(122, 300, 10, 0), of(121.9, 300, 10, 0), square},
		"low":          {of(300, 102, 0, 0), of(300, 101.9, 0, 0), square},
		"margin":       {of(300, 300, 60, 0), of(300, 300, 60.5, 0), margin},
		"no margin":    {of(300, 300, 0, 0), of(300, 300, -0.1, 0), margin},
		"less overlap": {of(300, 300, 0, 6), of(300, 300, 0, 5.9), overlap},
		"more overlap": {of(300, 300, 0, 40), of(300, 300, 0, 40.1), overlap},
	} {
		if err := c.good.Check(); err != nil {
			t.Errorf("%s, within: %v", name, err)
		}
		if err := c.bad.Check(); err == nil {
			t.Errorf("%s, beyond: taken", name)
		} else if _, hint := say.Parts(err, nil); !strings.Contains(hint, c.want) {
			t.Errorf("%s, beyond: the hint is %q", name, hint)
		}
	}
	w, h := a4.room()
	patches := func(side float64, copies int) []Pattern {
		return []Pattern{ringPattern("patch", sheet.Box(0, 0, side, side), copies)}
	}
	if a4.bearable(patches(1, maxCopies)) != nil || a4.bearable(patches(1, maxCopies+1)) == nil {
		t.Error("copies are not counted")
	}
	side := math.Floor(math.Sqrt(w * h)) // nearly a sheet
	if a4.bearable(patches(side, maxSheets)) != nil || a4.bearable(patches(side, maxSheets+20)) == nil {
		t.Error("areas are not added up")
	}
}

// The narrowest strip that is tried is one that every pattern fits on, and no wider; fewer widths are tried for more
// outlines.
func TestTheNarrowestStripThatHoldsAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.Custom(anySheets).Filter(func(s Sheets) bool { return s.Check() == nil }).Draw(t, "sheets")
		long, wide := rapid.Float64Range(20, 3000).Draw(t, "long"), rapid.Float64Range(20, 3000).Draw(t, "wide")
		p := ringPattern("panel", sheet.Box(0, 0, long, wide), 1)
		need := math.Min(long, wide) + 1 // with the room along its edges
		sx, sy := s.step()
		for _, w := range s.ways([]Pattern{p}, 9) {
			step := sy
			if w.upright {
				step = sx
			}
			if float64(w.least)*step+s.Overlap < need-0.1 || w.least > 1 && float64(w.least-1)*step+s.Overlap > need+0.1 {
				t.Fatalf("%d sheets of %v sharing %v hold %v", w.least, step, s.Overlap, need)
			}
			if w.wide < w.least || w.wide >= w.least+mostBoxWays {
				t.Fatalf("%d sheets wide, %d at the least", w.wide, w.least)
			}
		}
	})
	for distinct, want := range map[int]int{0: 4, 1: 4, 18: 4, 19: 3, 25: 2, 36: 1, 40: 1} {
		if got := waysFor(distinct, effort, mostWays); got != want {
			t.Errorf("%d widths for %d outlines, not %d", got, distinct, want)
		}
	}
}

// Of a strip those patterns are taken that end within a length, and what is taken is as long as the last of them; of
// many, as few as cover an area, in order.
func TestWhatIsTakenOfAStrip(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	all := []Pattern{ringPattern("a", sheet.Box(0, 0, 300, 200), 3), ringPattern("b", sheet.Box(0, 0, 100, 80), 2),
		ringPattern("c", sheet.Box(0, 0, 100, 80), 1)}
	l, err := lay(ctx, all, []int{3, 2, 1}, 420, 1)
	if err != nil {
		t.Fatal(err)
	}
	if got := l.copies(3); !slices.Equal(got, []int{3, 2, 1}) {
		t.Fatalf("%v are laid", got)
	}
	for _, length := range []float64{0, 150, 320, 500, l.layout.Length, 2000} {
		part := l.within(length)
		want, far := 0, 0.0
		for _, b := range l.bounds() {
			if b.Max[0]-lineRoom <= length {
				want, far = want+1, math.Max(far, b.Max[0]-lineRoom)
			}
		}
		if len(part.layout.Placed) != want || part.layout.Length != far {
			t.Errorf("within %v lie %d, as long as %v, not %d and %v", length, len(part.layout.Placed), part.layout.Length,
				want, far)
		}
	}
	for area, want := range map[float64][]int{0: {0, 0, 0}, 1: {1, 0, 0}, 60_000: {1, 0, 0}, 60_001: {2, 0, 0},
		180_000: {3, 0, 0}, 180_001: {3, 1, 0}, 196_001: {3, 2, 1}, 1e9: {3, 2, 1}} {
		if got := taken(all, []int{3, 2, 1}, area); !slices.Equal(got, want) {
			t.Errorf("of %v mm² %v are taken, not %v", area, got, want)
		}
	}
}

// A strip of so many sheets lies along their rows or down their columns: what is laid on it lies on these sheets, and
// what is just as wide as they are together still fits.
func TestStripsLieAlongSheets(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	sx, sy := a4.step()
	const shared = 5.0 // beyond the outer cells
	for wide := 1; wide <= 3; wide++ {
		for _, upright := range []bool{false, true} {
			step := sy
			if upright {
				step = sx
			}
			most := float64(wide)*step + 2*shared - 1 // without the room for lines
			all := []Pattern{ringPattern("widest", sheet.Box(0, 0, 3000, most-2), 1),
				ringPattern("small", sheet.Box(0, 0, 50, 30), 2)}
			made, err := way{a4, wide, 1, upright}.lay(ctx, all, 1)
			if err != nil {
				t.Fatalf("%d sheets hold no pattern of %v: %v", wide, most, err)
			}
			rings := made.rings(all)
			if err := apartAll(rings); err != nil {
				t.Error(err)
			}
			for _, ring := range rings {
				b := ring.Bound()
				along, across := 0, 1
				if upright {
					along, across = 1, 0
				}
				if b.Min[along] < -shared || b.Min[across] < -shared || b.Max[across] > float64(wide)*step+shared {
					t.Errorf("%d wide, upright %v: a pattern lies at %v", wide, upright, b)
				}
			}
			if rows := made.grid.rows; !upright && rows != wide || upright && made.grid.cols != wide {
				t.Errorf("%d wide, upright %v: %d by %d sheets", wide, upright, made.grid.cols, rows)
			}
			wider := []Pattern{ringPattern("wider", sheet.Box(0, 0, 3000, most+1), 1)}
			if _, err := (way{a4, wide, 1, upright}).lay(ctx, wider, 1); err == nil {
				t.Errorf("%d sheets hold a pattern of %v", wide, most+1)
			}
		}
	}
}
