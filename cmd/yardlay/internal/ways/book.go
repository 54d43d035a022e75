package ways

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/book"
	"yardlay/cmd/yardlay/internal/depict"
	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/quote"
	"yardlay/shapes/say"
)

// setBook is the set of the workbook.
const setBook = "book"

// bookOptions are the flags of the workbook.
type bookOptions struct{ book, html bool }

// bookWay makes the workbook.
func bookWay() way {
	return way{
		flags: func(flags *pflag.FlagSet, o *Options) {
			flags.BoolVar(&o.book, "book", false,
				"a workbook to keep with the gown: what to buy, markers, cut list, sewing order, cautions")
			flags.BoolVar(&o.html, "html", false,
				"the workbook for a tablet at the table too, in one file: pieces are ticked off, markers zoom")
		},
		asked: func(o *Options) bool { return o.book || o.html },
		check: func(o *Options, _ *job.Job) error {
			if len(o.cloths) > 0 {
				return &Refused{"cloth", "does not go with the workbook, which is of the whole gown",
					"leave out --cloth, or print the other ways in a run of their own"}
			}
			return nil
		},
		set: func(*job.Job) folder.Set {
			return folder.Set{Name: setBook,
				Makes: func(name string) bool { return name == bookPDF || name == bookHTML }}
		},
		make: makeBook,
	}
}

const bookPDF, bookHTML = "book.pdf", "book.html"

// bookFacts are what --json says of the workbook.
type bookFacts struct {
	Mark     string   `json:"mark"`
	Date     string   `json:"date"`
	Pages    int      `json:"pages"`
	Sections []string `json:"sections"`
}

func makeBook(ctx context.Context, p *Printing) (printed, error) {
	gown, err := p.gown(ctx)
	if err != nil {
		return printed{}, err
	}
	b := gown.Book()
	pdf, pages, err := b.PDF()
	if err != nil {
		return printed{}, say.Errorf("cannot set the workbook: %w", err)
	}
	done := printed{files: []folder.File{{Name: bookPDF, Data: pdf}},
		lines: []string{fmt.Sprintf("Workbook, mark %s: %d pages.", b.Mark, pages)}, notes: gown.Report.Cautions}
	facts := bookFacts{Mark: b.Mark, Date: p.date.Format("2006-01-02"), Pages: pages}
	for _, s := range b.Sections {
		facts.Sections = append(facts.Sections, s.Title)
	}
	if p.o.html {
		html, err := b.HTML()
		if err != nil {
			return printed{}, say.Errorf("cannot write the workbook: %w", err)
		}
		done.files = append(done.files, folder.File{Name: bookHTML, Data: html})
	}
	if lacking, err := b.Lacking(); err != nil {
		return printed{}, err
	} else if lacking != "" {
		done.notes = append(done.notes, fmt.Sprintf("The font of %s has no letters for %s: a box stands for each.",
			bookPDF, lacking))
	}
	done.facts = facts
	return done, nil
}

// gown puts together what the workbook is made from. The cloths are laid and the
// purchase settled before anything is drawn.
func (p *Printing) gown(ctx context.Context) (book.Gown, error) {
	_, list, err := p.drafted(ctx)
	if err != nil {
		return book.Gown{}, err
	}
	r, err := p.laid(ctx)
	if err != nil {
		return book.Gown{}, err
	}
	q, err := quote.OfLaid(ctx, p.file.Job(), r.Laid(), quote.Options{Options: p.lay, Today: p.date})
	if err != nil {
		return book.Gown{}, err
	}
	g := book.Gown{Mark: p.mark, Date: p.date, Paper: p.bookPaper(), Report: r, List: list}
	if g.Shopping, err = q.Shopping(); err != nil {
		return book.Gown{}, err
	}
	if p.o.chalk {
		s, err := p.setOut(ctx)
		if err != nil {
			return book.Gown{}, err
		}
		g.SetOut = s.tables
	}
	for k, c := range r.Cloths {
		g.Markers = append(g.Markers, depict.TiedMarker(r, c, k))
	}
	return g, nil
}

// bookPaper is that of --sheets where offices have it, else what is usual with the job's
// unit.
func (p *Printing) bookPaper() book.Paper {
	switch strings.ToLower(p.o.sheets) {
	case "a4":
		return book.A4
	case "letter":
		return book.Letter
	}
	return book.PaperFor(p.file.Job().Unit.Metric())
}
