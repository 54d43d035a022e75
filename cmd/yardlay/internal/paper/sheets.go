package paper

import (
	"fmt"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/say"
)

// Sheets are sheets of paper that are joined to a large one. Lengths are mm.
type Sheets struct {
	Name          string  // "A4"; may be empty
	Width, Height float64 // of a sheet as it is printed
	Margin        float64 // that the printer does not reach, on all sides
	Overlap       float64 // of neighbours; 0: they are trimmed and butted
}

// Limits of sheets, mm.
const (
	// leastRoom is what is printed on at the least: the test square with its line has room.
	leastRoom    = testSquare + 2
	leastOverlap = 6.0 // crosses have to show
	mostOverlap  = 40.0
	maxMargin    = 60.0
	// maxSheets is the most sheets of one file: more than anybody tapes.
	maxSheets = 1500
)

// Check refuses sheets that nothing can be printed on.
func (s Sheets) Check() error {
	w, h := s.room()
	switch {
	case !(s.Width > 0 && s.Height > 0 && s.Width <= sheet.MaxPage && s.Height <= sheet.MaxPage):
		return say.Errorf("a sheet of %.4g by %.4g cannot be printed", say.MM(s.Width), say.MM(s.Height)).
			Hint("a page takes %.0f at most each way; long paper is for --roll", say.MM(sheet.MaxPage))
	case !(s.Margin >= 0 && s.Margin <= maxMargin):
		return say.Errorf("a margin of %.4g cannot be", say.MM(s.Margin)).
			Hint("from 0 to %.0f; most office printers reach to within 10 mm", say.MM(maxMargin))
	case s.Overlap != 0 && !(s.Overlap >= leastOverlap && s.Overlap <= mostOverlap):
		return say.Errorf("an overlap of %.4g cannot be", say.MM(s.Overlap)).
			Hint("0 to trim and butt the sheets, or from %.0f to %.0f", say.MM(leastOverlap), say.MM(mostOverlap))
	case !(w >= leastRoom && h >= leastRoom):
		return say.Errorf("a sheet of %.4g by %.4g with margins of %.4g has %.4g by %.4g to print on", say.MM(s.Width),
			say.MM(s.Height), say.MM(s.Margin), say.MM(max(w, 0)), say.MM(max(h, 0))).
			Hint("it needs %.0f each way, for the test square: take a larger sheet or a smaller margin", say.MM(leastRoom))
	}
	return nil
}

// room is what can be printed on.
func (s Sheets) room() (width, height float64) { return s.Width - 2*s.Margin, s.Height - 2*s.Margin }

// step is how far apart neighbours begin.
func (s Sheets) step() (x, y float64) {
	w, h := s.room()
	return w - s.Overlap, h - s.Overlap
}

// sheetName names a sheet by its row and column, from 0: "B3".
func sheetName(row, col int) string { return fmt.Sprintf("%s%d", rowName(row), col+1) }

// rowName counts A to Z, AA, AB and so on.
func rowName(row int) string {
	name := ""
	for row++; row > 0; row = (row - 1) / 26 {
		name = string(rune('A'+(row-1)%26)) + name
	}
	return name
}
