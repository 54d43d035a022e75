package paper

import (
	"context"
	"fmt"
	"time"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/plane"
)

// Tiled is a print of patterns on sheets to be joined.
type Tiled struct {
	Head    Head
	Subject string
	Date    time.Time
	Mark    string // on each sheet
	Sheets  Sheets
	Key     []sheet.Paragraph // explains the signs, on the first page
	Lists   [][]string        // what is said of each pattern where they are listed: what it is and how it is cut
}

// Made is a print on sheets and what it takes.
type Made struct {
	Document   sheet.Document
	Sheets     int // with pieces on them
	Cols, Rows int // of the grid that they make
	Firsts     int // pages before them
	Boxes      int // sheets that the bounding boxes of the pieces would take
}

// Pieces prints patterns: pages with the map of the sheets and the test square, then every
// sheet that something is on, row by row.
func (t Tiled) Pieces(ctx context.Context, all []Pattern) (Made, error) {
	laid, boxes, err := t.Sheets.onSheets(ctx, all)
	if err != nil {
		return Made{}, err
	}
	if laid.sheets > maxSheets {
		return Made{}, t.Sheets.tooMany()
	}
	p := t.plot(laid, all)
	pages := t.firstPages(p)
	firsts := len(pages)
	for r, row := range laid.printed {
		for c, is := range row {
			if is {
				pages = append(pages, p.page(r, c))
			}
		}
	}
	return Made{
		Document: sheet.Document{Title: t.Head.Title, Subject: t.Subject, Date: t.Date, Pages: pages},
		Sheets:   laid.sheets, Cols: laid.grid.cols, Rows: laid.grid.rows, Firsts: firsts, Boxes: boxes,
	}, nil
}

// plotted are patterns drawn in their places on the joined sheets.
type plotted struct {
	Tiled
	spread
	rings  []orb.Ring // what each takes up, y down
	drawn  []*sheet.Drawing
	corner []orb.Point        // where the (0, 0) of each drawing lies
	bounds []orb.Bound        // of each drawing on the joined sheets
	lines  [][]orb.LineString // that names of sheets keep clear of
}

// around is the room about a drawing, for its ink, mm.
const around = 2.0

func (t Tiled) plot(laid spread, all []Pattern) plotted {
	p := plotted{Tiled: t, spread: laid, rings: laid.rings(all)}
	for i, s := range laid.spots {
		b := p.rings[i].Bound().Pad(around)
		origin := orb.Point{-b.Min[0] + s.pose.At[0], -b.Min[1] - s.pose.At[1]}
		g := all[s.pattern].Draw(plane.Pose{Turn: s.pose.Turn}, origin)
		p.drawn = append(p.drawn, &sheet.Drawing{Title: all[s.pattern].Name, Width: b.Max[0] - b.Min[0],
			Height: b.Max[1] - b.Min[1], Scale: 1, Theme: sheet.ThemeLines, Groups: []sheet.Group{g}})
		p.corner, p.bounds = append(p.corner, b.Min), append(p.bounds, b)
		p.lines = append(p.lines, inkOf(g.Items, b.Min))
	}
	return p
}

// inkOf are the lines of items and what their texts take up, moved.
func inkOf(items []sheet.Item, by orb.Point) []orb.LineString {
	var all []orb.LineString
	add := func(ps []orb.Point) {
		line := make(orb.LineString, len(ps))
		for i, p := range ps {
			line[i] = orb.Point{p[0] + by[0], p[1] + by[1]}
		}
		all = append(all, line)
	}
	for _, it := range items {
		switch it := it.(type) {
		case sheet.Shape:
			add(it.Ring)
		case sheet.Line:
			add(it.Path)
		case sheet.Text:
			sin, cos := plane.SinCos(it.Turn)
			w, h := it.Width()/2, it.Size/2
			for _, up := range []float64{-h, 0, h} { // closer than the height of a name
				at := orb.Point{it.At[0] - up*sin, it.At[1] - up*cos}
				add([]orb.Point{{at[0] - w*cos, at[1] + w*sin}, {at[0] + w*cos, at[1] - w*sin}})
			}
		}
	}
	return all
}

// page is one sheet: the parts of the patterns that it shows, and over them its name,
// those of its neighbours, and the crosses and lines that it is joined by.
func (p plotted) page(row, col int) sheet.Page {
	s, w := p.Sheets, p.grid.window(row, col)
	name := sheetName(row, col)
	on := orb.Bound{Min: orb.Point{s.Margin, s.Margin}, Max: orb.Point{s.Width - s.Margin, s.Height - s.Margin}}
	page := sheet.Page{Width: s.Width, Height: s.Height, Bookmark: "sheet " + name}
	for i, b := range p.bounds {
		if b.Intersects(w) {
			page.Views = append(page.Views, sheet.View{Drawing: p.drawn[i], Window: on,
				From: orb.Point{w.Min[0] - p.corner[i][0], w.Min[1] - p.corner[i][1]}})
		}
	}
	over := &sheet.Drawing{Title: "sheet " + name, Width: w.Max[0] - w.Min[0], Height: w.Max[1] - w.Min[1], Scale: 1,
		Theme: sheet.ThemeLines}
	over.Groups = []sheet.Group{{Title: "joins", Items: p.joins(row, col)},
		{Title: "names", Items: p.names(row, col, w)}}
	page.Views = append(page.Views, sheet.Whole(over, on.Min))
	return page
}

// crossArm is the arm of a cross at a corner, mm.
const crossArm = 4.0

// joins draws the crosses at the corners of a sheet's cell, and lines along its sides: on a
// sheet that overlaps where the next one comes to lie, else where all are cut.
func (p plotted) joins(row, col int) []sheet.Item {
	sx, sy := p.Sheets.step()
	o := p.Sheets.Overlap / 2
	a, b := orb.Point{o, o}, orb.Point{o + sx, o + sy}
	line := func(role sheet.Role, x0, y0, x1, y1 float64) sheet.Item {
		return sheet.Line{Role: role, Path: orb.LineString{{x0, y0}, {x1, y1}}}
	}
	var items []sheet.Item
	for _, x := range []float64{a[0], b[0]} {
		for _, y := range []float64{a[1], b[1]} {
			items = append(items, line(sheet.RoleEdge, x-crossArm, y, x+crossArm, y),
				line(sheet.RoleEdge, x, y-crossArm, x, y+crossArm))
		}
	}
	if p.has(row, col-1) {
		items = append(items, line(sheet.RoleJoin, a[0], a[1], a[0], b[1]))
	}
	if p.has(row, col+1) {
		items = append(items, line(sheet.RoleJoin, b[0], a[1], b[0], b[1]))
	}
	if p.has(row-1, col) {
		items = append(items, line(sheet.RoleJoin, a[0], a[1], b[0], a[1]))
	}
	if p.has(row+1, col) {
		items = append(items, line(sheet.RoleJoin, a[0], b[1], b[0], b[1]))
	}
	return items
}

// has says whether a sheet is printed.
func (p plotted) has(row, col int) bool {
	return row >= 0 && col >= 0 && row < p.grid.rows && col < p.grid.cols && p.printed[row][col]
}

// Sizes of what stands on each sheet, mm.
const (
	nameText = 5.0
	sideText = 3.2
	nameRoom = 1.5 // off the lines of the cell
)

// places are where a name stands along a side, as shares of it, the likeliest first.
var places = []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88}

// depths are how far from its side a name moves that finds no place along it, as shares of
// the sheet.
var depths = []float64{0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7}

// names writes the sheet's own name and, at its sides, those of its neighbours, off the
// lines and words of the pieces where there is room.
func (p plotted) names(row, col int, w orb.Bound) []sheet.Item {
	sx, sy := p.Sheets.step()
	o := p.Sheets.Overlap / 2
	ink := p.inkIn(w)
	var items []sheet.Item
	put := func(size float64, body string, depths []float64, at func(share, deep, wide float64) orb.Point) {
		t := sheet.Text{Role: sheet.RoleNote, Anchor: sheet.Middle, Size: size, Body: body}
		t.At = freePlace(t, ink, depths, at)
		items, ink = append(items, t), append(ink, orb.LineString(textBox(t).ToRing()))
	}
	side := sideText/2 + nameRoom
	along := depths[:1]
	if p.has(row-1, col) {
		put(sideText, sheetName(row-1, col), along,
			func(s, _, _ float64) orb.Point { return orb.Point{o + s*sx, o + side} })
	}
	if p.has(row+1, col) {
		put(sideText, sheetName(row+1, col), along,
			func(s, _, _ float64) orb.Point { return orb.Point{o + s*sx, o + sy - side} })
	}
	if p.has(row, col-1) {
		put(sideText, sheetName(row, col-1), along,
			func(s, _, w float64) orb.Point { return orb.Point{o + nameRoom + w, o + s*sy} })
	}
	if p.has(row, col+1) {
		put(sideText, sheetName(row, col+1), along,
			func(s, _, w float64) orb.Point { return orb.Point{o + sx - nameRoom - w, o + s*sy} })
	}
	within := func(s, w float64) float64 { return max(o+nameRoom+w, min(o+s*sx, o+sx-nameRoom-w)) }
	put(nameText, fmt.Sprintf("%s: row %s, column %d", sheetName(row, col), rowName(row), col+1), depths,
		func(s, deep, w float64) orb.Point {
			return orb.Point{within(s, w), o + side + nameText*1.2 + deep*sy}
		})
	put(sideText, p.Mark, depths, func(s, deep, w float64) orb.Point {
		return orb.Point{within(s, w), o + sy - side - sideText*1.5 - deep*sy}
	})
	return items
}

// freePlace is the first place of a text that is clear of all ink, or the first of all.
func freePlace(t sheet.Text, ink []orb.LineString, depths []float64,
	at func(share, deep, wide float64) orb.Point) orb.Point {
	wide := t.Width() / 2
	for _, deep := range depths {
		for _, share := range places {
			t.At = at(share, deep, wide)
			if clearOf(ink, textBox(t)) {
				return t.At
			}
		}
	}
	return at(places[0], depths[0], wide)
}

// inkIn are the lines of the patterns that a window shows, from its corner.
func (p plotted) inkIn(w orb.Bound) []orb.LineString {
	var all []orb.LineString
	for i, b := range p.bounds {
		if !b.Intersects(w) {
			continue
		}
		for _, l := range p.lines[i] {
			if !l.Bound().Intersects(w) {
				continue
			}
			moved := make(orb.LineString, len(l))
			for k, v := range l {
				moved[k] = orb.Point{v[0] - w.Min[0], v[1] - w.Min[1]}
			}
			all = append(all, moved)
		}
	}
	return all
}

// textBox is what a level text takes up, with air.
func textBox(t sheet.Text) orb.Bound {
	w, h := t.Width()/2+0.5, t.Size/2+0.5
	return orb.Bound{Min: orb.Point{t.At[0] - w, t.At[1] - h}, Max: orb.Point{t.At[0] + w, t.At[1] + h}}
}

// clearOf says whether a box meets none of some lines.
func clearOf(lines []orb.LineString, box orb.Bound) bool {
	for _, l := range lines {
		for i := 1; i < len(l); i++ {
			if crosses(l[i-1], l[i], box) {
				return false
			}
		}
	}
	return true
}
