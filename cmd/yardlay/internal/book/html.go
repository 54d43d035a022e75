package book

import (
	"bytes"
	_ "embed" // the page's looks and what it does
	"fmt"
	"html/template"
	"slices"
	"strings"
	"sync"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/say"
)

//go:embed page.html
var pageHTML string

//go:embed blocks.html
var blocksHTML string

//go:embed page.css
var pageCSS string

//go:embed page.js
var pageJS string

// page is read when it is first filled in: most commands make none.
var page = sync.OnceValue(func() *template.Template {
	return template.Must(template.Must(template.New("page").Funcs(template.FuncMap{"whole": whole}).Parse(pageHTML)).
		New("all blocks").Parse(blocksHTML)).Lookup("page")
})

// screen is what the page is made from.
type screen struct {
	Title, Stamp, Key string
	Style             template.CSS
	Script            template.JS
	Sections          []screenSection
}

type screenSection struct {
	ID, Title string
	Blocks    []screenBlock
}

// screenBlock has one of these.
type screenBlock struct {
	Heading   *Heading
	Paragraph *Paragraph
	Table     *screenTable
	Figure    *screenFigure
	Image     *screenImage
}

type screenTable struct {
	Table
	Ticked bool // it has rows to tick off
	Headed bool // a column has a head
	Rows   []screenRow
}

type screenRow struct {
	Row
	Group bool
	Class string
	Ticks string
	Label string // of the box, where the first cell does not tell it from others
	First string
	Rest  []screenCell
	Span  int
}

type screenCell struct {
	Head, Text string
	Right      bool
}

type screenFigure struct {
	Caption, Label string
	Ticked         bool // it has pieces to tick off
	SVG            template.HTML
}

// HTML writes the book as one page that needs nothing else: the same bytes for the same
// book. What is ticked off the browser keeps, under a key with the mark of the job. It
// can be read without script.
func (b Book) HTML() ([]byte, error) {
	s := screen{Title: b.Called(), Stamp: b.Stamp(), Key: "yardlay " + b.Mark + " " + b.Title,
		Style: template.CSS(pageCSS), Script: template.JS(pageJS + sheet.Zoom)}
	for i, sec := range b.Sections {
		made := screenSection{ID: fmt.Sprintf("part-%d", i+1), Title: sec.Title}
		for k, block := range sec.Blocks {
			if table, ok := block.(Table); ok && len(table.Rows) == 0 {
				continue
			}
			shown, err := onScreen(block, fmt.Sprintf("drawing-%d-%d", i+1, k+1))
			if err != nil {
				return nil, err
			}
			made.Blocks = append(made.Blocks, shown)
		}
		s.Sections = append(s.Sections, made)
	}
	var out bytes.Buffer
	if err := page().Execute(&out, s); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func onScreen(b Block, id string) (screenBlock, error) {
	switch b := b.(type) {
	case Heading:
		return screenBlock{Heading: &b}, nil
	case Paragraph:
		return screenBlock{Paragraph: &b}, nil
	case Table:
		return screenBlock{Table: tableOnScreen(b)}, nil
	case Figure:
		svg, err := b.Drawing.Within(id)
		if err != nil {
			return screenBlock{}, err
		}
		f := screenFigure{Caption: b.Caption, Label: b.Drawing.Title, SVG: template.HTML(svg)}
		f.Ticked = slices.ContainsFunc(b.Drawing.Groups, func(g sheet.Group) bool { return g.ID != "" })
		return screenBlock{Figure: &f}, nil
	}
	return screenBlock{}, nil
}

func tableOnScreen(t Table) *screenTable {
	made := &screenTable{Table: t,
		Headed: slices.ContainsFunc(t.Columns, func(c Column) bool { return c.Head != "" })}
	for _, r := range t.Rows {
		row := screenRow{Row: r, Group: r.Kind == RowGroup, Ticks: strings.Join(r.Ticks, " "), Span: len(t.Columns)}
		if r.Kind == RowSum {
			row.Class = "sum"
		}
		for k, c := range r.Cells {
			if k == 0 {
				row.First = c
			} else if k < len(t.Columns) {
				row.Rest = append(row.Rest, screenCell{t.Columns[k].Head, c, t.Columns[k].Right})
			}
		}
		if beside := row.beside(); beside != "" && r.Ticks != nil {
			row.Label = row.First + ", " + beside
		}
		made.Ticked = made.Ticked || r.Ticks != nil
		made.Rows = append(made.Rows, row)
	}
	return made
}

// beside is what the cells after the first say in words.
func (r screenRow) beside() string {
	var words []string
	for _, c := range r.Rest {
		if !c.Right && c.Text != "" {
			words = append(words, c.Text)
		}
	}
	return strings.Join(words, ", ")
}

// whole joins a number with what it counts, so that no line ends between them.
func whole(text string) string {
	const most = 24 // letters
	words := say.Words(text, func(s string) bool { return len(s) <= most })
	for i, w := range words {
		words[i] = strings.ReplaceAll(w, " ", "\u00a0")
	}
	return strings.Join(words, " ")
}
