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
	if err := CheckMargin(s.Margin); err != nil {
		return err
	}
	if err := CheckOverlap(s.Overlap); err != nil {
		return err
	}
	w, h := s.room()
	switch {
	case !(s.Width > 0 && s.Height > 0 && s.Width <= sheet.MaxPage && s.Height <= sheet.MaxPage):
		return say.Errorf("a sheet of %.4g by %.4g cannot be printed", say.MM(s.Width), say.MM(s.Height)).
			Hint("a page takes 5.08m (200in) at most each way; long paper is for --roll")
	case !(w >= leastRoom && h >= leastRoom):
		return say.Errorf("a sheet of %.4g by %.4g with margins of %.3g has %.3g by %.3g to print on", say.MM(s.Width),
			say.MM(s.Height), say.MM(s.Margin), say.MM(max(w, 0)), say.MM(max(h, 0))).
			Hint("the test square needs 102mm (4in) each way: take a larger sheet or a smaller margin")
	}
	return nil
}

// CheckMargin refuses margins that no office printer has, mm.
func CheckMargin(mm float64) error {
	if mm >= 0 && mm <= maxMargin {
		return nil
	}
	return say.Errorf("a margin of %.3g cannot be", say.MM(mm)).
		Hint("from 0 to 60mm (2 3/8in); most office printers reach to within 10mm (3/8in)")
}

// CheckOverlap refuses overlaps that are too narrow for crosses to show, and waste, mm.
func CheckOverlap(mm float64) error {
	if mm == 0 || mm >= leastOverlap && mm <= mostOverlap {
		return nil
	}
	return say.Errorf("an overlap of %.3g cannot be", say.MM(mm)).
		Hint("0 to trim and butt the sheets, or from 6mm (1/4in) to 40mm (1 1/2in)")
}

// room is what can be printed on.
func (s Sheets) room() (width, height float64) { return s.Width - 2*s.Margin, s.Height - 2*s.Margin }

// Holds says whether a pattern lies whole on one sheet, which is turned as it needs.
func (s Sheets) Holds(p Pattern) bool {
	w, h := s.room()
	return p.fits(w, h)
}

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
