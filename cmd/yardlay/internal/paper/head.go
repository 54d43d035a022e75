package paper

import (
	"fmt"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
)

// Head is what the first page says before anything is drawn.
type Head struct {
	Title string
	Facts []string // of what, when, by which mark
	Notes []string // how it is put together and used
}

// Sizes of a head on paper, mm.
const (
	headTitle = 8.0
	headText  = 4.0
	headGap   = 10.0
	// testSquare is the side of the square that a print is checked by, and smallSquare
	// that on paper too narrow for it.
	testSquare  = 100.0
	smallSquare = 50.0
)

// checkSquare says how a print is checked.
const checkSquare = "Before you cut: print at 100 %, with no fitting to the page, and measure the square, both ways. " +
	"If a side is off by more than 0.5 mm in 100, mend the printer's scale and print again."

// TestSquare draws a square to check a print by, with its size written in it.
func TestSquare(at orb.Point, side float64) []sheet.Item {
	mid := orb.Point{at[0] + side/2, at[1] + side/2}
	words := func(dy float64, s string) sheet.Item {
		return sheet.Text{Role: sheet.RoleNote, At: orb.Point{mid[0], mid[1] + dy}, Anchor: sheet.Middle,
			Size: headText,
			Body: s}
	}
	return []sheet.Item{
		sheet.Line{Role: sheet.RoleDim, Path: orb.LineString(sheet.Box(at[0], at[1], at[0]+side, at[1]+side))},
		words(-headText*1.3, "test square"), words(0, fmt.Sprintf("%.0f mm", side)),
		words(headText*1.3, fmt.Sprintf("%.2f in", side/measure.Inches)),
	}
}

// drawing sets the head in a height: the test square, and beside it the words in a
// column as wide as that takes, with a key of signs below them.
func (h Head) drawing(height float64, key []sheet.Paragraph) *sheet.Drawing {
	side := testSquare
	if height < side+2 {
		side = smallSquare
	}
	said := []sheet.Paragraph{{Role: sheet.RoleHeading, Size: headTitle, Body: h.Title, After: headText / 2}}
	for _, f := range h.Facts {
		said = append(said, sheet.Paragraph{Role: sheet.RoleNote, Size: headText, Body: f})
	}
	said[len(said)-1].After = headText
	for _, n := range append([]string{checkSquare}, h.Notes...) {
		said = append(said, sheet.Paragraph{Role: sheet.RoleNote, Size: headText, Body: n, After: headText / 2})
	}
	for _, p := range key {
		if p.Size > 0 {
			p.After *= headText / p.Size
		}
		p.Size = headText
		said = append(said, p)
	}
	width := 150.0
	items, bottom := sheet.Column(orb.Point{}, width, said...)
	for bottom > height && width < 1500 {
		width *= 1.1
		items, bottom = sheet.Column(orb.Point{}, width, said...)
	}
	for i, it := range items {
		t := it.(sheet.Text)
		t.At[0] += side + headGap
		items[i] = t
	}
	return &sheet.Drawing{
		Title: h.Title, Width: side + headGap + width + headGap, Height: height, Scale: 1, Theme: sheet.ThemeLines,
		Groups: []sheet.Group{{Items: TestSquare(orb.Point{1, 1}, side)}, {Items: items}},
	}
}
