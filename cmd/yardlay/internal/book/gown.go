package book

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"yardlay/cmd/yardlay/internal/chalk"
	"yardlay/cmd/yardlay/internal/quote"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
)

// Gown is what a workbook is made from.
type Gown struct {
	Mark     string
	Date     time.Time
	Paper    Paper
	Report   *report.Report
	List     report.CutList
	Shopping quote.List
	Markers  []sheet.Marker   // one a cloth of the report, each outline with its ID
	SetOut   []chalk.Document // one a cloth, where the pieces are chalked too; else nil
}

// Book is the workbook, in the order of the work.
func (g Gown) Book() Book {
	b := Book{Title: g.Report.Title, Mark: g.Mark, Date: g.Date, Paper: g.Paper}
	add := func(sections ...Section) { b.Sections = append(b.Sections, sections...) }
	add(g.Totals(), g.Buying())
	for i := range g.Report.Cloths {
		add(g.cloth(i))
	}
	add(g.CutList())
	for i, d := range g.SetOut {
		add(g.setOut(g.Report.Cloths[i].Title, d))
	}
	if gathers := g.Gathers(); len(gathers.Blocks) > 0 {
		add(gathers)
	}
	if len(g.List.Seams) > 0 {
		add(g.Sewing())
	}
	add(g.Cautions())
	return b
}

func (g Gown) sizes() measure.Unit { return measure.SizeUnit(g.Report.Unit) }

func paragraphs(caution bool, texts []string) []Block {
	var blocks []Block
	for _, t := range texts {
		blocks = append(blocks, Paragraph{Text: t, Caution: caution})
	}
	return blocks
}

// columns are those of a table, the first of words, the others of figures.
func columns(first string, figures ...string) []Column {
	list := []Column{{Head: first}}
	for _, f := range figures {
		list = append(list, Column{Head: f, Right: true})
	}
	return list
}

// Totals say what is used and bought of each cloth, and how much less could ever be
// enough.
func (g Gown) Totals() Section {
	r := g.Report
	laid := Table{Caption: "What each cloth takes", Columns: columns("cloth", "pieces", "used", "to buy", "filled",
		r.Currency)}
	least := Table{Caption: "How much less could be enough",
		Columns: []Column{{Head: "cloth"}, {Head: "no marker is under", Right: true}, {Head: "gap", Right: true},
			{Head: "could save at most"}}}
	var more []string
	for _, c := range r.Cloths {
		laid.Rows = append(laid.Rows, Row{Cells: []string{c.ID, fmt.Sprint(c.Pieces), measure.FormatUp(c.Used, r.Unit),
			c.ToBuy(), report.Percent(c.Utilisation), c.Cost}, Details: []string{c.Title}})
		least.Rows = append(least.Rows, Row{Cells: []string{c.ID, measure.FormatDown(c.Bound, r.Unit),
			report.GapWords(c.Gap), c.CouldSave()}, Details: []string{c.Because}})
		if words := c.SharedOtherwise(); words != "" {
			more = append(more, c.ID+": "+words)
		}
	}
	if r.Total != "" {
		laid.Rows = append(laid.Rows, Row{Kind: RowSum, Cells: []string{"in all", "", "", "", "", r.Total}})
	}
	blocks := []Block{laid, least}
	for _, texts := range [][]string{more, r.Notes(), r.Remarks} {
		blocks = append(blocks, paragraphs(false, texts)...)
	}
	return Section{Title: "What it takes", Blocks: blocks}
}

// Buying is the shopping list, then the cloths without a price; what is bought is ticked
// off.
func (g Gown) Buying() Section {
	l := g.Shopping.Ledger()
	t := entries(l, "What to buy")
	for i, e := range l.Lines {
		if e.Kind == sheet.EntryItem && (e.Detail != "" || e.Amount == "") { // all but tax and shipping
			t.Rows[i].Ticks = []string{fmt.Sprintf("buy-%d", i)}
		}
	}
	blocks := paragraphs(false, l.Facts)
	if len(g.Shopping.Orders)+len(g.Shopping.Shelf) > 0 {
		blocks = append(blocks, t)
	}
	other := Table{Caption: "Without a price", Shown: true, Columns: columns("")}
	for i, c := range g.Report.Cloths {
		if c.Cost == "" && c.Bought > 0 {
			other.Rows = append(other.Rows, Row{Cells: []string{c.ToBuy() + ", " + c.Title},
				Ticks: []string{fmt.Sprintf("cloth-%d", i)}})
		}
	}
	blocks = append(blocks, other)
	return Section{Title: "What to buy", Blocks: append(blocks, paragraphs(false, l.Notes)...)}
}

// Ledger is what a ledger says: its facts, its lines with the sums they come to, its notes.
func Ledger(l sheet.Ledger) Section {
	blocks := append(paragraphs(true, texts(l.Banner)), paragraphs(false, l.Facts)...)
	blocks = append(blocks, entries(l, l.Title))
	return Section{Title: l.Title, Blocks: append(blocks, paragraphs(false, l.Notes)...)}
}

// texts is a list of what is not empty.
func texts(all ...string) []string {
	return slices.DeleteFunc(all, func(s string) bool { return s == "" })
}

// entries are the lines of a ledger.
func entries(l sheet.Ledger, caption string) Table {
	t := Table{Caption: caption, Columns: columns("", l.Head)}
	for _, e := range l.Lines {
		row := Row{Cells: []string{e.Text, e.Amount}, Details: texts(e.Detail)}
		switch e.Kind {
		case sheet.EntryHead:
			row.Kind, row.Cells = RowGroup, row.Cells[:1]
		case sheet.EntrySum, sheet.EntryTotal:
			row.Kind = RowSum
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// Cautions are those to mind with all that is made.
func (g Gown) Cautions() Section {
	return Section{Title: "Cautions", Blocks: paragraphs(true, g.Report.Cautions)}
}

// CutList lists the pieces cloth by cloth and part by part.
func (g Gown) CutList() Section {
	unit := g.sizes()
	t := Table{Caption: "Pieces to cut", Columns: columns("piece", report.CutHeads...)}
	heading := ""
	for _, c := range g.List.Pieces {
		if h := c.Part + " in " + c.Cloth; h != heading {
			heading = h
			t.Rows = append(t.Rows, Row{Kind: RowGroup, Cells: []string{h}})
		}
		t.Rows = append(t.Rows, Row{Cells: c.Row(unit)})
	}
	blocks := append([]Block{t}, paragraphs(false, g.List.SizeNotes(unit))...)
	if n := g.Report.Gowns; n > 1 {
		blocks = append(blocks, Paragraph{Text: fmt.Sprintf("The list is for one gown. The markers hold %d.", n)})
	}
	return Section{Title: "Cut list", Blocks: blocks}
}

// Gathers are the figures of gathered, bound and boned parts, and what is done with openings,
// with hems on curves and free ends.
func (g Gown) Gathers() Section {
	unit := g.sizes()
	var blocks []Block
	for _, t := range g.List.Tables {
		for _, grid := range t.Grids(unit, measure.CounterUnit(g.Report.Unit)) {
			if grid.Heads == nil {
				blocks = append(blocks, Paragraph{Text: grid.Caption + "."})
				continue
			}
			blocks = append(blocks, gridded(grid))
			blocks = append(blocks, paragraphs(false, grid.Notes)...)
		}
	}
	for _, e := range g.List.Ends {
		blocks = append(blocks, Paragraph{Text: e.Words(unit)})
	}
	for _, c := range g.List.Closed {
		blocks = append(blocks, Paragraph{Text: c.Words(unit)})
	}
	for _, b := range g.List.Boned {
		if grid := b.Grid(unit); len(grid.Rows) > 0 {
			blocks = append(blocks, gridded(grid))
		}
		blocks = append(blocks, paragraphs(false, b.Words(unit))...)
	}
	for _, h := range g.List.Hems {
		if words := h.Words(unit); words != "" {
			blocks = append(blocks, Paragraph{Text: words})
		}
	}
	return Section{Title: "Gathers, bindings, openings, bones, hems and free ends", Blocks: blocks}
}

// gridded is a table of figures in rows.
func gridded(g report.Grid) Table {
	t := Table{Caption: g.Caption, Shown: true, Columns: columns(g.Heads[0], g.Heads[1:]...)}
	for _, cells := range g.Rows {
		t.Rows = append(t.Rows, Row{Cells: cells})
	}
	return t
}

// Sewing is the order of the seams; what is sewn is ticked off.
func (g Gown) Sewing() Section {
	unit := g.sizes()
	note, rest, _ := strings.Cut(report.SeamNote(unit), ", ")
	t := Table{Caption: note, Columns: columns("seam", report.SeamHeads...)}
	heading := ""
	for i, s := range g.List.Seams {
		if h := s.Part + " in " + s.Cloth; h != heading {
			heading = h
			t.Rows = append(t.Rows, Row{Kind: RowGroup, Cells: []string{h}})
		}
		t.Rows = append(t.Rows, Row{Cells: s.Row(unit), Details: s.Details(unit),
			Ticks: []string{fmt.Sprintf("sew-%d", i)}})
	}
	return Section{Title: note, Blocks: []Block{Paragraph{Text: upper(rest)}, t}}
}
