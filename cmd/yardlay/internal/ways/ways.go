// Package ways brings pieces and markers to the table: on sheets, on a roll, in light, by
// tape and chalk, to machines, and as a workbook. Each way makes files of its own from a job
// and the options that it heeds; whoever asks, command or page, gets the same bytes.
package ways

import (
	"context"
	"fmt"
	"slices"
	"time"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
)

// Options say which ways are asked for and how. They are read by Flags, under the names and
// in the words that the command line and the page share.
type Options struct {
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

// Flags are the options of all ways.
func Flags(flags *pflag.FlagSet, o *Options) {
	for _, w := range ways() {
		if w.flags != nil {
			w.flags(flags, o)
		}
	}
	flags.StringSliceVar(&o.cloths, "cloth", nil,
		"only what is cut from these cloths, by their ids, such as satin,lining")
	flags.StringVar(&o.date, "date", "",
		"the day to write on each page, such as 2026-05-31, in place of today")
	flags.BoolVar(&o.everyCopy, "every-copy", false,
		"with --sheets or --roll: each piece as often as it is cut, not once")
	flags.BoolVar(&o.markers, "markers", false,
		"with --roll, --dxf or --svg: the markers as laid, not the pieces")
}

// Refused is an option that cannot be followed.
type Refused struct {
	Option string // its name, without dashes
	What   string // what is wrong, to be read after the name
	Help   string // what would mend it
}

func (r *Refused) Error() string { return "--" + r.Option + " " + r.What }

// Hint is what would mend it.
func (r *Refused) Hint() string { return r.Help }

// way is one way to bring pieces or markers to the table. Its files are a set of their
// own in the folder, so that another way can be added to them later.
type way struct {
	flags func(*pflag.FlagSet, *Options) // nil: those of a way before it
	asked func(*Options) bool
	// check judges the options of the way, before anything is drawn; nil: any will do.
	check func(*Options, *job.Job) error
	set   func(*job.Job) folder.Set
	make  func(context.Context, *Printing) (printed, error)
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

// Ready chooses the ways where none is asked for, sheets of the usual size and, unless
// cloths are chosen, the workbook; and refuses an option that none of the ways heeds: who
// gave it expects what would not come.
func (o *Options) Ready() error {
	if len(o.asked()) == 0 {
		o.sheets, o.book = usualSheets, len(o.cloths) == 0
	}
	return o.heeded()
}

// asked are the ways asked for.
func (o *Options) asked() []way {
	return slices.DeleteFunc(ways(), func(w way) bool { return !w.asked(o) })
}

// heeded refuses an option that none of the ways asked for heeds.
func (o *Options) heeded() error {
	sheets, machine := o.sheets != "", o.dxf || o.svg
	for _, f := range []struct {
		name         string
		given, heeds bool
		with         string
	}{
		{"landscape", o.landscape, sheets, "--sheets"},
		{"margin", o.margin != "", sheets, "--sheets"},
		{"overlap", o.overlap != "", sheets, "--sheets"},
		{"every-copy", o.everyCopy, sheets || o.roll != "", "--sheets or --roll"},
		{"markers", o.markers, machine || o.roll != "", "--roll, --dxf or --svg"},
		{"halves", o.halves, machine, "--dxf or --svg"},
		{"no-words", o.noWords, machine, "--dxf or --svg"},
	} {
		if f.given && !f.heeds {
			return &Refused{f.name, "needs " + f.with, "`yardlay help print` says what goes with what"}
		}
	}
	if o.everyCopy && o.markers && !sheets {
		return &Refused{"every-copy", "does not go with --markers", "a marker holds every copy"}
	}
	return nil
}

// Day is what --date says, or today.
func (o *Options) Day() (time.Time, error) {
	if o.date == "" {
		return time.Now(), nil
	}
	day, err := time.Parse(time.DateOnly, o.date)
	if err != nil || day.IsZero() {
		return day, &Refused{"date", fmt.Sprintf("cannot be %q", o.date), "year, month and day, such as 2026-05-31"}
	}
	return day, nil
}
