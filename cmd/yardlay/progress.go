package main

import (
	"fmt"
	"io"
	"os"

	"yardlay/nest"
	"yardlay/shapes/measure"
)

// progress is the one line on a terminal that says how far the search is. On
// anything else it says nothing.
type progress struct {
	out   io.Writer // nil: silent
	shown bool
}

func newProgress(out io.Writer, quiet bool) *progress {
	if quiet || !isTerminal(out) {
		return &progress{}
	}
	return &progress{out: out}
}

func isTerminal(out io.Writer) bool {
	f, ok := out.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// clearLine goes to the start of the line and wipes what stands there (ECMA-48
// "erase in line").
const clearLine = "\r\x1b[K"

// show returns what plan.Options.Progress calls, nil when silent.
func (p *progress) show(unit measure.Unit) func(string, nest.Progress) {
	if p.out == nil {
		return nil
	}
	return func(cloth string, now nest.Progress) {
		p.shown = true
		fmt.Fprintf(p.out, "%s%-16.16s %3.0f %%  %s, %.1f %% filled", clearLine, cloth,
			100*now.Done, measure.FormatUp(now.Length, unit), 100*now.Utilisation)
	}
}

// clear wipes the line before anything else is printed.
func (p *progress) clear() {
	if p.shown {
		fmt.Fprint(p.out, clearLine)
	}
}
