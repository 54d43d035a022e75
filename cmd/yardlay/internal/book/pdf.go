package book

import (
	"fmt"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
)

// leaf is a page on its way to paper.
type leaf struct {
	wide   bool
	body   []placed
	begins []int // sections that begin on it
	last   int   // the section at its end
}

// PDF sets the book on pages, and says how many: the same bytes for the same book.
func (b Book) PDF() (pdf []byte, pages int, err error) {
	doc := b.document()
	pdf, err = doc.PDF()
	return pdf, len(doc.Pages), err
}

// Lacking returns the letters for which the font of the PDF has none.
func (b Book) Lacking() (string, error) { return b.document().Lacking() }

// document sets the book on pages.
func (b Book) document() sheet.Document {
	leaves := b.leaves()
	doc := sheet.Document{Title: b.Called(), Subject: b.Stamp(), Date: b.Date}
	for n, l := range leaves {
		width, height := b.size(l.wide)
		d := &sheet.Drawing{Title: b.Called(), Width: width, Height: height, Scale: 1}
		items := b.edges(width, height, n+1, len(leaves), b.Sections[l.last].Title)
		var views []sheet.View
		for _, s := range l.body {
			if s.draw == nil {
				continue
			}
			drawn, seen := s.draw(orb.Point{marginLeft, marginTop + s.y})
			items, views = append(items, drawn...), append(views, seen...)
		}
		d.Groups = []sheet.Group{{Items: items}}
		var titles []string
		for _, k := range l.begins {
			titles = append(titles, b.Sections[k].Title)
		}
		doc.Pages = append(doc.Pages, sheet.Page{Width: width, Height: height, Bookmark: strings.Join(titles, ", "),
			Views: append([]sheet.View{sheet.Whole(d, orb.Point{})}, views...)})
	}
	return doc
}

// size is that of a page, upright or on its side.
func (b Book) size(wide bool) (width, height float64) {
	if wide {
		return b.Paper.Height, b.Paper.Width
	}
	return b.Paper.Width, b.Paper.Height
}

// leaves sets the sections on pages; the first page begins with the list of them.
func (b Book) leaves() []leaf {
	starts := make([]int, len(b.Sections)) // page of each section, known when all are set
	var leaves []leaf
	section := 0
	for from, to := 0, 0; from < len(b.Sections); from = to {
		wide := b.Sections[from].Wide
		width, height := b.size(wide)
		s := setter{width - marginLeft - marginRight}
		var strips []strip
		if from == 0 {
			strips = b.front(s, starts)
		}
		for to = from; to == from || to < len(b.Sections) && !wide && !b.Sections[to].Wide; to++ {
			strips = append(strips, s.section(b.Sections[to], to+1)...)
		}
		for _, page := range paginate(strips, height-marginTop-marginBottom) {
			l := leaf{wide: wide, body: page}
			for _, s := range page {
				if s.begins > 0 {
					section = s.begins - 1
					l.begins = append(l.begins, section)
					starts[section] = len(leaves) + 1
				}
			}
			l.last = section
			leaves = append(leaves, l)
		}
	}
	return leaves
}

// section sets the title of a section and its blocks.
func (s setter) section(sec Section, number int) []strip {
	title := kept(s.text(sheet.RoleHeading, textSection, 0, sec.Title))
	title = append(title, strip{height: 1.5, keep: true})
	title[0].begins = number
	list := append([]strip{air(6)}, title...)
	for i, b := range sec.Blocks {
		set := s.block(b)
		if i == 0 && len(set) > 0 && set[0].air { // the title is kept with what follows
			set = set[1:]
		}
		list = append(list, set...)
	}
	for i := range list[:len(list)-1] {
		if list[i].keep && list[i+1].air {
			list[i+1].air, list[i+1].keep = false, true
		}
	}
	list[len(list)-1].keep = false
	return list
}

// front is the title of the book, and the list of its sections with their pages.
func (b Book) front(s setter, starts []int) []strip {
	list := s.text(sheet.RoleHeading, textTitle, 0, b.Called())
	list = append(list, s.text(sheet.RoleNote, textBody, 0, b.Stamp())...)
	list = append(list, strip{height: 3})
	for k, sec := range b.Sections {
		set := s.text(sheet.RoleNote, textBody, 0, sec.Title)
		draw := set[0].draw
		set[0].draw = func(at orb.Point) ([]sheet.Item, []sheet.View) {
			items, _ := draw(at)
			return append(items, word(sheet.RoleNote, orb.Point{at[0] + s.width, at[1] + textBody*leading/2}, sheet.End,
				textBody, fmt.Sprint(starts[k]))), nil
		}
		list = append(list, set...)
	}
	return list
}

// edges are the head and the foot of a page.
func (b Book) edges(width, height float64, n, of int, section string) []sheet.Item {
	left, right := marginLeft, width-marginRight
	top, bottom := marginTop-8.0, height-marginBottom+8.0
	line := func(y float64) sheet.Item {
		return sheet.Line{Role: sheet.RoleHatch, Path: orb.LineString{{left, y}, {right, y}}}
	}
	number := fmt.Sprintf("page %d of %d", n, of)
	return []sheet.Item{
		word(sheet.RoleHeading, orb.Point{left, top}, sheet.Start, textSmall,
			short(sheet.RoleHeading, b.Called(), right-left-sheet.TextWidth(sheet.RoleNote, b.Stamp(), textSmall)-5)),
		word(sheet.RoleNote, orb.Point{right, top}, sheet.End, textSmall, b.Stamp()),
		line(top + 3), line(bottom - 3),
		word(sheet.RoleNote, orb.Point{left, bottom}, sheet.Start, textSmall,
			short(sheet.RoleNote, section, right-left-sheet.TextWidth(sheet.RoleNote, number, textSmall)-5)),
		word(sheet.RoleNote, orb.Point{right, bottom}, sheet.End, textSmall, number),
	}
}

// short cuts a text that is too long for its line.
func short(role sheet.Role, text string, width float64) string {
	all := lines(role, text, textSmall, width-textSmall)
	if len(all) < 2 {
		return text
	}
	return all[0] + "…"
}
