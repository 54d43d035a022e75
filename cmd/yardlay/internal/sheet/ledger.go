package sheet

import (
	"fmt"

	"github.com/paulmach/orb"
)

// Ledger is a page of words and amounts to print: a quote, a shopping list. What
// it says is in the lines; how they are set is the same on paper and screen.
type Ledger struct {
	Title  string
	Banner string   // across the top of every page: whose page it is; "" for none
	Facts  []string // under the title: from whom, for whom
	Head   string   // over the amounts: the currency
	Lines  []Entry
	Notes  []string // at the foot
	Metric bool     // A4 instead of US Letter
}

// Entry is one line of a ledger.
type Entry struct {
	Kind   EntryKind
	Text   string
	Detail string // below the text, smaller
	Amount string // "" where there is none
}

// EntryKind says what a line is.
type EntryKind uint8

// Kinds of lines. The amounts of all items sum to the last total; sums repeat what
// the items above them come to and stand in a column of their own.
const (
	EntryItem  EntryKind = iota
	EntryHead            // begins a group, without an amount
	EntrySum             // what the items so far come to
	EntryTotal           // the last sum
	EntryNote            // an amount that follows from the total, such as a deposit
)

// Paper of a ledger, mm: A4 (ISO 216) and US Letter (8 1/2 by 11 in).
const (
	a4Width, a4Height         = 210.0, 297.0
	letterWidth, letterHeight = 215.9, 279.4
	ledgerEdge                = 18.0
	ledgerText                = 3.7 // size of text when there is room
	ledgerLeast               = 2.5 // smallest size that is still read with ease, about 7 points
	ledgerColumn              = 6.2 // least width of a column of amounts, in sizes of text
	ledgerDetail              = 0.85
)

// Drawings sets the ledger on one page, in smaller print where that is needed; on
// several only where it would be too small to read.
func (l Ledger) Drawings() []Drawing {
	for size := ledgerText; size >= ledgerLeast; size -= 0.1 {
		if pages := l.set(size); len(pages) == 1 {
			return pages
		}
	}
	return l.set(ledgerLeast)
}

func (l Ledger) paper() (width, height float64) {
	if l.Metric {
		return a4Width, a4Height
	}
	return letterWidth, letterHeight
}

// setter sets lines down a page and begins another where it is full.
type setter struct {
	Ledger
	size          float64
	width, height float64
	column        float64 // width of a column of amounts
	items         []Item
	y             float64
	pages         [][]Item
}

// set sets the whole ledger in one size of text.
func (l Ledger) set(size float64) []Drawing {
	s := &setter{Ledger: l, size: size, y: ledgerEdge}
	s.width, s.height = l.paper()
	s.column = ledgerColumn * size
	for _, e := range l.Lines {
		s.column = max(s.column, textWidth(e.Amount, size)+size)
	}
	s.banner()
	s.words(RoleHeading, 1.7*size, l.Title)
	for _, f := range l.Facts {
		s.words(RoleNote, size, f)
	}
	s.y += size
	s.amount(s.right(1), s.y+size/2, ledgerDetail*size, l.Head)
	s.y += size * lineHeight
	for _, e := range l.Lines {
		s.entry(e)
	}
	s.y += size
	for _, n := range l.Notes {
		s.words(RoleNote, ledgerDetail*size, n)
	}
	s.pages = append(s.pages, s.items)
	var drawings []Drawing
	for i, items := range s.pages {
		d := Drawing{Title: l.Title, Description: "a page to print", Width: s.width, Height: s.height, Scale: 1,
			Groups: []Group{{Items: items}}}
		if len(s.pages) > 1 {
			d.Description = fmt.Sprintf("page %d of %d", i+1, len(s.pages))
			foot := Text{Role: RoleNote, At: orb.Point{s.width / 2, s.height - ledgerEdge/2}, Anchor: Middle,
				Size: ledgerDetail * size, Body: d.Description}
			d.Groups = append(d.Groups, Group{Items: []Item{foot}})
		}
		drawings = append(drawings, d)
	}
	return drawings
}

// right is the right edge of the column of items (0) or of sums (1).
func (s *setter) right(column int) float64 {
	return s.width - ledgerEdge - float64(1-column)*s.column
}

// room begins another page when the next lines would not fit on this one.
func (s *setter) room(height float64) {
	if s.y+height > s.height-ledgerEdge {
		s.pages = append(s.pages, s.items)
		s.items, s.y = nil, ledgerEdge
		s.banner()
		s.words(RoleHeading, s.size, s.Title+", continued")
		s.amount(s.right(1), s.y+s.size/2, ledgerDetail*s.size, s.Head)
		s.y += s.size * lineHeight
	}
}

// banner says at the top of a page whose it is.
func (s *setter) banner() {
	if s.Banner == "" {
		return
	}
	s.words(RoleHeading, s.size, s.Banner)
	s.rule(true)
	s.y += s.size
}

// words sets a text over the whole width.
func (s *setter) words(role Role, size float64, text string) {
	s.wrapped(role, size, ledgerEdge, s.width-2*ledgerEdge, text)
}

func (s *setter) wrapped(role Role, size, x, width float64, text string) {
	if role == RoleHeading {
		width /= boldness
	}
	for _, line := range wrap(text, size, width) {
		s.room(size * lineHeight)
		s.items = append(s.items, Text{Role: role, At: orb.Point{x, s.y + size*lineHeight/2}, Size: size, Body: line})
		s.y += size * lineHeight
	}
}

func (s *setter) amount(x, y, size float64, body string) {
	if body != "" {
		s.items = append(s.items, Text{Role: RoleNote, At: orb.Point{x, y}, Anchor: End, Size: size, Body: body})
	}
}

// entry sets one line with its detail.
func (s *setter) entry(e Entry) {
	indent, role, column := ledgerEdge, RoleNote, 1
	switch e.Kind {
	case EntryHead:
		s.y += 0.6 * s.size
		role = RoleHeading
	case EntryItem:
		indent, column = ledgerEdge+s.size, 0
		s.y += 0.2 * s.size
	case EntryTotal:
		role = RoleHeading
	}
	width := s.right(0) - s.column - indent
	texts := len(wrap(e.Text, s.size, width))
	details := len(wrap(e.Detail, ledgerDetail*s.size, width-s.size))
	s.room((float64(texts) + ledgerDetail*float64(details) + 0.6) * s.size * lineHeight)
	if e.Kind == EntrySum || e.Kind == EntryTotal {
		s.y += 0.3 * s.size
		s.rule(e.Kind == EntryTotal)
	}
	top := s.y
	s.wrapped(role, s.size, indent, width, e.Text)
	s.wrapped(RoleNote, ledgerDetail*s.size, indent+s.size, width-s.size, e.Detail)
	s.amount(s.right(column), top+s.size*lineHeight/2, s.size, e.Amount)
	if e.Kind == EntryTotal {
		s.y += 0.2 * s.size
		s.rule(true)
		s.y += 0.4 * s.size
	}
}

// rule draws a line over a sum, right across for the total.
func (s *setter) rule(across bool) {
	from := s.right(0) + s.size
	if across {
		from = ledgerEdge
	}
	s.items = append(s.items, Line{RoleDim, orb.LineString{{from, s.y}, {s.right(1), s.y}}})
	s.y += 0.2 * s.size
}
