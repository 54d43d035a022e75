package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"slices"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/quote"
	"yardlay/cmd/yardlay/internal/record"
	"yardlay/cmd/yardlay/internal/workroom"
	"yardlay/shapes/say"
)

var quoteCommand = command{
	name: "quote", args: "JOB", brief: "price the gown, and what would make it cheaper",
	about: `Lays the job and prices it: the cloth as it is bought, at the suppliers that are
cheapest in all with shipping and tax, notions, labour, overhead, and what leads
from cost to price. Every line is rounded to the minor unit of the currency, a
half going away from zero, and the lines sum to the total.

--what-if makes the choices that usually move the price one at a time, lays each
anew and lists those that move it most: another usual width, a freer nap, a gore
more or fewer, a narrower hem, an inch off the length, whole bolts.

With --out it writes quote.svg, a page to print, and quote.json. --client prints
what the client may see, the garments and what is to be paid, and writes it as
client.svg and client.json.

In a workroom it says what the last gowns of that kind took of the hours planned
for them; --record takes the planned hours by that, up to the quarter hour.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		flags.BoolVar(&o.whatIf, "what-if", false, "lay the choices that would move the price, too")
		flags.BoolVar(&o.client, "client", false, "leave out costs, hours and profit")
		flags.BoolVar(&o.record, "record", false, "count hours as the last gowns of that kind took them")
		o.layingFlags(flags)
		o.onFlag(flags)
		o.outputFlags(flags, "quote.svg and quote.json")
	},
	run: quoteJob,
}

func quoteJob(ctx context.Context, s streams, args []string, o *options) error {
	if o.client && o.whatIf {
		return &usageError{"--client and --what-if do not go together", "choices are the maker's own"}
	}
	f, qo, err := o.quoting(ctx, "quote", args, s)
	if err != nil {
		return err
	}
	on := job.DateOf(qo.Today)
	own, err := o.byRecord(ctx, s, f, &qo)
	if err != nil {
		return err
	}
	called := files.SetQuote
	if o.client { // never among the pages of a quote with costs
		called = files.SetClient
	}
	out, err := o.opened(ctx, files.PageSet(called))
	if err != nil {
		return err
	}
	defer out.close()
	var q *quote.Quote
	var choices quote.Choices
	if o.whatIf {
		q, choices, err = quote.WhatIf(ctx, f, qo)
	} else {
		q, err = quote.Make(ctx, f.Job(), qo)
	}
	if err != nil {
		return err
	}
	q.Notes = append(q.Notes, own...)
	var shown any = q
	page := q.Ledger()
	switch {
	case o.client:
		c := q.ForClient()
		shown, page = c, c.Ledger(q.Unit)
	case o.whatIf:
		shown = struct {
			*quote.Quote
			quote.Choices
		}{q, choices}
	}
	return out.finish(s, shown, func() (made, error) {
		list, err := files.Pages(called, page, shown)
		return made{called: list}, err
	}, func(to io.Writer) {
		width := columns(s.out)
		printLedger(to, page, width)
		if o.whatIf {
			printChoices(to, q, choices, width)
		}
		if !o.client {
			printCautions(to, slices.Concat(q.Cautions, roomNotes(f.Job(), on)), width)
		}
	})
}

// ownRecord is what the last gowns of the kind of a job took, by the book of its workroom.
func (o *options) ownRecord(ctx context.Context, s streams, f *job.File) (own record.Own, known bool) {
	if f.Job().Room == nil {
		return own, false
	}
	all := slices.DeleteFunc(record.Made(f.Job().Room, 0), func(g record.Gown) bool { return !g.Told() })
	all = all[max(0, len(all)-mostRead):]
	all, _ = withKinds(ctx, s, filepath.Dir(f.Name()), f, all)
	return record.Last(all, record.KindOf(f.Job()))
}

// mostRead is how many jobs are read to find the last ones of a kind.
const mostRead = 50

// byRecord lets hours be counted by the own record where that is asked for, and otherwise returns what to say of it.
func (o *options) byRecord(ctx context.Context, s streams, f *job.File, qo *quote.Options) ([]string, error) {
	own, known := o.ownRecord(ctx, s, f)
	switch {
	case o.record && !known:
		return nil, say.Errorf("no %s in a workroom beside %s has told its hours beside planned ones",
			record.KindOf(f.Job()), f.Name()).Hint("`yardlay took JOB --hours 21` tells of one that is made")
	case o.record:
		qo.Own = &quote.Own{Factor: own.Factor(), Words: own.Words()}
	case known:
		return []string{own.Words() + " --record counts hours so."}, nil
	}
	return nil, nil
}

// printCautions prints what to mind.
func printCautions(out io.Writer, cautions []string, columns int) {
	for _, c := range cautions {
		fmt.Fprintf(out, "\n%s", wrapAt(c, "", columns))
	}
}

// quoting reads what quote and shop need: the job, and how to lay it.
func (o *options) quoting(ctx context.Context, command string, args []string, s streams) (*job.File, quote.Options,
	error) {
	on, err := o.day()
	if err != nil {
		return nil, quote.Options{}, err
	}
	f, lo, err := o.laying(ctx, command, args, s)
	return f, quote.Options{Options: lo, Today: on.Time()}, err
}

// roomNotes are what a maker is told of the prices of a job on a day, and of where its
// rates come from.
func roomNotes(j *job.Job, on job.Date) []string {
	return append(workroom.OldPrices(j, on), workroom.Rates(j)...)
}
