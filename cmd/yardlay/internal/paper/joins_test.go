package paper

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/sheet"
)

// A span ends where the next one shares the overlap with it, or a millimetre behind the last interval that it alone
// keeps whole, and no later.
func TestSpansShareNoMoreThanTheyNeed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.Float64Range(900, 5000).Draw(t, "length")
		const most, overlap = 800.0, 20.0
		var whole []span
		for range rapid.IntRange(1, 10).Draw(t, "pieces") {
			from := rapid.Float64Range(0, b-5).Draw(t, "piece")
			whole = append(whole, span{from, math.Min(b, from+rapid.Float64Range(5, 900).Draw(t, "long"))})
		}
		list := keeping(0, b, most, 0, overlap, whole)
		for i, s := range list[1:] {
			last := list[i]
			want := s.from + overlap
			for _, w := range whole {
				if in := last.from <= w.from && w.to <= last.from+most; in && (w.from < s.from || w.to > s.from+most) {
					want = math.Max(want, w.to+1)
				}
			}
			if want = math.Min(want, last.from+most); math.Abs(last.to-want) > 1e-6 {
				t.Fatalf("span %d of %v ends at %v, not at %v", i, list, last.to, want)
			}
		}
	})
}

// The lines of joins have letters, their crosses numbers from the start on, no two alike: not far from the ends, nor
// from each other, each with its words beside it on a ground of their own.
func TestCrossesOfJoinsAreNumbered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		along := spans(0, rapid.Float64Range(50, 9000).Draw(t, "long"), 700, 100, 20)
		across := spans(0, rapid.Float64Range(30, 4000).Draw(t, "wide"), 500, 0, 20)
		items := joins(along, across)
		lines, strokes, seen := 0, 0, map[string]bool{}
		var line orb.LineString
		var at orb.Point
		n, last := 0, 0.0
		for i, it := range items {
			switch it := it.(type) {
			case sheet.Line:
				if it.Role == sheet.RoleJoin {
					if line != nil && planar.Distance(at, line[1]) > 15+1e-6 {
						t.Fatalf("the last cross stands %v before the end", planar.Distance(at, line[1]))
					}
					line, n, last = it.Path, 0, 0
					lines++
					continue
				}
				b := it.Path.Bound()
				strokes++
				if at = b.Center(); math.Abs(b.Max[0]-b.Min[0]+b.Max[1]-b.Min[1]-10) > 1e-6 ||
					planar.DistanceFrom(line, at) > 1e-6 {
					t.Fatalf("a cross on %v has the stroke %v", line, it.Path)
				}
			case sheet.Text:
				n++
				from := planar.Distance(at, line[0])
				if step := from - last; n == 1 && from > 15+1e-6 || n > 1 && (step > 200+1e-6 || step <= 0) {
					t.Fatalf("cross %s stands %v from the start, the one before %v", it.Body, from, last)
				}
				if last = from; it.Body != fmt.Sprintf("%s%d", letter(lines-1), n) || seen[it.Body] {
					t.Fatalf("cross %d of line %d is called %q", n, lines, it.Body)
				}
				seen[it.Body] = true
				half := 0.4 * it.Size
				box := orb.Bound{Min: orb.Point{it.At[0], it.At[1] - half},
					Max: orb.Point{it.At[0] + it.Width(), it.At[1] + half}}
				ground := items[i-1].(sheet.Shape).Ring.Bound()
				if planar.Distance(it.At, at) > 5 || !ground.Contains(box.Min) || !ground.Contains(box.Max) || box.Contains(at) {
					t.Fatalf("%q stands at %v on %v, its cross at %v", it.Body, box, ground, at)
				}
			}
		}
		if lines != len(along)+len(across)-2 || strokes != 2*len(seen) {
			t.Fatalf("%d lines of %d by %d pages, %d strokes, %d names", lines, len(along), len(across), strokes, len(seen))
		}
	})
	names := map[string]bool{}
	for n := range 200 {
		if names[letter(n)] || letter(n) == "" {
			t.Fatalf("two joins are called %s", letter(n))
		}
		names[letter(n)] = true
	}
	if letter(25) != "Z" || letter(26) != "A2-" || letter(53) != "B3-" {
		t.Errorf("%s, %s, %s", letter(25), letter(26), letter(53))
	}
}

// Captions say which band and which length a page is, where there are several; the head stands on the first page alone,
// between its caption and what is shown, and all is within the page and its margin.
func TestPagesOfABoardAreNamedInOrder(t *testing.T) {
	c := paging{height: 400, longest: 900, margin: 10, caption: 8, overlap: 20, mark: "mark a2b3"}
	head := &sheet.Drawing{Title: "head", Width: 150, Height: 380, Scale: 1}
	for _, board := range []struct{ long, high float64 }{{500, 300}, {2000, 300}, {500, 700}, {2000, 900}} {
		made, err := c.cut(boardOf(board.long, board.high, head))
		if err != nil || len(made.Pages) != made.Bands*made.Lengths {
			t.Fatalf("%d pages: %v", len(made.Pages), err)
		}
		n := 0
		for band := range made.Bands {
			x := 0.0
			for part := range made.Lengths {
				p := made.Pages[n]
				want := "satin"
				if made.Bands > 1 {
					want += fmt.Sprintf(", band %d of %d from the top", band+1, made.Bands)
				}
				if made.Lengths > 1 {
					want += fmt.Sprintf(", length %d of %d", part+1, made.Lengths)
				}
				caption := textsOn(p)[0]
				if p.Bookmark != want || caption.Body != want+" · mark a2b3" || caption.Turn != 90 ||
					caption.Width() > 380+1e-6 || planar.Distance(caption.At, orb.Point{3.2, 190}) > 1e-9 {
					t.Errorf("page %d is called %q: %+v", n+1, p.Bookmark, caption)
				}
				heads := slices.IndexFunc(p.Views, func(v sheet.View) bool { return v.Drawing == head })
				last := p.Views[len(p.Views)-1]
				from := 18.0
				if n == 0 {
					from += 150
				}
				if (heads >= 0) != (n == 0) || n == 0 && p.Views[heads].Window.Min != (orb.Point{18, 10}) ||
					last.Window.Min != (orb.Point{from, 10}) || math.Abs(last.Window.Max[0]+10-p.Width) > 1e-6 ||
					p.Width > 900+1e-6 || p.Height != 400 || last.Window.Max[1] > 390+1e-6 {
					t.Errorf("page %d, %v by %v, shows %v", n+1, p.Width, p.Height, last.Window)
				}
				if part > 0 && last.From[0] > x-20+1e-6 {
					t.Errorf("page %d begins at %v, the one before ends at %v", n+1, last.From[0], x)
				}
				x = last.From[0] + last.Window.Max[0] - last.Window.Min[0]
				n++
			}
			if math.Abs(x-board.long) > 1e-6 {
				t.Errorf("band %d ends at %v of %v", band+1, x, board.long)
			}
		}
		joined := slices.ContainsFunc(made.Pages[0].Views, func(v sheet.View) bool {
			return slices.ContainsFunc(v.Drawing.Groups, func(g sheet.Group) bool { return g.Title == "joins" })
		})
		if joined != (made.Bands*made.Lengths > 1) {
			t.Errorf("%v by %v is joined: %v", board.long, board.high, joined)
		}
	}
}

// boardOf is a board of a size.
func boardOf(long, high float64, head *sheet.Drawing) board {
	d := &sheet.Drawing{Title: "satin", Width: long, Height: high, Scale: 1}
	return board{drawing: d, shown: orb.Bound{Max: orb.Point{long, high}}, name: "satin", head: head}
}
