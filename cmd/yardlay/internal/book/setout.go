package book

import (
	"strings"

	"yardlay/cmd/yardlay/internal/chalk"
	"yardlay/cmd/yardlay/internal/sheet"
)

// Heights of the drawings of set-out tables on paper, mm.
const (
	overviewHigh = 110.0
	sketchHigh   = 80.0
)

// setOut are the tables by which the pieces of a cloth are drawn on it, which is laid
// otherwise than for paper.
func (g Gown) setOut(cloth string, d chalk.Document) Section {
	sec := Section{Title: "Chalk: " + cloth, Blocks: paragraphs(false, []string{upper(d.Cost) + "."})}
	sec.Blocks = append(sec.Blocks, paragraphs(false, d.Notes)...)
	sec.Blocks = append(sec.Blocks, paragraphs(false, chalk.HowTo(d.Tape))...)
	width := g.Paper.Width - marginLeft - marginRight
	for _, l := range d.Markers {
		if l.Name != "" {
			sec.Blocks = append(sec.Blocks, Heading{upper(l.Name)})
		}
		sec.Blocks = append(sec.Blocks, paragraphs(false, l.Facts(d.Tape))...)
		sec.Blocks = append(sec.Blocks, lined(l.Overview(d.Tape, width, overviewHigh)))
		for _, p := range l.Pieces {
			sec.Blocks = append(sec.Blocks, Heading{p.Title()}, lined(p.Sketch(d.Tape, l.Edge, width, sketchHigh)))
			sec.Blocks = append(sec.Blocks, figures(d.Tape, l.Edge, p)...)
		}
	}
	return sec
}

func upper(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// lined shows a drawing as lines alone.
func lined(d *sheet.Drawing) Figure {
	d.Theme = sheet.ThemeLines
	return Figure{Drawing: d}
}

// figures are the points of a piece, and how they are joined.
func figures(t chalk.Tape, edge string, p chalk.Piece) []Block {
	points := Table{Caption: "Points of " + p.Title(), Beside: true,
		Columns: columns("point", "from cut end", "from "+edge)}
	for _, r := range p.Figures.Points() {
		points.Rows = append(points.Rows, Row{Cells: []string{r.Label, t.Show(r.At[0]), t.Show(r.At[1])}})
	}
	lines := Table{Caption: "Lines of " + p.Title(), Columns: []Column{{Head: "line"}, {Head: "how it is drawn"}}}
	for _, r := range p.Figures.Lines(t) {
		lines.Rows = append(lines.Rows, Row{Cells: []string{r.Label, r.Words}})
	}
	return []Block{points, lines}
}
