package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/record"
)

var recordCommand = command{
	name: "record", args: "[FOLDER]", brief: "what gowns took beside what was planned",
	about: `Lists from the book of a workroom, that of this folder or of the one named, what
every gown took beside what was planned for it: hours, and the length of each cloth,
with how often the plan goes into it; then the sums, and what the last gowns of each
kind took. ` + "`yardlay took JOB`" + ` writes it into the book. With --out it draws the
hours, record.svg, and the cloth, record-2.svg, and writes record.json.

` + "`yardlay quote JOB`" + ` shows beside the price what the last gowns of that kind took of the
planned hours; with --record it takes the planned hours by that.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		flags.IntVar(&o.year, "year", 0, "only of this year")
		o.outputFlags(flags, "record.svg, record-2.svg and record.json")
	},
	run: showRecord,
}

func showRecord(ctx context.Context, s streams, args []string, o *options) error {
	if o.year < 0 || o.year > 9999 {
		return &usageError{fmt.Sprintf("--year cannot be %d", o.year), "for example 2026"}
	}
	path, w, err := roomOf("record", args)
	if err != nil {
		return err
	}
	out, err := o.opened(ctx, files.PageSet(files.SetRecord))
	if err != nil {
		return err
	}
	defer out.close()
	unit, err := o.showIn(&job.Job{Unit: w.Unit})
	if err != nil {
		return err
	}
	title := "What gowns took"
	if o.year > 0 {
		title += fmt.Sprintf(" in %d", o.year)
	}
	gowns, unread := withKinds(ctx, s, filepath.Dir(path), nil, record.Made(w, o.year))
	y := record.New(title, gowns, unit)
	for _, name := range unread {
		y.Notes = append(y.Notes, name+" cannot be read any more: what kind of gown it was is not known.")
	}
	return out.finish(s, y, func() (made, error) {
		list, err := files.Record(y)
		return made{files.SetRecord: list}, err
	}, func(to io.Writer) { printYear(to, y, path) })
}

// withKinds reads the jobs of gowns, to say what kind they are of, and names those that cannot be read.
func withKinds(ctx context.Context, s streams, dir string, before *job.File, gowns []record.Gown) (_ []record.Gown,
	unread []string) {
	for i, g := range gowns {
		f, err := readNamed(ctx, filepath.Join(dir, g.Job), before, s)
		if err != nil {
			unread = append(unread, g.Job)
			continue
		}
		before = f
		gowns[i].Title, gowns[i].Kind = f.Job().Title, record.KindOf(f.Job())
	}
	return gowns, unread
}

// printYear prints the record of a year.
func printYear(out io.Writer, y record.Year, path string) {
	if len(y.Gowns) == 0 {
		fmt.Fprint(out, wrapAt(path+" tells of no gown what it took. `yardlay took JOB --hours 21` does.", "",
			columns(out)))
		return
	}
	fmt.Fprintf(out, "%s\n\n", y.Title)
	for _, g := range y.Gowns {
		printMade(out, g, y.Unit)
	}
	if len(y.Gowns) > 1 {
		fmt.Fprintln(out, "\nIn all, where both are told")
		printLines(out, y.All)
	}
	for _, n := range y.Notes {
		fmt.Fprintf(out, "\n%s", wrapAt(n, "", columns(out)))
	}
}

// printLines prints a table of plan and fact.
func printLines(out io.Writer, lines []record.Line) {
	if len(lines) > 0 {
		fmt.Fprintf(out, "  %-28s%12s%14s%8s\n", "", "planned", "took", "times")
	}
	for _, l := range lines {
		name := l.What
		if len([]rune(name)) > 28 {
			fmt.Fprint(out, wrapAt(name, "  ", columns(out)))
			name = ""
		}
		text := fmt.Sprintf("  %-28s%12s%14s%8s", name, l.Planned, l.Taken, l.Times)
		if l.Price != "" {
			text += "  at " + l.Price
		}
		fmt.Fprintln(out, strings.TrimRight(text, " "))
	}
}
