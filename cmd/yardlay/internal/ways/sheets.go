package ways

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/paper"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// sheetOptions are the flags of a print on office sheets.
type sheetOptions struct {
	sheets    string
	landscape bool
	margin    string
	overlap   string
}

// usualEdge is the margin and the overlap where none are given.
const usualEdge = "10mm"

// orUsual is what is given, or the usual edge.
func orUsual(given string) string { return cmp.Or(given, usualEdge) }

// setSheets is what is printed on office sheets.
const setSheets = "sheets"

// office are the sizes of sheets that printers take, upright, mm: ISO 216, and ANSI Y14.1
// (8 1/2 by 11 in, 11 by 17 in).
var office = []struct {
	name          string
	width, height float64
	landscape     bool // as it is called
}{
	{"A4", 210, 297, false}, {"A3", 297, 420, false},
	{"Letter", 8.5 * measure.Inches, 11 * measure.Inches, false},
	{"Tabloid", 11 * measure.Inches, 17 * measure.Inches, false},
	{"Ledger", 11 * measure.Inches, 17 * measure.Inches, true},
}

// usualSheets are those of the job's unit.
const usualSheets = "usual"

// sheetsWay prints the pieces on office sheets to be taped together.
func sheetsWay() way {
	return way{
		flags: func(flags *pflag.FlagSet, o *Options) {
			s := &o.sheetOptions
			flags.StringVar(&s.sheets, "sheets", "",
				"pieces on sheets to be taped together: a4, a3, letter, tabloid, ledger,\n"+
					"WIDTHxHEIGHT, such as 13x19in, or usual: A4 or Letter, as the unit of the job has it")
			flags.BoolVar(&s.landscape, "landscape", false, "with --sheets: lay the sheets on their long side")
			flags.StringVar(&s.margin, "margin", "",
				"with --sheets: the edge that your printer does not reach; 10mm unless given")
			flags.StringVar(&s.overlap, "overlap", "",
				"with --sheets: how far neighbours lie over each other, 10mm unless given; 0:\n"+
					"trim and butt")
		},
		asked: func(o *Options) bool { return o.sheets != "" },
		check: func(o *Options, j *job.Job) error {
			_, err := o.officeSheets(j.Unit)
			return err
		},
		set: func(*job.Job) folder.Set {
			return folder.Set{Name: setSheets, Makes: func(name string) bool { return name == setSheets+".pdf" }}
		},
		make: printSheets,
	}
}

// officeSheets reads the flags.
func (o sheetOptions) officeSheets(unit measure.Unit) (s paper.Sheets, err error) {
	landscape := o.landscape
	if s.Margin, err = lengthOrNone("margin", orUsual(o.margin), unit, paper.CheckMargin); err != nil {
		return s, err
	}
	if s.Overlap, err = lengthOrNone("overlap", orUsual(o.overlap), unit, paper.CheckOverlap); err != nil {
		return s, err
	}
	if o.sheets == usualSheets {
		o.sheets = "A4"
		if !unit.Metric() {
			o.sheets = "Letter"
		}
	}
	for _, size := range office {
		if strings.EqualFold(o.sheets, size.name) {
			s.Name, s.Width, s.Height = size.name, size.width, size.height
			landscape = landscape || size.landscape
		}
	}
	if s.Name == "" {
		if !strings.ContainsAny(o.sheets, "x×X") {
			return s, &Refused{"sheets", fmt.Sprintf("cannot be %q", o.sheets),
				"a4, a3, letter, tabloid, ledger, usual, or width x height, such as 13x19in"}
		}
		if s.Width, s.Height, err = sizeFlag("sheets", o.sheets, unit,
			func(_, _ float64) error { return nil }); err != nil {
			return s, err
		}
	}
	if landscape {
		s.Width, s.Height = max(s.Width, s.Height), min(s.Width, s.Height)
	}
	return s, refusedFlag("sheets", o.sheets, unit, s.Check())
}

// lengthOrNone reads a length that may be 0.
func lengthOrNone(name, text string, unit measure.Unit, check func(mm float64) error) (float64, error) {
	mm, err := measure.Parse(text, unit)
	if err == nil {
		err = check(mm)
	}
	return mm, refusedFlag(name, text, unit, err)
}

func printSheets(ctx context.Context, p *Printing) (printed, error) {
	sheets, err := p.o.officeSheets(p.file.Job().Unit)
	if err != nil {
		return printed{}, err
	}
	spreads, pieces, err := p.piecesFor(ctx, "sheets")
	if err != nil {
		return printed{}, err
	}
	tiled := paper.Tiled{
		Head: p.head("pieces on sheets"), Subject: "pieces at full size on sheets to be joined", Date: p.date,
		Mark: p.signature(), Sheets: sheets, Key: fullKey(report.Cautions(spreads)),
	}
	for _, f := range pieces {
		tiled.Lists = append(tiled.Lists, []string{f.name, f.cut, f.cloth})
	}
	made, err := tiled.Pieces(ctx, patternsOf(pieces, sheets.Holds))
	if err != nil {
		return printed{}, wrapped(err, "cannot print the pieces on sheets")
	}
	pdf, err := made.Document.PDF()
	if err != nil {
		return printed{}, err
	}
	return p.sheetsMade(made, sheets, pdf, slices.Concat(cutShort(ctx), sparingPaper(spreads), report.Cautions(spreads)))
}

// atFullSize is what to mind with every print on paper.
const atFullSize = "Print at 100 %, with no fitting to the page, and measure the test square before you cut."

// onSheets is what --json says of the print.
type onSheets struct {
	File   string  `json:"file"`
	Width  float64 `json:"width"` // of a sheet
	Height float64 `json:"height"`
	Sheets int     `json:"sheets"` // with pieces on them
	Rows   int     `json:"rows"`
	Cols   int     `json:"columns"`
	Firsts int     `json:"first_pages"` // with the map and the test square
	Boxes  int     `json:"by_boxes"`    // sheets that the bounding boxes of the pieces would take
}

func (p *Printing) sheetsMade(made paper.Made, s paper.Sheets, pdf []byte,
	cautions []string) (printed, error) {
	name := setSheets + ".pdf"
	size := s.Name
	if size == "" {
		size = measure.Format(s.Width, p.unit) + " x " + measure.Format(s.Height, p.unit)
	}
	line := fmt.Sprintf("%s: %s of %s after %s with the map and the test square", name,
		say.Count(made.Sheets, "sheet"), size, say.Count(made.Firsts, "page"))
	if made.Boxes > made.Sheets {
		line += fmt.Sprintf("; by their boxes the pieces would take %d sheets", made.Boxes)
	}
	done := printed{
		files: []folder.File{{Name: name, Data: pdf}}, lines: []string{line + "."},
		notes: append([]string{atFullSize}, cautions...),
		facts: onSheets{name, s.Width, s.Height, made.Sheets, made.Rows, made.Cols, made.Firsts, made.Boxes},
	}
	return done, done.lacking(name, made.Document)
}

// fullKey explains the signs in pieces at full size; cautions stand under them.
func fullKey(cautions []string) []sheet.Paragraph {
	signs := "In the pieces: full line, cut here; dashes, seam line; arrow, grain line, along the warp, with one " +
		"head where the nap runs one way; " + sheet.NotchSigns + "; dash and dot, marked line; " +
		"bracket with two arrows, edge on the fold of the cloth; " + sheet.DartSigns + "; " +
		"ring with a cross, match point; square, to measure once the sheets are joined."
	key := []sheet.Paragraph{{Role: sheet.RoleNote, Body: signs}}
	for _, c := range cautions {
		key = append(key, sheet.Paragraph{Role: sheet.RoleCaution, Body: c})
	}
	return key
}
