package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/pdfpage"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/take"
	"yardlay/shapes/measure"
	"yardlay/shapes/outline"
	"yardlay/shapes/say"
)

var takeCommand = command{
	name: "take", args: "FILE", brief: "take pieces drawn elsewhere into a job",
	about: `Reads a drawing in SVG, DXF or GeoJSON, or a page of a PDF, and prints the pieces
that it holds: their sizes, how often they are cut, and what is wrong with them.
Then come the parts of a job that cut them, to paste, or with --into to be added:

  yardlay take sleeve.svg --out seen
  yardlay take sleeve.svg --into gown.toml

What the file does not say is guessed; --why says why. With --out it draws the
pieces with their numbers, take.svg, faults ringed. Whatever --into adds can be
changed there. All else in the job stays as it is.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		flags.StringVar(&o.take.into, "into", "", "add the parts to this job, which lies beside the drawing or above it")
		flags.StringVar(&o.take.oneUnit, "one-unit", "", "how long one unit of the file is, such as \"1 mm\" or \"1 in\"")
		flags.StringVar(&o.take.join, "join", "", "join ends of lines that lie so far apart (0.5 mm)")
		flags.StringVar(&o.take.drawn, "drawn", "cut", "what outlines are that nothing names: cut or seam")
		flags.StringVar(&o.take.size, "size", "", "of a graded file, the size to take")
		flags.IntVar(&o.take.page, "page", 1, "of a PDF, the page to take")
		flags.BoolVar(&o.why, "why", false, "print why each thing is guessed, and what the file calls it")
		o.outputFlags(flags, "take.svg, take.toml, take.json, and of a PDF its page as SVG")
	},
	run: takeDrawing,
}

// takeOptions are the flags of take alone.
type takeOptions struct {
	into, oneUnit, join, drawn, size string
	page                             int
}

// read makes options of the flags.
func (t *takeOptions) read() (o take.Options, err error) {
	length := func(flag, text string) (mm float64) {
		if text == "" || err != nil {
			return 0
		}
		if mm, err = measure.ParsePositive(text, measure.Millimetre); err != nil {
			err = &usageError{fmt.Sprintf("--%s cannot be %q", flag, text), fmt.Sprintf("for example --%s \"1 mm\"", flag)}
		}
		return mm
	}
	o.Size, o.Millimetres, o.Tolerance = t.size, length("one-unit", t.oneUnit), length("join", t.join)
	switch {
	case err != nil:
		return o, err
	case o.Tolerance > outline.MaxTolerance:
		return o, &usageError{fmt.Sprintf("--join cannot be %q", t.join), fmt.Sprintf("%g mm at the most",
			outline.MaxTolerance)}
	case t.page < 1:
		return o, &usageError{fmt.Sprintf("--page cannot be %d", t.page), "pages count from 1"}
	case t.drawn == "seam":
		o.Outline = outline.SeamLine
	case t.drawn != "cut":
		return o, &usageError{fmt.Sprintf("--drawn cannot be %q", t.drawn), "cut or seam"}
	}
	return o, nil
}

// taken is a drawing on its way to the maker.
type taken struct {
	*take.Found
	file   string // as the job has to refer to it
	parts  []take.Part
	tables string // of the parts, to paste
	unit   measure.Unit
	more   int // pages of the PDF besides
}

func takeDrawing(ctx context.Context, s streams, args []string, o *options) error {
	name, err := onlyOne("take", "drawing", args)
	if err != nil {
		return err
	}
	asked, err := o.take.read()
	if err != nil {
		return err
	}
	into, err := o.jobToTakeInto(ctx, s)
	if err != nil {
		return err
	}
	s.line.stage("reading the drawing")
	text, err := plan.Unless(ctx, func() ([]byte, error) { return readDrawing(name) })
	if err != nil {
		return err
	}
	t, page, err := o.takeText(ctx, name, text, asked)
	if err != nil {
		return err
	}
	out, err := o.opened(ctx, t.sets(page)...)
	if err != nil {
		return err
	}
	defer out.close()
	if t.unit, err = o.takenUnit(t.Found, into); err != nil {
		return err
	}
	if err := t.addTo(into); err != nil {
		return err
	}
	list, err := plan.Unless(ctx, func() (made, error) { return t.files(page, out.folder != nil) })
	if err != nil {
		return err
	}
	p := takePrinter{listPrinter{s.out, columns(s.out), measure.SizeUnit(t.unit)}, t, o.why}
	err = out.finish(s, t.facts(), func() (made, error) { return list, nil },
		func(io.Writer) { p.print(into != nil) })
	if err != nil || into == nil {
		return err
	}
	if err := into.write(); err != nil { // the page of a PDF is there now
		return err
	}
	if !o.json && !o.quiet {
		p.paragraph("Added to " + into.name + ": " + strings.Join(into.added, ", ") + ".")
	}
	return nil
}

// takeText reads a drawing, which may be a page of a PDF: that is returned, as SVG.
func (o *options) takeText(ctx context.Context, name string, text []byte, asked take.Options) (*taken, []byte, error) {
	t, called := &taken{file: name}, name
	var page []byte
	if pdfpage.Is(text) {
		svg, pages, err := pdfpage.SVG(ctx, text, o.take.page, outline.MaxDrawingBytes)
		if errors.Is(err, context.Canceled) {
			return nil, nil, plan.ErrInterrupted
		}
		if err != nil {
			return nil, nil, say.Errorf("%s: %w", name, err)
		}
		file := files.PageOfDrawing(filepath.Base(name), o.take.page)
		page, text, called, t.more = svg, svg, file, max(pages-1, 0)
		t.file = filepath.Join(o.dir, file)
		if o.take.into != "" && o.dir == "" {
			return nil, nil, &usageError{"--into needs the page of a PDF as a drawing of its own",
				"with --out FOLDER, in the folder of the job or below it, its SVG is kept there"}
		}
	}
	found, err := plan.Unless(ctx, func() (*take.Found, error) {
		return take.Read(called, bytes.NewReader(text), asked)
	})
	if err != nil {
		return nil, nil, err
	}
	if page != nil {
		found.File = filepath.Base(name)
	}
	t.Found, t.parts = found, found.Parts()
	return t, page, nil
}

// readDrawing reads a file, a byte beyond the largest that is taken at most.
func readDrawing(name string) ([]byte, error) {
	f, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, say.Errorf("there is no drawing %s", name)
	}
	if err != nil {
		return nil, say.Errorf("cannot read the drawing: %w", err)
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, outline.MaxDrawingBytes+1))
	if errors.Is(err, syscall.EISDIR) {
		return nil, say.Errorf("%s is a folder, not a drawing", name)
	}
	if err != nil {
		return nil, say.Errorf("cannot read the drawing: %w", err)
	}
	return text, nil
}

// sets are what is written with --out.
func (t *taken) sets(page []byte) []folder.Set {
	sets := []folder.Set{files.TakeSet()}
	if page != nil {
		sets = append(sets, t.pageSet())
	}
	return sets
}

// pageSet is the set of the page of a PDF.
func (t *taken) pageSet() folder.Set { return files.DrawingSet(filepath.Base(t.file)) }

// takenUnit is the unit to show lengths in: --unit, else that of the job, else what goes with
// the unit of the drawing.
func (o *options) takenUnit(f *take.Found, into *takeInto) (measure.Unit, error) {
	if into != nil {
		return o.showIn(into.file.Job())
	}
	unit := measure.Centimetre
	if inches := f.Unit.Millimetres / measure.Inches; inches == 1 || inches == 12 {
		unit = measure.Inch
	}
	return o.unitOr(unit)
}
