package paper

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/plane"
)

// onTable is a page laid where its name says: it takes points of the page to the table, mm to the right and down from
// the first cross, by the sizes of paper alone.
type onTable struct {
	page     sheet.Page
	row, col int
	onto     func(p orb.Point) orb.Point
}

// laidOnTable lays the pages of a print on a table, each by the row and the column of its bookmark.
func laidOnTable(t rapid.TB, s Sheets, made Made) (all []onTable) {
	for _, page := range made.Document.Pages[made.Firsts:] {
		var letters string
		var col int
		name := strings.TrimPrefix(page.Bookmark, "sheet ")
		letters = strings.TrimRight(name, "0123456789")
		if _, err := fmt.Sscan(name[len(letters):], &col); err != nil || letters == "" {
			t.Fatalf("a sheet is called %q", page.Bookmark)
		}
		row := 0
		for _, r := range letters {
			row = 26*row + int(r-'A') + 1
		}
		row, col = row-1, col-1
		dx := float64(col)*(s.Width-2*s.Margin-s.Overlap) - s.Overlap/2 - s.Margin
		dy := float64(row)*(s.Height-2*s.Margin-s.Overlap) - s.Overlap/2 - s.Margin
		all = append(all, onTable{page, row, col,
			func(p orb.Point) orb.Point { return orb.Point{p[0] + dx, p[1] + dy} }})
	}
	return all
}

// shown takes a point of a drawing to the page that shows it, and says whether it is seen there.
func shown(v sheet.View, p orb.Point) (at orb.Point, seen bool) {
	at = orb.Point{v.Window.Min[0] + p[0] - v.From[0], v.Window.Min[1] + p[1] - v.From[1]}
	return at, v.Window.Pad(1e-6).Contains(at)
}

// someSheets are sheets of any size, and patterns printed on them without a search.
func someSheets(t *rapid.T) (Sheets, []Pattern, Made) {
	s := rapid.Custom(anySheets).Filter(func(s Sheets) bool { return s.Check() == nil }).Draw(t, "sheets")
	var all []Pattern
	for range rapid.IntRange(1, 2).Draw(t, "patterns") {
		copies := rapid.IntRange(1, 2).Draw(t, "copies")
		all = append(all, ringPattern("panel", anyRing(t, orb.Point{300, 300}, 450), copies))
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	made, err := tiledOn(s).Pieces(ctx, all)
	if err != nil {
		t.Fatal(err)
	}
	return s, all, made
}

// Sheets that are taped by their names show each pattern as often as it is wanted, in one piece and at its size: the
// parts on neighbours go on where those before end, and every bit of its line is on some sheet.
func TestTapedSheetsShowWholePatterns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, all, made := someSheets(t)
		table := laidOnTable(t, s, made)
		rings := map[*sheet.Drawing]orb.Ring{}
		on := map[*sheet.Drawing][]sheet.View{}
		by := map[*sheet.Drawing][]onTable{}
		for _, one := range table {
			for _, v := range one.page.Views {
				if v.Drawing.Title != "panel" {
					continue
				}
				var ring orb.Ring
				for _, p := range v.Drawing.Groups[0].Items[0].(sheet.Shape).Ring {
					if p[0] < 1.9 || p[1] < 1.9 || p[0] > v.Drawing.Width-1.9 || p[1] > v.Drawing.Height-1.9 {
						t.Fatalf("%v has no room for its ink in %v by %v", p, v.Drawing.Width, v.Drawing.Height)
					}
					at, _ := shown(v, p)
					ring = append(ring, one.onto(at))
				}
				if was, ok := rings[v.Drawing]; ok && planar.Distance(was[0], ring[0]) > 1e-6 {
					t.Fatalf("%s shows the panel from %v, another sheet from %v", one.page.Bookmark, ring[0], was[0])
				}
				rings[v.Drawing] = ring
				on[v.Drawing], by[v.Drawing] = append(on[v.Drawing], v), append(by[v.Drawing], one)
			}
		}
		copies := 0
		var lying []orb.Ring
		for d, ring := range rings {
			lying = append(lying, plane.SnapRing(ring))
			for i := 1; i < len(ring); i++ {
				for k := range 25 {
					f := float64(k) / 25
					a, b := ring[i-1], ring[i]
					p := orb.Point{a[0] + f*(b[0]-a[0]), a[1] + f*(b[1]-a[1])}
					seen := false
					for n, v := range on[d] {
						zero := by[d][n].onto(orb.Point{})
						seen = seen || v.Window.Pad(1e-6).Contains(orb.Point{p[0] - zero[0], p[1] - zero[1]})
					}
					if !seen {
						t.Fatalf("%v of a line is on no sheet", p)
					}
				}
			}
			same := false
			for _, p := range all {
				same = same || math.Abs(plane.Area(ring)+plane.Area(p.Outline)) < 1 && // y runs down: not mirrored
					math.Abs(plane.Length(ring)-plane.Length(p.Outline)) < 0.1
			}
			if !same {
				t.Fatalf("no pattern has the outline %v", ring)
			}
		}
		for _, p := range all {
			copies += p.Copies
		}
		if len(rings) != copies {
			t.Fatalf("%d patterns of %d", len(rings), copies)
		}
		if err := apartAll(lying); err != nil {
			t.Fatal(err)
		}
	})
}

// Crosses and lines of neighbours come to lie on each other: crosses stand where cells meet, a line along each side
// that another sheet is joined at, and beside it, within the cell, the name of that sheet.
func TestMarksOfNeighboursMeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, _, made := someSheets(t)
		sx, sy := s.Width-2*s.Margin-s.Overlap, s.Height-2*s.Margin-s.Overlap
		printed := map[[2]int]bool{}
		table := laidOnTable(t, s, made)
		for _, one := range table {
			printed[[2]int{one.row, one.col}] = true
		}
		for _, one := range table {
			over := one.page.Views[len(one.page.Views)-1]
			left, top := float64(one.col)*sx, float64(one.row)*sy
			cell := orb.Bound{Min: orb.Point{left, top}, Max: orb.Point{left + sx, top + sy}}
			crosses, joins := map[orb.Point]int{}, map[[2]int]int{}
			for _, it := range over.Drawing.Groups[0].Items {
				l := it.(sheet.Line)
				a, _ := shown(over, l.Path[0])
				b, _ := shown(over, l.Path[1])
				a, b = one.onto(a), one.onto(b)
				mid := orb.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}
				if l.Role == sheet.RoleEdge {
					if math.Abs(planar.Distance(a, b)-8) > 1e-6 {
						t.Fatalf("a cross from %v to %v", a, b)
					}
					crosses[orb.Point{math.Round(mid[0] * 1e6), math.Round(mid[1] * 1e6)}]++
					continue
				}
				for side, want := range map[[2]int][2]orb.Point{{0, -1}: {cell.Min, {left, top + sy}},
					{0, 1}: {{left + sx, top}, cell.Max}, {-1, 0}: {cell.Min, {left + sx, top}},
					{1, 0}: {{left, top + sy}, cell.Max}} {
					if planar.Distance(a, want[0])+planar.Distance(b, want[1]) < 1e-6 {
						joins[side]++
					}
				}
			}
			for _, corner := range cell.ToRing()[:4] {
				if n := crosses[orb.Point{math.Round(corner[0] * 1e6), math.Round(corner[1] * 1e6)}]; n != 2 {
					t.Fatalf("%s has %d strokes of a cross at %v: %v", one.page.Bookmark, n, corner, crosses)
				}
			}
			names := map[string]orb.Point{}
			for _, it := range over.Drawing.Groups[1].Items {
				w := it.(sheet.Text)
				at, seen := shown(over, w.At)
				at = one.onto(at)
				if names[w.Body] = at; !seen || !cell.Contains(at) {
					t.Fatalf("%s: %q stands at %v, beyond its cell %v", one.page.Bookmark, w.Body, at, cell)
				}
			}
			for _, side := range [][2]int{{0, -1}, {0, 1}, {-1, 0}, {1, 0}} {
				r, c := one.row+side[0], one.col+side[1]
				at, named := names[sheetName(r, c)]
				if r < 0 || c < 0 {
					named = false
				}
				if is := printed[[2]int{r, c}]; is != (joins[side] == 1) || is != named {
					t.Fatalf("%s is joined to (%d, %d): %v, by %d lines, named: %v", one.page.Bookmark, r, c, is,
						joins[side], named)
				}
				off := orb.Point{math.Abs(at[0] - left - sx*float64(side[1]+1)/2), math.Abs(at[1] - top - sy*float64(side[0]+1)/2)}
				if named && (side[0] == 0 && off[0] > 12 || side[1] == 0 && off[1] > 4) {
					t.Fatalf("%s: the name of its neighbour stands at %v, %v off", one.page.Bookmark, at, off)
				}
			}
			own := fmt.Sprintf("%s: row %s, column %d", sheetName(one.row, one.col), rowName(one.row), one.col+1)
			if at, ok := names[own]; !ok || len(names) != len(joins)+2 || names["31 May 2026 · mark a2b3"] == at {
				t.Fatalf("%s says %v", one.page.Bookmark, names)
			}
		}
	})
}
