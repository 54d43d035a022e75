package main

import (
	"cmp"
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/quote"
	"yardlay/cmd/yardlay/internal/workroom"
	"yardlay/shapes/say"
)

// shopWeek shops for the open gowns of a workroom.
func shopWeek(ctx context.Context, s streams, args []string, o *options) error {
	if err := o.severalJobs(nil); err != nil {
		return err
	}
	path, w, err := roomOf("shop", args)
	if err != nil {
		return err
	}
	var until job.Date
	if o.until != "" {
		if until, err = job.ParseDate(o.until); err != nil {
			return badDate("until", o.until)
		}
	}
	open := openGowns(w, until)
	if len(open) == 0 {
		return say.Errorf("%s has no open gown: all that are in it are cut", path).
			Hint("`yardlay order JOB` puts a job into it")
	}
	if len(open) > quote.MostGowns {
		return say.Errorf("%d open gowns are too many to shop for at once, at most %d", len(open), quote.MostGowns).
			Hint("--until 2026-12-20 takes those to be delivered by then")
	}
	var gowns []quote.Gown
	var before *job.File
	for _, g := range open {
		f, err := readNamed(ctx, filepath.Join(filepath.Dir(path), g.Job), before, s)
		if err != nil {
			return err
		}
		before = f
		o.settle(ctx, f, s)
		name := strings.TrimSuffix(g.Job, filepath.Ext(g.Job))
		gowns = append(gowns, quote.Gown{Name: name, Job: f.Job(), Due: g.Deliver})
	}
	return o.shopFor(ctx, s, gowns)
}

// openGowns are those that are not cut yet, in the order of their delivery; those without a day come last. Where there
// is a day, only those to be delivered by then.
func openGowns(w *job.Workroom, until job.Date) []job.Gown {
	open := slices.DeleteFunc(slices.Clone(w.Gowns), func(g job.Gown) bool {
		late := !until.IsZero() && (g.Deliver.IsZero() || until.Before(g.Deliver))
		return g.Cut != nil || g.Took != nil || late
	})
	slices.SortStableFunc(open, func(a, b job.Gown) int {
		if a.Deliver.IsZero() != b.Deliver.IsZero() {
			return cmp.Compare(b.Deliver.Year, a.Deliver.Year)
		}
		return a.Deliver.DaysSince(b.Deliver)
	})
	return open
}

// roomOf reads the book of the folder that a command was given, or of this one.
func roomOf(command string, args []string) (path string, w *job.Workroom, err error) {
	dir := "."
	if len(args) > 0 {
		if dir, err = onlyOne(command, "folder of a workroom", args); err != nil {
			return "", nil, err
		}
	}
	path = filepath.Join(dir, job.WorkroomFile)
	_, w, err = workroom.Read(path)
	return path, w, err
}

// badDate is a flag that is no day.
func badDate(flag, text string) error {
	return &usageError{fmt.Sprintf("--%s cannot be %q", flag, text), "a day: year, month, day, 2026-11-29"}
}
