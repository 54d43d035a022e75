package sheet

import (
	"math"
	"slices"
	"time"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// Document is a set of pages to print. Lengths are mm of paper, y down.
type Document struct {
	Title, Subject string
	Date           time.Time // the day is written into the file, not the hour
	Pages          []Page
}

// Page is one page. With a Bookmark it stands in the list that readers show beside the pages.
type Page struct {
	Width, Height float64
	Bookmark      string
	Views         []View
}

// View shows a part of a drawing on a page, at 1 / Scale of the drawing. Drawings are
// told apart by pointer: one in several views is stored once in the file.
type View struct {
	Drawing *Drawing
	Window  orb.Bound // of the page: what lies outside is not shown
	From    orb.Point // the point of the drawing, its own mm, that comes to Window.Min
}

// Whole shows all of a drawing with its top left corner at a point of the page.
func Whole(d *Drawing, at orb.Point) View {
	return View{Drawing: d, Window: orb.Bound{Min: at,
		Max: orb.Point{at[0] + d.Width/d.Scale, at[1] + d.Height/d.Scale}}}
}

// PageOf makes a page of one drawing, as large as it is.
func PageOf(d *Drawing, bookmark string) Page {
	return Page{Width: d.Width / d.Scale, Height: d.Height / d.Scale, Bookmark: bookmark,
		Views: []View{Whole(d, orb.Point{})}}
}

// Limits of pages, mm: 3 and 14,400 units of 1/72 in (ISO 32000-1, annex C.2, from memory).
const (
	MaxPage = 14400 * 25.4 / 72 // 5080
	minPage = 3 * 25.4 / 72
	// maxReach is the farthest that a coordinate of a drawing may lie on paper, mm: far
	// beyond any cloth, and within what every reader counts to.
	maxReach = 1e6
)

// drawings lists the distinct ones in the order in which they are shown.
func (d Document) drawings() []*Drawing {
	var all []*Drawing
	seen := map[*Drawing]bool{}
	for _, p := range d.Pages {
		for _, v := range p.Views {
			if !seen[v.Drawing] {
				all, seen[v.Drawing] = append(all, v.Drawing), true
			}
		}
	}
	return all
}

// check refuses what cannot be written.
func (d Document) check() error {
	if d.Date.IsZero() || len(d.Pages) == 0 {
		return say.Errorf("document %q has no date or no pages", d.Title)
	}
	for i, p := range d.Pages {
		if !(p.Width >= minPage && p.Height >= minPage && p.Width <= MaxPage+1e-6 && p.Height <= MaxPage+1e-6) {
			return say.Errorf("page %d would be %.0f by %.0f; a page takes %.0f at most", i+1, say.MM(p.Width),
				say.MM(p.Height), say.MM(MaxPage)).Hint("cut it into shorter pages")
		}
		for _, v := range p.Views {
			if w := v.Window; !finite(orb.Ring{w.Min, w.Max, v.From}) || !(w.Min[0] < w.Max[0] && w.Min[1] < w.Max[1]) {
				return say.Errorf("page %d shows %q in a window without extent", i+1, v.Drawing.Title)
			}
		}
	}
	for _, drawing := range d.drawings() {
		if err := drawing.check(); err != nil {
			return err
		}
	}
	return nil
}

// check refuses a drawing with a number that is none, or no paper would hold.
func (d *Drawing) check() error {
	good := d.Scale > 0 && !math.IsInf(d.Scale, 1)
	reach := maxReach * d.Scale
	within := func(ps ...orb.Point) bool {
		return !slices.ContainsFunc(ps, func(p orb.Point) bool {
			return !(math.Abs(p[0]) <= reach && math.Abs(p[1]) <= reach)
		})
	}
	good = good && d.Width > 0 && d.Height > 0 && within(orb.Point{d.Width, d.Height})
	for _, g := range d.Groups {
		for _, it := range g.Items {
			switch it := it.(type) {
			case Shape:
				good = good && within(it.Ring...)
			case Line:
				good = good && within(it.Path...)
			case Text:
				good = good && within(it.At, orb.Point{it.Size, it.Turn})
			}
		}
	}
	if !good {
		return say.Errorf("drawing %q has a coordinate that is not a finite number, or beyond any paper", d.Title)
	}
	return nil
}
