package book

import (
	"cmp"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/sheet"
)

// cloth is one cloth with its markers: how it is spread and cut.
func (g Gown) cloth(i int) Section {
	c, m := g.Report.Cloths[i], g.Markers[i]
	sec := Section{Title: "Cutting: " + c.Title, Wide: true}
	for _, fact := range m.Facts() {
		sec.Blocks = append(sec.Blocks, Paragraph{Text: fact, Keep: true})
	}
	lines := paragraphs(false, g.Report.Lines(c))
	for k := range m.Stretches {
		sec.Blocks = append(sec.Blocks, g.marker(m, k)...)
		if k == 0 {
			sec.Blocks = append(sec.Blocks, lines...)
		}
		sec.Blocks = append(sec.Blocks, ticks(m.Stretches[k]))
	}
	if len(m.Stretches) == 0 {
		sec.Blocks = append(sec.Blocks, lines...)
	}
	return sec
}

// Cutting says how each cloth is spread and cut, without its drawings.
func (g Gown) Cutting() Section {
	sec := Section{Title: "Spreading and cutting"}
	for _, c := range g.Report.Cloths {
		if lines := g.Report.Lines(c); len(lines) > 0 {
			sec.Blocks = append(sec.Blocks, Heading{c.Title})
			sec.Blocks = append(sec.Blocks, paragraphs(false, lines)...)
		}
	}
	return sec
}

// marker is the drawing of a stretch with what explains it.
func (g Gown) marker(m sheet.Marker, k int) []Block {
	width, height := g.Paper.room()
	stamp := strings.TrimPrefix(m.Title+" · ", " · ") + m.Cloth + " · " + Stamp(g.Date, g.Mark)
	small := m.Small(k, width, height, stamp)
	blocks := []Block{Figure{Drawing: small.Drawing, Caption: small.Name}}
	blocks = append(blocks, paragraphs(false, small.Notes)...)
	return append(blocks, explained(small.Key)...)
}

// explained sets the key of a marker: a list under each of its headings.
func explained(key []sheet.Paragraph) []Block {
	var blocks []Block
	var list *Table
	for _, p := range key {
		switch {
		case p.Role == sheet.RoleCaution: // in a section of their own
		case p.Role == sheet.RoleHeading:
			list = &Table{Caption: p.Body, Beside: true, Columns: []Column{{}}}
			blocks = append(blocks, Heading{p.Body}, list)
		case list == nil:
			blocks = append(blocks, Paragraph{Text: p.Body})
		default:
			list.Rows = append(list.Rows, Row{Cells: []string{p.Body}})
		}
	}
	for i, b := range blocks {
		if t, ok := b.(*Table); ok {
			blocks[i] = *t
		}
	}
	return blocks
}

// ticks lists what is cut from a stretch, from the cut end on.
func ticks(s sheet.Stretch) Table {
	pieces := slices.Clone(s.Pieces)
	slices.SortStableFunc(pieces, func(a, b sheet.Placed) int {
		p, q := a.Cut.Bound().Min, b.Cut.Bound().Min
		return cmp.Or(cmp.Compare(p[0], q[0]), cmp.Compare(p[1], q[1]))
	})
	t := Table{Caption: "Tick off what is cut, from the cut end on", Shown: true, Beside: true,
		Columns: []Column{{Head: "piece"}}}
	column := func(c Column, of func(sheet.Placed) string) {
		if !slices.ContainsFunc(pieces, func(p sheet.Placed) bool { return of(p) != "" }) {
			return
		}
		t.Columns = append(t.Columns, c)
		for i, p := range pieces {
			t.Rows[i].Cells = append(t.Rows[i].Cells, of(p))
		}
	}
	for _, p := range pieces {
		t.Rows = append(t.Rows, Row{Cells: []string{p.Name}, Ticks: strings.Fields(p.ID)})
	}
	column(Column{Head: "copy"}, func(p sheet.Placed) string { return p.Copy })
	column(Column{Head: "lies"}, sheet.Placed.Direction)
	column(Column{Head: "cut size", Right: true}, func(p sheet.Placed) string { return p.Size })
	return t
}
