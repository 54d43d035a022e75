package paper

import (
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/say"
)

// board is a part of a drawing at full size that is cut into pages.
type board struct {
	drawing *sheet.Drawing
	shown   orb.Bound
	pieces  []orb.Bound    // to be kept whole where that can be
	name    string         // in captions and bookmarks: "satin"
	head    *sheet.Drawing // stands before it on its first page; nil: none
}

// Print is a document of boards that are cut into pages.
type Print struct {
	sheet.Document
	Bands, Lengths int // of the board that is cut into the most: 1 and 1 where nothing is to be joined
}

// add takes up the pages of another board.
func (p *Print) add(more Print) {
	p.Pages = append(p.Pages, more.Pages...)
	p.Bands, p.Lengths = max(p.Bands, more.Bands), max(p.Lengths, more.Lengths)
}

// paging is how boards are cut into pages. Lengths are mm.
type paging struct {
	height  float64 // of a page
	longest float64 // page
	margin  float64 // free of everything on all sides
	caption float64 // strip at the start of each page for words
	overlap float64 // of neighbours
	mark    string  // at the end of each caption
	theme   sheet.Theme
}

// maxPages is the most pages of one file: more than anybody joins.
const maxPages = 500

// cut cuts a board into bands along it, each as high as the page allows, and those into
// pages, where that keeps the most of its pieces whole.
func (c paging) cut(b board) (Print, error) {
	across, err := c.bands(b)
	if err != nil {
		return Print{}, err
	}
	before := 0.0
	if b.head != nil {
		before = b.head.Width
	}
	most := c.longest - 2*c.margin - c.caption
	along := keeping(b.shown.Min[0], b.shown.Max[0], most, before, c.overlap, intervals(b.pieces, 0))
	if len(across)*len(along) > maxPages {
		return Print{}, c.tooMany(b)
	}
	b.join(along, across)
	return c.pages(b, along, across), nil
}

// bands cuts a board into bands.
func (c paging) bands(b board) ([]span, error) {
	high, room := b.shown.Max[1]-b.shown.Min[1], c.height-2*c.margin
	long := b.shown.Max[0] - b.shown.Min[0]
	if !(high/(room-c.overlap) < maxPages && long < maxPages*c.longest) {
		return nil, c.tooMany(b)
	}
	return keeping(b.shown.Min[1], b.shown.Max[1], room, 0, c.overlap, intervals(b.pieces, 1)), nil
}

func (c paging) tooMany(b board) error {
	return say.Errorf("%s, %.0f by %.0f, would take over %d pages, the most there are", b.name,
		say.MM(b.shown.Max[0]-b.shown.Min[0]), say.MM(b.shown.Max[1]-b.shown.Min[1]), maxPages).
		Hint("take a wider roll or a larger picture")
}

// intervals are what bounds cover along an axis.
func intervals(bounds []orb.Bound, axis int) []span {
	list := make([]span, len(bounds))
	for i, b := range bounds {
		list[i] = span{b.Min[axis], b.Max[axis]}
	}
	return list
}

// join draws the lines and crosses of joins where there are any.
func (b board) join(along, across []span) {
	if len(across)+len(along) > 2 {
		b.drawing.Groups = append(b.drawing.Groups, sheet.Group{Title: "joins", Items: joins(along, across)})
	}
}

// pages makes the pages of a board, band by band.
func (c paging) pages(b board, along, across []span) Print {
	made := Print{Bands: len(across), Lengths: len(along)}
	for i, band := range across {
		for j, part := range along {
			said, head := b.name, b.head
			if len(across) > 1 {
				said += fmt.Sprintf(", band %d of %d from the top", i+1, len(across))
			}
			if len(along) > 1 {
				said += fmt.Sprintf(", length %d of %d", j+1, len(along))
			}
			if i+j > 0 {
				head = nil
			}
			made.Pages = append(made.Pages, c.page(b.drawing, orb.Bound{Min: orb.Point{part.from, band.from},
				Max: orb.Point{part.to, band.to}}, said, head))
		}
	}
	return made
}

// page lays out one page: caption, head, and a part of the drawing.
func (c paging) page(d *sheet.Drawing, part orb.Bound, said string, head *sheet.Drawing) sheet.Page {
	width, height := part.Max[0]-part.Min[0], part.Max[1]-part.Min[1]
	x := c.margin + c.caption
	if head != nil {
		x += head.Width
	}
	p := sheet.Page{Width: x + width + c.margin, Height: c.height, Bookmark: said}
	if c.theme == sheet.ThemeLight { // dark to its edges
		p.Views = append(p.Views,
			sheet.Whole(&sheet.Drawing{Title: "ground", Width: p.Width, Height: p.Height, Scale: 1,
				Theme: c.theme}, orb.Point{}))
	}
	p.Views = append(p.Views, sheet.Whole(c.words(said), orb.Point{c.margin, c.margin}))
	if head != nil {
		p.Views = append(p.Views, sheet.Whole(head, orb.Point{c.margin + c.caption, c.margin}))
	}
	p.Views = append(p.Views, sheet.View{Drawing: d, From: part.Min,
		Window: orb.Bound{Min: orb.Point{x, c.margin}, Max: orb.Point{x + width, c.margin + height}}})
	return p
}

// words sets a caption upright along the start of a page, as large as it has room.
func (c paging) words(said string) *sheet.Drawing {
	height := c.height - 2*c.margin
	t := sheet.Text{Role: sheet.RoleNote, At: orb.Point{c.caption * 0.4, height / 2}, Anchor: sheet.Middle,
		Size: c.caption / 2, Turn: 90, Body: strings.Join([]string{said, c.mark}, " · ")}
	t.Size *= math.Min(1, height/t.Width())
	return &sheet.Drawing{Title: said, Width: c.caption, Height: height, Scale: 1, Theme: c.theme,
		Groups: []sheet.Group{{Items: []sheet.Item{t}}}}
}
