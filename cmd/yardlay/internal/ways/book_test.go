package ways

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/book"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/outside"
	"yardlay/cmd/yardlay/internal/testjobs"
)

// gownOf makes the workbook's content of a job that is laid.
func gownOf(t *testing.T, p *Printing) book.Gown {
	t.Helper()
	g, err := p.gown(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// Every copy that is cut of any cloth of any job is ticked off once, under an ID that is
// the same in every layout.
func TestBookTicksEveryCopyOnce(t *testing.T) {
	for name, p := range laidJobs(t) {
		g := gownOf(t, p)
		var want, got []string
		for k, c := range g.Report.Cloths {
			for i, cut := range c.Spread.Cuts {
				for copy := range cut.Piece.Count * g.Report.Gowns {
					want = append(want, fmt.Sprintf("cut-%d-%d-%d", k, i, copy))
				}
			}
		}
		for _, s := range g.Book().Sections {
			for _, b := range s.Blocks {
				if table, ok := b.(book.Table); ok && s.Wide {
					for _, r := range table.Rows {
						got = append(got, r.Ticks...)
					}
				}
			}
		}
		slices.Sort(want)
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Errorf("%s: ticked are\n%v, cut are\n%v", name, got, want)
		}
	}
}

// Every marker of every job fits the page that it is shown on, in one band where its
// cloth is not very long, and carries gown, date and mark.
func TestBookMarkersFitThePage(t *testing.T) {
	for name, p := range laidJobs(t) {
		g := gownOf(t, p)
		for _, s := range g.Book().Sections {
			for _, b := range s.Blocks {
				figure, ok := b.(book.Figure)
				if !ok {
					continue
				}
				d := figure.Drawing
				const longest = 65 // mm that a cloth takes whose width is as small on paper as it gets
				if w, h := d.Width/d.Scale, d.Height/d.Scale; w > g.Paper.Height-25 && h > longest ||
					h > g.Paper.Width-45 {
					t.Errorf("%s: %s takes %.0f by %.0f mm", name, d.Title, w, h)
				}
				svg, err := d.SVG()
				if err != nil || !strings.Contains(string(svg), "2026-05-31 · mark "+g.Mark) {
					t.Errorf("%s: %s does not say whose it is (%v)", name, d.Title, err)
				}
			}
		}
	}
}

// The paper is that of --sheets where an office has it, else that of the job's unit.
func TestBookPaper(t *testing.T) {
	inches, metric := testjobs.File(t, "in.toml", testjobs.Small), testjobs.File(t, "cm.toml",
		testjobs.Striped(150, 10)+
			"[[part]]\nname = \"flag\"\ndraft = \"rectangle\"\ncloth = \"stripe\"\nwidth = 20\nlength = 30\n")
	for _, c := range []struct {
		f      *job.File
		sheets string
		want   book.Paper
	}{
		{inches, "", book.Letter}, {metric, "", book.A4}, {inches, "A4", book.A4}, {metric, "letter", book.Letter},
		{metric, "a3", book.A4}, {inches, "13x19in", book.Letter}, {inches, usualSheets, book.Letter},
	} {
		p := printingOf(t, c.f)
		p.o.sheets = c.sheets
		if got := p.bookPaper(); got != c.want {
			t.Errorf("%q: %v, not %v", c.sheets, got, c.want)
		}
	}
}

// What to buy names every cloth, with a price or without.
func TestBookBuysEveryCloth(t *testing.T) {
	jobs := maps.Clone(laidJobs(t))
	jobs["unpriced"] = printingOf(t, testjobs.File(t, "unpriced.toml", `unit = "cm"
allowance = { seam = 1, hem = 1 }
cloth = [ { id = "silk", title = "silk, undyed", width = 150 }, { id = "lawn", width = 140, price = "9/m" } ]
currency = "EUR"
part = [ { name = "cape", draft = "rectangle", width = 40, length = 60, cloth = ["silk", "lawn"] } ]
`))
	for name, p := range jobs {
		g := gownOf(t, p)
		var rows []string
		for _, b := range g.Book().Sections[1].Blocks {
			if table, ok := b.(book.Table); ok {
				for _, r := range table.Rows {
					if r.Ticks != nil {
						rows = append(rows, r.Cells[0])
					}
				}
			}
		}
		for _, c := range g.Report.Cloths {
			bought := slices.ContainsFunc(rows, func(row string) bool { return strings.HasSuffix(row, ", "+c.Title) })
			if c.Bought > 0 && !bought {
				t.Errorf("%s: %s is not among what to buy: %q", name, c.Title, rows)
			}
		}
	}
}

// A program from outside finds in the PDF of every job each section, each piece of the
// cut list with its size, each thing to buy, each seam and each caution, and the numbers
// of the pages in order.
func TestOutsideBookIsRead(t *testing.T) {
	outside.Wanted(t, "pdftotext")
	for name, p := range laidJobs(t) {
		g := gownOf(t, p)
		b := g.Book()
		pdf, pages, err := b.PDF()
		if err != nil {
			t.Fatal(err)
		}
		words := strings.Join(strings.Fields(outside.Texts(t, pdf)), " ")
		has := func(texts ...string) {
			for _, text := range texts {
				for _, word := range strings.Fields(text) {
					if !strings.Contains(words, word) {
						t.Errorf("%s: %q of %q is not in the PDF", name, word, text)
					}
				}
			}
		}
		has(g.Report.Cautions...)
		for _, s := range b.Sections {
			has(s.Title)
			for _, block := range s.Blocks {
				switch block := block.(type) {
				case book.Paragraph:
					has(block.Text)
				case book.Table:
					for _, r := range block.Rows {
						has(r.Cells...)
						has(r.Details...)
					}
				}
			}
		}
		for _, c := range g.List.Pieces {
			if row := strings.Join(c.Row(g.Report.Unit), " "); !strings.Contains(words, row) && len(row) < 60 {
				t.Errorf("%s: the row %q is not in the PDF", name, row)
			}
		}
		for n := range pages {
			page := fmt.Sprintf("page %d of %d", n+1, pages)
			at := strings.Index(words, page)
			if at < 0 {
				t.Fatalf("%s: %q does not come next", name, page)
			}
			words = words[at:]
		}
	}
}
