// Package book makes the workbook of a gown: what to buy, how to lay, cut and sew it,
// in the order of the work. It is one document of a few kinds of block with two
// writers: pages to print (PDF), and a page for a tablet at the table (HTML).
package book

import (
	"time"

	"yardlay/cmd/yardlay/internal/sheet"
)

// Book is a workbook.
type Book struct {
	Title    string // of the gown; may be empty
	Mark     string // of what is cut, as on each piece printed
	Date     time.Time
	Paper    Paper
	Sections []Section
}

// Section is a part of the work. Its title stands in the list of contents.
type Section struct {
	Title  string
	Wide   bool // on pages on their sides; it begins one
	Blocks []Block
}

// Block is a Heading, a Paragraph, a Table or a Figure.
type Block interface{ block() }

// Heading is over some blocks of a section.
type Heading struct{ Text string }

// Paragraph is a text.
type Paragraph struct {
	Text    string
	Caution bool
	Keep    bool // with what follows it, on one page
}

// Table is rows under heads. Rows with ticks are ticked off.
type Table struct {
	Caption string // what it is about, for whoever does not see where it stands; printed when Shown
	Shown   bool
	Beside  bool // on paper two rows may stand beside each other
	Columns []Column
	Rows    []Row
}

// Column is one of a table.
type Column struct {
	Head  string
	Right bool // figures, set to the right
}

// Row is one of a table: a cell a column, "" for an empty one; a group has one cell.
type Row struct {
	Kind    RowKind
	Cells   []string
	Details []string // lines below the first cell, over the whole width
	Ticks   []string // what is done when it is ticked off, by ID; nil: nothing to tick
}

// RowKind says what a row is.
type RowKind uint8

// Kinds of rows.
const (
	RowItem  RowKind = iota
	RowGroup         // a heading over the rows below it
	RowSum           // what the items come to
)

// Figure is a drawing at its scale. One wider than a page goes on below. On a page that
// is read on a screen its groups with an ID are ticked off with the rows that have it.
type Figure struct {
	Drawing *sheet.Drawing
	Caption string
}

func (Heading) block()   {}
func (Paragraph) block() {}
func (Table) block()     {}
func (Figure) block()    {}

// Paper is a page to print on, upright, mm.
type Paper struct{ Width, Height float64 }

// Paper that offices use: A4 (ISO 216), and US Letter of 8 1/2 by 11 in.
var (
	A4     = Paper{210, 297}
	Letter = Paper{215.9, 279.4}
)

// PaperFor is what is usual where lengths are shown in metres, or in inches.
func PaperFor(metric bool) Paper {
	if metric {
		return A4
	}
	return Letter
}

// Margins of a page, mm: what every office printer reaches, and room to punch holes on
// the left. Header and footer stand within them.
const (
	marginLeft, marginRight = 18.0, 13.0
	marginTop, marginBottom = 20.0, 17.0
)

// room is what a figure may take of a page that lies on its side, between the title of its
// section and a list that is ticked off, mm.
func (p Paper) room() (width, height float64) {
	return p.Height - marginLeft - marginRight, p.Width - marginTop - marginBottom - 65
}

// Called is the title with what the book is.
func (b Book) Called() string {
	if b.Title == "" {
		return "Workbook"
	}
	return b.Title + ": workbook"
}

// Stamp tells this book from that of other measures: the day and the mark.
func (b Book) Stamp() string { return Stamp(b.Date, b.Mark) }

// Stamp is the day of a print with the mark of what is cut.
func Stamp(date time.Time, mark string) string {
	return date.Format(time.DateOnly) + " · mark " + mark
}
