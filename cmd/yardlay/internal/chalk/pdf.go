package chalk

import (
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
)

// Paper, mm: A4 (ISO 216) and US Letter (8 1/2 by 11 in), upright.
const (
	a4Width, a4Height         = 210.0, 297.0
	letterWidth, letterHeight = 215.9, 279.4
	paperEdge                 = 12.0
	markerHigh                = 100.0
	bandOver                  = 15.0
	sketchHigh                = 92.0
	simpleHigh                = 66.0 // of a piece of four points and no pivot: two stand on a page
	rowHigh                   = 4.4
	rowSize                   = 3.2
)

// PDF writes the document as pages to print: the marker with the way to read the tables,
// then each piece with its drawing and its table.
func (d Document) PDF() ([]byte, error) {
	return sheet.Document{Title: d.Title, Subject: "Set-out tables", Date: d.Date, Pages: d.Pages()}.PDF()
}

// Pages sets the document.
func (d Document) Pages() []sheet.Page {
	s := &setter{d: d, width: letterWidth, height: letterHeight}
	if d.Tape.Unit.Metric() {
		s.width, s.height = a4Width, a4Height
	}
	for i, l := range d.Markers {
		s.marker(l, i == 0)
		for _, p := range l.Pieces {
			s.piece(l, p)
		}
	}
	for i := range s.pages {
		s.foot(i)
	}
	return s.pages
}

// setter sets one page after the other, from the top down.
type setter struct {
	d             Document
	width, height float64
	pages         []sheet.Page
	words         []*sheet.Drawing // of each page
	y             float64
	alone         bool // nothing may follow on this page
}

// begin begins a page.
func (s *setter) begin(bookmark string) {
	words := &sheet.Drawing{Title: s.d.Title, Description: "a page to print", Width: s.width, Height: s.height,
		Scale: 1,
		Theme: sheet.ThemeLines, Groups: []sheet.Group{{}}}
	s.pages = append(s.pages, sheet.Page{Width: s.width, Height: s.height, Bookmark: bookmark,
		Views: []sheet.View{sheet.Whole(words, orb.Point{})}})
	s.words, s.y = append(s.words, words), paperEdge
}

func (s *setter) add(items ...sheet.Item) {
	g := &s.words[len(s.words)-1].Groups[0]
	g.Items = append(g.Items, items...)
}

// wide is the width that is printed on.
func (s *setter) wide() float64 { return s.width - 2*paperEdge }

// room begins another page where less than a height is left.
func (s *setter) room(high float64, again string) {
	if s.y+high <= s.height-paperEdge-5 {
		return
	}
	s.begin("")
	s.say(sheet.RoleHeading, 4.2, again)
}

// say sets a paragraph.
func (s *setter) say(role sheet.Role, size float64, text string) {
	items, bottom := sheet.Column(orb.Point{paperEdge, s.y}, s.wide(),
		sheet.Paragraph{Role: role, Size: size, Body: text})
	if bottom > s.height-paperEdge-5 && s.y > paperEdge {
		s.begin("")
		s.say(role, size, text)
		return
	}
	s.add(items...)
	s.y = bottom + 0.35*size
}

// show sets a drawing.
func (s *setter) show(d *sheet.Drawing) {
	d.Theme = sheet.ThemeLines
	page := &s.pages[len(s.pages)-1]
	page.Views = append(page.Views, sheet.Whole(d, orb.Point{paperEdge, s.y}))
	s.y += d.Height/d.Scale + 3
}

// marker sets the page of a marker; on the first one stands what holds for all.
func (s *setter) marker(l Marker, first bool) {
	mark := "Marker"
	if l.Name != "" {
		mark = l.Name
	}
	s.begin(mark)
	s.say(sheet.RoleHeading, 5.5, s.d.Title)
	if l.Name != "" {
		s.say(sheet.RoleHeading, 4.2, strings.ToUpper(l.Name[:1])+l.Name[1:])
	}
	if first {
		s.say(sheet.RoleNote, rowSize, strings.ToUpper(s.d.Cost[:1])+s.d.Cost[1:]+".")
		for _, n := range s.d.Notes {
			s.say(sheet.RoleNote, rowSize, n)
		}
	}
	for _, f := range l.Facts(s.d.Tape) {
		s.say(sheet.RoleNote, rowSize, f)
	}
	s.y += 2
	s.bands(l)
	s.say(sheet.RoleNote, figureSize, key(l))
	if first {
		for _, h := range HowTo(s.d.Tape) {
			s.say(sheet.RoleNote, rowSize, h)
		}
		for _, c := range s.d.Cautions {
			s.say(sheet.RoleCaution, rowSize, c)
		}
	}
	s.alone = len(s.pages[len(s.pages)-1].Views) > 1 // the marker is on it
}

// bands shows the marker, a long one in bands below each other that overlap a little.
func (s *setter) bands(l Marker) {
	k := l.scale(markerHigh)
	d := l.overview(s.d.Tape, k)
	d.Theme = sheet.ThemeLines
	high, advance := d.Height/k, (s.wide()-bandOver)*k
	for x := 0.0; ; x += advance {
		s.room(high+rowHigh, s.d.Title+", continued")
		if x > 0 {
			from := math.Max(0, x-figureRoom/2*k)
			s.say(sheet.RoleNote, figureSize, "from about "+s.d.Tape.Show(s.d.Tape.Round(from))+" along the cloth on")
		}
		page := &s.pages[len(s.pages)-1]
		page.Views = append(page.Views, sheet.View{Drawing: d, From: orb.Point{x, 0}, Window: orb.Bound{
			Min: orb.Point{paperEdge, s.y}, Max: orb.Point{paperEdge + s.wide(), s.y + high}}})
		s.y += high + 3
		if x+s.wide()*k >= d.Width {
			return
		}
	}
}

// key names the pieces of a marker by their numbers.
func key(l Marker) string {
	var names []string
	for _, p := range l.Pieces {
		name := fmt.Sprintf("%d %s", p.Number, p.Name)
		if p.Copy != "" {
			name += ", " + p.Copy
		}
		names = append(names, name)
	}
	return strings.Join(names, "; ")
}

// piece sets a piece below the last one where there is room for it, else on a page of its
// own, and on more where its table is long.
func (s *setter) piece(l Marker, p Piece) {
	points, lines, tall := p.Figures.Points(), p.Figures.Lines(s.d.Tape), sketchHigh
	if len(points) <= 4 {
		tall = simpleHigh
	}
	sketch := p.Sketch(s.d.Tape, l.Edge, s.wide(), tall)
	high := sketch.Height/sketch.Scale + 14 + float64(len(points)/2+2+len(lines))*rowHigh
	if s.alone || s.y+high > s.height-paperEdge-5 {
		s.begin(p.Title())
	} else {
		s.y += 6
	}
	s.alone = false
	s.say(sheet.RoleHeading, 4.8, p.Title())
	s.detail(p, sketch)
	s.show(sketch)
	again := p.Title() + ", continued"
	s.points(l, points, again)
	s.y += 2
	for _, r := range lines {
		items, bottom := sheet.Column(orb.Point{paperEdge + 22, s.y}, s.wide()-22,
			sheet.Paragraph{Role: sheet.RoleNote, Size: rowSize, Body: r.Words})
		if high := bottom - s.y; s.y+high > s.height-paperEdge-5 {
			s.room(high, again)
			items, bottom = sheet.Column(orb.Point{paperEdge + 22, s.y}, s.wide()-22,
				sheet.Paragraph{Role: sheet.RoleNote, Size: rowSize, Body: r.Words})
		}
		s.add(sheet.Text{Role: sheet.RoleHeading, At: orb.Point{paperEdge, s.y + rowSize*0.63}, Size: rowSize,
			Body: r.Label})
		s.add(items...)
		s.y = bottom + 0.6
	}
}

// detail shows what is crowded in a sketch at the right of it, where there is room.
func (s *setter) detail(p Piece, sketch *sheet.Drawing) {
	x := s.width - paperEdge - detailSize
	if sketch.Height < detailSize*sketch.Scale || paperEdge+sketch.Width/sketch.Scale > x {
		return
	}
	if v := p.Detail(s.d.Tape, sketch.Scale, orb.Point{x, s.y}); v != nil {
		page := &s.pages[len(s.pages)-1]
		page.Views = append(page.Views, *v)
		s.add(sheet.Line{Role: sheet.RoleDim, Path: orb.LineString(sheet.Box(x, s.y, x+detailSize, s.y+detailSize))})
	}
}

// points sets the table of points in two columns side by side, read downward.
func (s *setter) points(l Marker, all []Point, again string) {
	for len(all) > 0 {
		s.room(4*rowHigh, again)
		fit := max(1, int((s.height-paperEdge-5-s.y)/rowHigh)-1)
		rows := min(fit, (len(all)+1)/2)
		top := s.y
		for column := range 2 {
			x := paperEdge + float64(column)*s.wide()/2
			n := min(rows, len(all))
			if n == 0 {
				break
			}
			s.y = top
			s.row(x, sheet.RoleHeading, "point", "from cut end", "from "+l.Edge)
			for _, r := range all[:n] {
				s.row(x, sheet.RoleNote, r.Label, s.d.Tape.Show(r.At[0]), s.d.Tape.Show(r.At[1]))
			}
			all = all[n:]
		}
		s.y = top + float64(rows+1)*rowHigh
	}
}

func (s *setter) row(x float64, role sheet.Role, label, along, across string) {
	y := s.y + rowHigh/2
	s.add(sheet.Text{Role: sheet.RoleHeading, At: orb.Point{x, y}, Size: rowSize, Body: label},
		sheet.Text{Role: role, At: orb.Point{x + 46, y}, Anchor: sheet.End, Size: rowSize, Body: along},
		sheet.Text{Role: role, At: orb.Point{x + 80, y}, Anchor: sheet.End, Size: rowSize, Body: across})
	s.y += rowHigh
}

// foot writes what a page belongs to, and its number.
func (s *setter) foot(i int) {
	g := &s.words[i].Groups[0]
	y := s.height - paperEdge + 2
	g.Items = append(g.Items,
		sheet.Text{Role: sheet.RoleNote, At: orb.Point{paperEdge, y}, Size: figureSize,
			Body: fmt.Sprintf("%s · %s · mark %s", s.d.Title, s.d.Date.Format(time.DateOnly), s.d.Mark)},
		sheet.Text{Role: sheet.RoleNote, At: orb.Point{s.width - paperEdge, y}, Anchor: sheet.End, Size: figureSize,
			Body: fmt.Sprintf("page %d of %d", i+1, len(s.pages))})
}
