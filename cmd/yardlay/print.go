package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/ways"
)

var printCommand = command{
	name: "print", args: "JOB", brief: "bring the pieces to the table at full size",
	about: `Draws the pieces of the job, or its markers, at full size, in as many ways as
you ask for, and writes them into the folder of --out; without any, on sheets of
A4 or Letter, and the workbook. JOB is a job file, or - for standard input.

  yardlay print gown.toml --out paper
  yardlay print gown.toml --roll 36in --markers --out paper
  yardlay print gown.toml --dxf --out cut

With --from the markers are those of a layout that lay --keep kept. Chalk has steps of
its own, and lays anew.

Each way writes files of its own and leaves those of the others. A flag that goes
with some of the ways says with which.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		ways.Flags(flags, &o.print)
		o.layingFlags(flags)
		o.fromFlag(flags)
		o.outputFlags(flags, "the files of each way")
	},
	run: printJob,
}

func printJob(ctx context.Context, s streams, args []string, o *options) error {
	if err := o.print.Ready(); err != nil {
		return misused(err)
	}
	if o.dir == "" {
		return &usageError{"print needs a folder to write into", "for example --out print"}
	}
	date, err := o.print.Day()
	if err != nil {
		return misused(err)
	}
	f, lay, err := o.laying(ctx, "print", args, s)
	if err != nil {
		return err
	}
	begun, err := o.begun(&lay)
	if err != nil {
		return err
	}
	p, err := ways.New(f, lay, o.print, date, s.line.stage)
	if err != nil {
		return misused(err)
	}
	out, err := o.opened(ctx, p.Sets()...)
	if err != nil {
		return err
	}
	defer out.close()
	done, err := p.Make(ctx)
	if err != nil {
		return misused(err)
	}
	notes := append(begun.lines(), done.Notes...)
	return out.finish(s, done.Facts, func() (made, error) { return done.Files, nil },
		func(to io.Writer) { sayPrinted(to, done.Lines, notes) })
}

// misused makes an error of an option one of how the command was called.
func misused(err error) error {
	var refused *ways.Refused
	if errors.As(err, &refused) {
		return &usageError{refused.Error(), refused.Hint()}
	}
	return err
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
