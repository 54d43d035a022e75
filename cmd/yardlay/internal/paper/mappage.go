package paper

import (
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
)

// firsts sets what stands before the sheets on pages of their size.
type firsts struct {
	sheets Sheets
	title  string
	pages  []sheet.Page
	items  []sheet.Item
	y      float64 // where the next thing begins
}

const (
	firstTitle = 6.0
	firstText  = 3.4
	mapLeast   = 70.0 // height, or the map begins a page
	mapText    = 2.6
	mapSheet   = 8.0 // width of a sheet, or the map comes in parts: so its name can be read
	mapAir     = 4.0 // between parts
)

// firstPages say what this is and how it is put together: words, test square, map, list.
func (t Tiled) firstPages(p plotted) []sheet.Page {
	f := &firsts{sheets: t.Sheets, title: t.Head.Title}
	f.say(sheet.RoleHeading, firstTitle, t.Head.Title, 1)
	f.say(sheet.RoleNote, firstText, strings.Join(t.Head.Facts, " · "), 3)
	f.square()
	for _, n := range append(t.joinWords(p), t.Head.Notes...) {
		f.say(sheet.RoleNote, firstText, n, 1)
	}
	f.y += 2
	f.chart(p)
	f.say(sheet.RoleHeading, firstText, "Pieces", 1)
	numbered := map[int]bool{}
	for _, s := range p.spots {
		numbered[s.pattern] = true
	}
	for i, said := range t.Lists {
		if numbered[i] {
			f.say(sheet.RoleNote, firstText, fmt.Sprintf("%d = %s", i+1, strings.Join(said, " · ")), 0.3)
		}
	}
	f.y += 2
	for _, k := range t.Key {
		f.say(k.Role, firstText, k.Body, 1)
	}
	f.end()
	return f.pages
}

// joinWords say how sheets are joined, and how many there are.
func (t Tiled) joinWords(p plotted) []string {
	how := "Cut off the left and the upper edge of a sheet along the dotted line, where it has one there. Lay it on " +
		"its neighbour so that cross lies on cross, and tape. Join each row first, then the rows."
	if t.Sheets.Overlap == 0 {
		how = "Cut along the dotted lines, where a sheet has any. Lay the cut edges side by side so that the crosses " +
			"at the corners meet, and tape. Join each row first, then the rows."
	}
	many := fmt.Sprintf("%d sheets, in %d rows of up to %d.", p.sheets, p.grid.rows, p.grid.cols)
	if p.sheets == 1 {
		return []string{"1 sheet."}
	}
	if p.sheets < p.grid.rows*p.grid.cols {
		many += " Sheets that nothing is on are left out."
	}
	return []string{many + " " + how}
}

// room is what a page has, mm.
func (f *firsts) room() (width, height float64) { return f.sheets.room() }

// say sets a paragraph, on the next page where there is no room for it.
func (f *firsts) say(role sheet.Role, size float64, body string, after float64) {
	width, height := f.room()
	set := func() ([]sheet.Item, float64) {
		return sheet.Column(orb.Point{0, f.y}, width, sheet.Paragraph{Role: role, Size: size, Body: body, After: after})
	}
	items, bottom := set()
	if bottom > height && f.y > 0 {
		f.end()
		items, bottom = set()
	}
	f.items, f.y = append(f.items, items...), bottom
}

// end ends a page.
func (f *firsts) end() {
	if len(f.items) == 0 {
		return
	}
	width, height := f.room()
	d := &sheet.Drawing{Title: f.title, Width: width, Height: height, Scale: 1, Theme: sheet.ThemeLines,
		Groups: []sheet.Group{{Items: f.items}}}
	mark := ""
	if len(f.pages) == 0 {
		mark = "how to put the sheets together"
	}
	f.pages = append(f.pages, sheet.Page{Width: f.sheets.Width, Height: f.sheets.Height, Bookmark: mark,
		Views: []sheet.View{sheet.Whole(d, orb.Point{f.sheets.Margin, f.sheets.Margin})}})
	f.items, f.y = nil, 0
}

// square draws the test square and four inches beside it, with how a print is checked.
func (f *firsts) square() {
	width, height := f.room()
	four := 4 * measure.Inches
	beside := testSquare + 16
	wide := width-beside >= 45
	if f.y+four+2 > height {
		f.end()
	}
	top := f.y + 1
	f.items = append(f.items, TestSquare(orb.Point{1, top}, testSquare)...)
	if width >= testSquare+9 {
		f.items = append(f.items, inches(testSquare+6, top)...)
	}
	f.y = top + four + 3
	if !wide {
		f.say(sheet.RoleNote, firstText, checkSquare, 2)
		return
	}
	items, bottom := sheet.Column(orb.Point{beside, top}, width-beside,
		sheet.Paragraph{Role: sheet.RoleNote, Size: firstText, Body: checkSquare})
	f.items, f.y = append(f.items, items...), math.Max(f.y, bottom+2)
}

// inches draws a line of 4 in down from a point, with a stroke at each inch.
func inches(x, y float64) []sheet.Item {
	line := func(x0, y0, x1, y1 float64) sheet.Item {
		return sheet.Line{Role: sheet.RoleDim, Path: orb.LineString{{x0, y0}, {x1, y1}}}
	}
	items := []sheet.Item{line(x, y, x, y+4*measure.Inches)}
	for n := range 5 {
		at := y + float64(n)*measure.Inches
		items = append(items, line(x-1.5, at, x+1.5, at))
	}
	return append(items, sheet.Text{Role: sheet.RoleNote, At: orb.Point{x + 4, y + 2*measure.Inches},
		Anchor: sheet.Middle,
		Size:   firstText, Turn: 90, Body: "4 in"})
}
