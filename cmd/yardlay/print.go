package main

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/shapes/measure"
)

var printCommand = command{
	name: "print", args: "JOB", brief: "bring the pieces to the table at full size",
	about: `Draws the pieces of the job, or its markers, at full size, in as many ways as
you ask for, and writes them into the folder of --out; without any, on sheets of
A4 or Letter, and the workbook. JOB is a job file, or - for standard input.

  yardlay print gown.toml --out paper
  yardlay print gown.toml --roll 36in --markers --out paper
  yardlay print gown.toml --dxf --out cut

Each way writes files of its own and leaves those of the others. A flag that goes
with some of the ways says with which.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		for _, w := range ways() {
			if w.flags != nil {
				w.flags(flags, o)
			}
		}
		flags.StringSliceVar(&o.print.cloths, "cloth", nil,
			"only what is cut from these cloths, by their ids, such as satin,lining")
		flags.StringVar(&o.print.date, "date", "",
			"the day to write on each page, such as 2026-05-31, in place of today")
		flags.BoolVar(&o.print.everyCopy, "every-copy", false,
			"with --sheets or --roll: each piece as often as it is cut, not once")
		flags.BoolVar(&o.print.markers, "markers", false,
			"with --roll, --dxf or --svg: the markers as laid, not the pieces")
		o.layingFlags(flags)
		o.outputFlags(flags, "the files of each way")
	},
	run: printJob,
}

// way is one way to bring pieces or markers to the table. Its files are a set of their
// own in the folder, so that another way can be added to them later.
type way struct {
	flags func(*pflag.FlagSet, *options) // nil: those of a way before it
	asked func(*options) bool
	// check judges the flags of the way, before anything is drawn; nil: any will do.
	check func(*options, *job.Job) error
	set   func(*job.Job) folder.Set
	make  func(context.Context, *printing) (printed, error)
}

// ways lists them in the order of the help.
func ways() []way {
	return append([]way{sheetsWay(), rollPieces(), rollMarkers(), projectorWay(), chalkWay, bookWay()}, cutterWays()...)
}

// printed is what a way has made.
type printed struct {
	files []folder.File
	lines []string // what it made, in words, a line each; wrapped when printed
	notes []string // what to mind with it; said once, after what all ways have made
	facts any      // the same for --json
}

// printOptions are the flags of print alone.
type printOptions struct {
	date      string
	cloths    []string
	everyCopy bool
	sheetOptions
	markers bool
	roll    string
	projectorOptions
	bookOptions
	cutterOptions
	chalkOptions
}

// printing is what the ways print from. What several of them need is made once, when
// the first of them asks for it.
type printing struct {
	*options
	s    streams
	file *job.File
	unit measure.Unit // to show lengths in
	lay  plan.Options
	date time.Time

	spreads []plan.Spread
	list    report.CutList
	mark    string // of the pieces drafted
	pieces  []fullPiece
	report  *report.Report
	stepped *report.Report // laid to be drawn by tape
	chalk   *setOut
	cutter  []cutterWork // pieces or markers, for all formats of machines
}

// drafted returns the pieces cloth by cloth, and the cut list.
func (p *printing) drafted(ctx context.Context) ([]plan.Spread, report.CutList, error) {
	if p.spreads != nil {
		return p.spreads, p.list, nil
	}
	p.s.line.stage("drafting")
	var spreads []plan.Spread
	list, err := plan.Unless(ctx, func() (list report.CutList, err error) {
		if spreads, err = plan.Draw(p.file.Job()); err == nil {
			list, err = report.List(p.file.Job(), spreads, p.unit)
		}
		return list, err
	})
	if err == nil {
		p.list, p.mark = list, markOf(spreads)
		p.spreads = slices.DeleteFunc(spreads, func(s plan.Spread) bool { return !p.lay.Takes(s.Cloth.ID) })
	}
	return p.spreads, list, err
}

// laid returns the cloths as laid.
func (p *printing) laid(ctx context.Context) (*report.Report, error) {
	if p.report == nil {
		if p.print.chalk && p.stepped == nil { // which is laid after it
			var done context.CancelFunc
			ctx, done = plan.InTurn(ctx, 2)
			defer done()
		}
		r, err := report.Run(ctx, p.file.Job(), p.lay)
		if err != nil {
			return nil, err
		}
		p.report = r
	}
	return p.report, nil
}

// onlyCloths reads --cloth: ids of cloths of the job, or none for all.
func (o *options) onlyCloths(j *job.Job) ([]string, error) {
	known := make([]string, len(j.Cloths))
	for i, c := range j.Cloths {
		known[i] = c.ID
	}
	for _, id := range o.print.cloths {
		if !slices.Contains(known, id) {
			return nil, &usageError{fmt.Sprintf("--cloth cannot be %q", id), "the job has " + strings.Join(known, ", ")}
		}
	}
	return o.print.cloths, nil
}

// askedWays are the ways asked for: without any, sheets of the usual size and, unless
// cloths are chosen, the workbook.
func (o *options) askedWays() []way {
	asked := func() []way { return slices.DeleteFunc(ways(), func(w way) bool { return !w.asked(o) }) }
	if len(asked()) == 0 {
		o.print.sheets, o.print.book = usualSheets, len(o.print.cloths) == 0
	}
	return asked()
}

// heeded refuses a flag that none of the ways asked for heeds: who gave it expects what
// would not come.
func (o *printOptions) heeded() error {
	sheets, machine := o.sheets != "", o.dxf || o.svg
	for _, f := range []struct {
		name         string
		given, heeds bool
		with         string
	}{
		{"--landscape", o.landscape, sheets, "--sheets"},
		{"--margin", o.margin != usualEdge, sheets, "--sheets"},
		{"--overlap", o.overlap != usualEdge, sheets, "--sheets"},
		{"--every-copy", o.everyCopy, sheets || o.roll != "", "--sheets or --roll"},
		{"--markers", o.markers, machine || o.roll != "", "--roll, --dxf or --svg"},
		{"--halves", o.halves, machine, "--dxf or --svg"},
		{"--no-words", o.noWords, machine, "--dxf or --svg"},
	} {
		if f.given && !f.heeds {
			return &usageError{f.name + " needs " + f.with, "`yardlay help print` says what goes with what"}
		}
	}
	if o.everyCopy && o.markers && !sheets {
		return &usageError{"--every-copy does not go with --markers", "a marker holds every copy"}
	}
	return nil
}

// day is what --date says, or today.
func (o *printOptions) day() (time.Time, error) {
	if o.date == "" {
		return time.Now(), nil
	}
	day, err := time.Parse(time.DateOnly, o.date)
	if err != nil {
		return day, &usageError{fmt.Sprintf("--date cannot be %q", o.date), "year, month and day, such as 2026-05-31"}
	}
	return day, nil
}

func printJob(ctx context.Context, s streams, args []string, o *options) error {
	p := &printing{options: o, s: s}
	asked := o.askedWays()
	if err := o.print.heeded(); err != nil {
		return err
	}
	if o.dir == "" {
		return &usageError{"print needs a folder to write into", "for example --out print"}
	}
	var err error
	if p.date, err = o.print.day(); err != nil {
		return err
	}
	if p.file, p.lay, err = o.laying(ctx, "print", args, s); err != nil {
		return err
	}
	p.unit = p.lay.Unit
	if p.lay.Cloths, err = o.onlyCloths(p.file.Job()); err != nil {
		return err
	}
	var sets []folder.Set
	for _, w := range asked {
		if w.check != nil {
			if err := w.check(o, p.file.Job()); err != nil {
				return err
			}
		}
		sets = append(sets, w.set(p.file.Job()))
	}
	out, err := o.opened(ctx, sets...)
	if err != nil {
		return err
	}
	defer out.close()
	files, facts := made{}, map[string]any{}
	var lines, notes []string
	for i, w := range asked {
		done, err := w.make(ctx, p)
		if err != nil {
			return err
		}
		files[sets[i].Name], facts[sets[i].Name] = done.files, done.facts
		lines = append(lines, done.lines...)
		for _, n := range done.notes {
			if !slices.Contains(notes, n) {
				notes = append(notes, n)
			}
		}
	}
	if p.report != nil {
		notes = append(p.report.Unfinished(), notes...)
	}
	return out.finish(s, facts, func() (made, error) { return files, nil },
		func(to io.Writer) { sayPrinted(to, lines, notes) })
}

// sayPrinted says what was made, a line each, and then what to mind with it.
func sayPrinted(to io.Writer, lines, notes []string) {
	for _, l := range lines {
		fmt.Fprint(to, wrapAt(l, "", columns(to)))
	}
	for _, n := range notes {
		fmt.Fprint(to, "\n", wrapAt(n, "", columns(to)))
	}
}
