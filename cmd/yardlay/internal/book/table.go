package book

import (
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
)

// Measures of a table on paper, mm.
const (
	cellGap   = 3.5 // between columns
	cellLeast = 9.0 // width of a column
	rowAir    = 0.9 // over and under the lines of a row
	tickSize  = 3.0 // of a box to tick, with its room behind it
	tickRoom  = 5.2
	mostMore  = 14.0 // that a column gets beyond what it takes
)

// table sets rows under heads, which come again at the top of each page.
func (s setter) table(t Table) []strip {
	if len(t.Rows) == 0 {
		return nil
	}
	list := []strip{air(1.2)}
	if t.Shown && t.Caption != "" {
		list = append(list, kept(s.text(sheet.RoleNote, textBody, 0, t.Caption))...)
	}
	half := setter{(s.width - halfGap) / 2}
	if t.Beside && len(t.Rows) > 1 && !slices.ContainsFunc(t.Rows, func(r Row) bool { return r.Kind == RowGroup }) {
		if g := half.grid(t); g.loose {
			return append(append(list, g.pairs(t)...), air(2.4))
		}
	}
	return append(append(list, s.grid(t).rows(t)...), air(2.4))
}

// rows sets the heads and all rows below each other.
func (g grid) rows(t Table) []strip {
	var list []strip
	head := g.head(t)
	if head != nil {
		first := *head
		first.keep = true
		list = append(list, first)
	}
	again := head
	for k, r := range t.Rows {
		row := g.row(r)
		if k == 0 && row[0].air {
			row = row[1:]
		}
		for i := range row {
			row[i].head = again
		}
		if r.Kind == RowGroup {
			again = g.continued(head, r)
			for i := range row {
				row[i].head = head
			}
		}
		list = append(list, row...)
	}
	return list
}

// halfGap stands between two halves of a page, mm.
const halfGap = 10.0

// pairs sets two rows beside each other, each in a half of the page.
func (g grid) pairs(t Table) []strip {
	var list []strip
	head := g.head(t)
	if head != nil {
		both := beside([]strip{*head}, []strip{*head}, g.width+halfGap)
		head = &both[0]
		first := *head
		first.keep = true
		list = append(list, first)
	}
	for k := 0; k < len(t.Rows); k += 2 {
		row := g.row(t.Rows[k])
		if k+1 < len(t.Rows) {
			row = beside(row, g.row(t.Rows[k+1]), g.width+halfGap)
		}
		for i := range row {
			row[i].head = head
		}
		list = append(list, row...)
	}
	return list
}

// beside sets strips beside others, the last ones beside each other.
func beside(a, b []strip, right float64) []strip {
	most := max(len(a), len(b))
	list := make([]strip, most)
	for i := range list {
		var halves [2]*strip
		for k, half := range [][]strip{a, b} {
			switch {
			case i == most-1:
				halves[k] = &half[len(half)-1]
			case i < len(half)-1:
				halves[k] = &half[i]
			}
		}
		for _, h := range halves {
			if h != nil {
				list[i].height, list[i].keep = max(list[i].height, h.height), list[i].keep || h.keep
			}
		}
		list[i].draw = func(at orb.Point) (items []sheet.Item, views []sheet.View) {
			for k, h := range halves {
				if h != nil {
					more, seen := h.draw(orb.Point{at[0] + float64(k)*right, at[1]})
					items, views = append(items, more...), append(views, seen...)
				}
			}
			return items, views
		}
	}
	return list
}

// continued is what stands at the top of a page over more rows of a group.
func (g grid) continued(head *strip, group Row) *strip {
	name := g.text(sheet.RoleHeading, textBody, 0, group.name()+", continued")[0]
	if head == nil {
		return &name
	}
	return &strip{height: head.height + name.height, draw: func(at orb.Point) ([]sheet.Item, []sheet.View) {
		items, _ := head.draw(at)
		more, _ := name.draw(orb.Point{at[0], at[1] + head.height})
		return append(items, more...), nil
	}}
}

// name is what a group is called.
func (r Row) name() string { return strings.Join(r.Cells, " ") }

// grid is where the columns of a table lie.
type grid struct {
	setter
	columns []Column
	x, w    []float64 // left edge and width of each
	tick    float64   // room for boxes before the first
	end     float64   // right edge of the last
	loose   bool      // no cell is broken into lines
}

// grid shares the width out: to each column what its widest cell takes, where that is too
// much less to those that can be broken between words.
func (s setter) grid(t Table) grid {
	g := grid{setter: s, columns: t.Columns, x: make([]float64, len(t.Columns)), w: make([]float64, len(t.Columns))}
	least := make([]float64, len(t.Columns))
	for _, r := range t.Rows {
		if r.Ticks != nil {
			g.tick = tickRoom
		}
	}
	measure := func(k int, role sheet.Role, size float64, text string) {
		g.w[k] = math.Max(g.w[k], sheet.TextWidth(role, text, size)+rounding)
		for _, word := range strings.Fields(text) {
			least[k] = math.Max(least[k], sheet.TextWidth(role, word, size)+rounding)
		}
	}
	for k, c := range t.Columns {
		g.w[k], least[k] = cellLeast, cellLeast
		measure(k, sheet.RoleHeading, textSmall, c.Head)
	}
	for _, r := range t.Rows {
		for k, c := range r.Cells {
			if r.Kind != RowGroup && k < len(g.w) {
				measure(k, r.role(), textBody, c)
			}
		}
	}
	g.share(least, s.width-g.tick-cellGap*float64(len(g.w)-1))
	x := g.tick
	for k := range g.x {
		g.x[k] = x
		x += g.w[k] + cellGap
	}
	g.end = x - cellGap
	return g
}

// share makes columns narrower until they fit, or wider where there is room.
func (g *grid) share(least []float64, room float64) {
	sum, slack := 0.0, 0.0
	for k := range g.w {
		sum, slack = sum+g.w[k], slack+g.w[k]-least[k]
	}
	over := sum - room
	switch {
	case len(g.w) == 0:
	case over <= 0:
		g.loose = true
		for k := range g.w {
			g.w[k] += math.Min(-over/float64(len(g.w)), mostMore)
		}
	case over <= slack:
		for k := range g.w {
			g.w[k] -= over * (g.w[k] - least[k]) / slack
		}
	default: // words are broken: in the widest columns first
		most := narrowed(least, room)
		for k := range g.w {
			g.w[k] = math.Min(least[k], most)
		}
	}
}

// narrowed is the width that no column may exceed for all to fit.
func narrowed(widths []float64, room float64) float64 {
	sorted := slices.Sorted(slices.Values(widths))
	for k, w := range sorted {
		if share := room / float64(len(sorted)-k); w > share {
			return share
		}
		room -= w
	}
	return math.Inf(1)
}

// role is that of the letters of a row.
func (r Row) role() sheet.Role {
	if r.Kind == RowItem {
		return sheet.RoleNote
	}
	return sheet.RoleHeading
}

// cell is the word of a column on a line at a height.
func (g grid) cell(k int, role sheet.Role, at orb.Point, size float64, text string) sheet.Item {
	if g.columns[k].Right {
		return word(role, orb.Point{at[0] + g.x[k] + g.w[k], at[1]}, sheet.End, size, text)
	}
	return word(role, orb.Point{at[0] + g.x[k], at[1]}, sheet.Start, size, text)
}

// head is the strip of the heads, on a ground; nil where no column has one.
func (g grid) head(t Table) *strip {
	cells, most := make([][]string, len(t.Columns)), 0
	for k, c := range t.Columns {
		if c.Head != "" {
			cells[k] = lines(sheet.RoleHeading, c.Head, textSmall, g.w[k])
		}
		most = max(most, len(cells[k]))
	}
	if most == 0 {
		return nil
	}
	height := float64(most)*textSmall*leading + 2*rowAir
	return &strip{height: height + rowAir, draw: func(at orb.Point) ([]sheet.Item, []sheet.View) {
		items := []sheet.Item{sheet.Shape{Role: sheet.RoleSpare,
			Ring: sheet.Box(at[0]-1, at[1], at[0]+g.end+1, at[1]+height)}}
		for k, c := range cells {
			for i, line := range c {
				y := at[1] + height - rowAir - (float64(len(c)-i)-0.5)*textSmall*leading
				items = append(items, g.cell(k, sheet.RoleHeading, orb.Point{at[0], y}, textSmall, line))
			}
		}
		return items, nil
	}}
}

// row sets the lines of a row, the rule under it with its last one.
func (g grid) row(r Row) []strip {
	if r.Kind == RowGroup {
		list := g.text(sheet.RoleHeading, textBody, 0, r.name())
		return append([]strip{air(2)}, kept(list)...)
	}
	cells, most := make([][]string, len(g.columns)), 1
	for k, c := range r.Cells {
		if k < len(cells) {
			cells[k] = lines(r.role(), c, textBody, g.w[k])
			most = max(most, len(cells[k]))
		}
	}
	var list []strip
	for i := range most {
		list = append(list, strip{height: textBody * leading, draw: func(at orb.Point) ([]sheet.Item, []sheet.View) {
			at[1] += textBody * leading / 2
			var items []sheet.Item
			if i == 0 && r.Ticks != nil {
				items = append(items, tickBox(at))
			}
			for k, c := range cells {
				if i < len(c) {
					items = append(items, g.cell(k, r.role(), at, textBody, c[i]))
				}
			}
			return items, nil
		}})
	}
	for _, d := range r.Details {
		list = append(list, g.text(sheet.RoleNote, textSmall, g.tick+3, d)...)
	}
	list = append(kept(list[:1:1]), list[1:]...)
	if len(list) <= mostKept {
		kept(list)
	} else {
		list[len(list)-1].keep = true
	}
	return append(list, g.rule(r.Kind))
}

// mostKept is how many lines of a row stay on one page; a longer row is parted.
const mostKept = 8

// rule is the line under a row.
func (g grid) rule(kind RowKind) strip {
	role := sheet.RoleHatch
	if kind == RowSum {
		role = sheet.RoleDim
	}
	return strip{height: 2 * rowAir, draw: func(at orb.Point) ([]sheet.Item, []sheet.View) {
		y := at[1] + rowAir
		return []sheet.Item{sheet.Line{Role: role, Path: orb.LineString{{at[0], y}, {at[0] + g.end, y}}}}, nil
	}}
}

// tickBox is a box to tick with a pencil, beside the middle of a line.
func tickBox(at orb.Point) sheet.Item {
	return sheet.Line{Role: sheet.RoleNotch,
		Path: orb.LineString(sheet.Box(at[0], at[1]-tickSize/2, at[0]+tickSize, at[1]+tickSize/2))}
}
