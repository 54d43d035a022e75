package paper

import (
	"context"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/nest"
	"yardlay/shapes/plane"
)

var day = time.Date(2026, 5, 31, 0, 0, 0, 0, time.UTC)

func rollOf(width float64) Roll {
	return Roll{Head: Head{Title: "Lantern Court gown", Facts: []string{"mark a2b3"}, Notes: []string{"Join them."}},
		Date: day, Mark: "31 May 2026 · mark a2b3", Width: width}
}

// markerOf is a marker of rectangles on a cloth.
func markerOf(length, width float64, pieces ...orb.Bound) sheet.FullSize {
	m := sheet.Marker{Title: "gown", Cloth: "satin", Width: width + 20, Selvedge: 10, Used: length, Bought: length}
	for _, b := range pieces {
		m.Pieces = append(m.Pieces, sheet.Placed{Name: "panel", Size: "large", Outline: sheet.Outline{
			Cut: sheet.Box(b.Min[0], b.Min[1], b.Max[0], b.Max[1])}})
	}
	return m.FullSize(0, 2.5, sheet.ThemeLines)
}

func box(x0, y0, x1, y1 float64) orb.Bound {
	return orb.Bound{Min: orb.Point{x0, y0}, Max: orb.Point{x1, y1}}
}

// checkPages holds pages to what paper can take, and returns what they show of each
// drawing, in its own mm.
func checkPages(t interface{ Fatalf(string, ...any) }, doc sheet.Document,
	height float64) map[*sheet.Drawing][]orb.Bound {
	shown := map[*sheet.Drawing][]orb.Bound{}
	for i, p := range doc.Pages {
		if p.Width > sheet.MaxPage+1e-6 || p.Height != height {
			t.Fatalf("page %d is %g by %g", i, p.Width, p.Height)
		}
		for _, v := range p.Views {
			page := box(0, 0, p.Width, p.Height)
			if !page.Contains(v.Window.Min) || !page.Contains(v.Window.Max) {
				t.Fatalf("page %d shows %q beyond its edges: %v of %v", i, v.Drawing.Title, v.Window, page)
			}
			part := box(v.From[0], v.From[1], v.From[0]+v.Window.Max[0]-v.Window.Min[0],
				v.From[1]+v.Window.Max[1]-v.Window.Min[1])
			shown[v.Drawing] = append(shown[v.Drawing], part)
		}
	}
	return shown
}

// Of a marker of any size every point is on some page.
func TestMarkersOnARollAreWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Float64Range(50, 15000).Draw(t, "length")
		width := rapid.Float64Range(50, 3000).Draw(t, "width")
		roll := rollOf(rapid.Float64Range(150, 1600).Draw(t, "roll"))
		m := markerOf(length, width, box(0, 0, length/2, width/3), box(length/2, width/3, length, width))
		made, err := roll.Markers([]string{"satin"}, []sheet.FullSize{m})
		if err != nil {
			t.Fatalf("%v", err)
		}
		parts := checkPages(t, made.Document, roll.Width)[m.Drawing]
		for range 60 {
			p := orb.Point{m.Laid.Min[0] + length*rapid.Float64Range(0, 1).Draw(t, "x"),
				m.Laid.Min[1] + width*rapid.Float64Range(0, 1).Draw(t, "y")}
			found := false
			for _, b := range parts {
				found = found || b.Contains(p)
			}
			if !found {
				t.Fatalf("%v is on no page: %v", p, parts)
			}
		}
	})
}

// A cloth no wider than the roll comes in one band; with its selvedges where they have room.
func TestOneBandWhereTheClothIsNoWiderThanTheRoll(t *testing.T) {
	for _, c := range []struct{ cloth, roll, shows float64 }{
		{890, 914.4, 890}, {914.4, 914.4, 914.4 - 20}, {600, 914.4, 600 + 2*rollBeside},
	} {
		m := markerOf(2000, c.cloth-20, box(0, 0, 1900, c.cloth-30))
		made, err := rollOf(c.roll).Markers([]string{"satin"}, []sheet.FullSize{m})
		if err != nil || made.Bands != 1 || len(made.Pages) != 1 {
			t.Fatalf("cloth %g on a roll of %g: %d bands, %d pages, %v", c.cloth, c.roll, made.Bands, len(made.Pages),
				err)
		}
		part := checkPages(t, made.Document, c.roll)[m.Drawing][0]
		if got := part.Max[1] - part.Min[1]; math.Abs(got-c.shows) > 2.01 {
			t.Errorf("cloth %g on a roll of %g: %g shown, want %g", c.cloth, c.roll, got, c.shows)
		}
	}
}

func TestTooManyPagesAreRefused(t *testing.T) {
	m := markerOf(60000, 3000, box(0, 0, 100, 100))
	made, err := rollOf(MinRoll).Markers([]string{"satin"}, []sheet.FullSize{m})
	if err == nil || !strings.Contains(err.Error(), "500 pages") || !strings.Contains(err.Error(), "\n") ||
		made.Pages != nil {
		t.Errorf("%d pages, %v", len(made.Pages), err)
	}
}

// drawnPattern is a pattern that notes where it is drawn.
func drawnPattern(ring orb.Ring, copies int, seen *[]orb.Ring) Pattern {
	return Pattern{Name: "panel", Outline: ring, Copies: copies,
		Draw: func(pose plane.Pose, origin orb.Point) sheet.Group {
			at := pose.Apply(ring)
			for i, p := range at {
				at[i] = orb.Point{origin[0] + p[0], origin[1] - p[1]}
			}
			*seen = append(*seen, at)
			return sheet.Group{Title: "panel", Items: []sheet.Item{sheet.Shape{Role: sheet.RolePiece, Ring: at}}}
		}}
}

// Every copy is printed once, whole on a page where one holds it.
func TestPiecesOnARoll(t *testing.T) {
	for name, c := range map[string]struct {
		roll  float64
		sides [][2]float64 // along, across
		bands int
	}{
		"one page":   {914.4, [][2]float64{{500, 300}, {800, 600}, {90, 90}}, 1},
		"many pages": {610, [][2]float64{{2400, 500}, {2400, 500}, {2400, 500}, {1200, 300}, {4700, 100}}, 1},
		"turned":     {610, [][2]float64{{500, 2500}}, 1},
		"large":      {610, [][2]float64{{1500, 1100}, {200, 200}}, 2},
		"long":       {610, [][2]float64{{6000, 400}}, 1},
	} {
		var seen []orb.Ring
		var all []Pattern
		for _, s := range c.sides {
			all = append(all, drawnPattern(sheet.Box(0, 0, s[0], s[1]), 2, &seen))
		}
		roll := rollOf(c.roll)
		made, err := roll.Pieces(context.Background(), all)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if made.Bands != c.bands || len(seen) != 2*len(all) {
			t.Errorf("%s: %d bands, %d drawn of %d", name, made.Bands, len(seen), 2*len(all))
		}
		parts := checkPages(t, made.Document, c.roll)
		whole := 0
		for d, on := range parts {
			for _, g := range d.Groups {
				for _, it := range g.Items {
					s, ok := it.(sheet.Shape)
					if !ok || s.Role != sheet.RolePiece {
						continue
					}
					b := s.Ring.Bound()
					for _, part := range on {
						if part.Contains(b.Min) && part.Contains(b.Max) {
							whole++
							break
						}
					}
				}
			}
		}
		small := 0
		for _, p := range all {
			if p.fits(4500, roll.room()-2*lineRoom) {
				small += p.Copies
			}
		}
		if whole < small {
			t.Errorf("%s: %d are whole on a page, %d could be", name, whole, small)
		}
		if _, err := made.PDF(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Cancelled before it begins, a print has all pieces all the same.
func TestCancelledPrintHasAllPieces(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var seen []orb.Ring
	_, err := rollOf(914.4).Pieces(ctx, []Pattern{drawnPattern(sheet.Box(0, 0, 400, 300), 40, &seen)})
	if err != nil || len(seen) != 40 {
		t.Errorf("%d drawn, %v", len(seen), err)
	}
}

// What is drawn is what the judge passed: pieces on paper keep their gap.
func TestPiecesOnPaperDoNotMeet(t *testing.T) {
	var seen []orb.Ring
	ring := orb.Ring{{0, 0}, {400, 0}, {250, 350}, {0, 0}}
	all := []Pattern{drawnPattern(ring, 5, &seen)}
	l, err := lay(context.Background(), all, []int{5}, 600, paperWork)
	if err != nil {
		t.Fatal(err)
	}
	if err := nest.Verify(l.problem, l.layout); err != nil {
		t.Error(err)
	}
	d := l.drawing(all, "pieces")
	for i, b := range l.bounds() {
		if got := seen[i].Bound(); math.Abs(got.Min[0]-b.Min[0]) > 0.01 || math.Abs(got.Max[1]-b.Max[1]) > 0.01 {
			t.Errorf("drawn at %v, kept whole at %v", got, b)
		}
		if page := box(0, 0, d.Width, d.Height); !page.Contains(b.Min) || !page.Contains(b.Max) {
			t.Errorf("%v lies beyond %v", b, page)
		}
	}
}

// More patterns than lie on a page at a time: all are printed.
func TestManyPatternsAreAllPrinted(t *testing.T) {
	var seen []orb.Ring
	var all []Pattern
	for i := range 16 {
		w := 500 + 20*float64(i)
		all = append(all, drawnPattern(orb.Ring{{0, 0}, {w, 0}, {w / 2, 200}, {w / 3, 400}, {0, 0}}, 3, &seen))
	}
	made, err := rollOf(914.4).Pieces(context.Background(), all)
	if err != nil || len(seen) != 3*16 || len(made.Pages) < 2 {
		t.Errorf("%d drawn on %d pages, %v", len(seen), len(made.Pages), err)
	}
	checkPages(t, made.Document, 914.4)
}
