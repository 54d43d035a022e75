package main

import (
	"context"
	"fmt"
	"time"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/quote"
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
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		flags.BoolVar(&o.whatIf, "what-if", false, "lay the choices that would move the price, too")
		flags.BoolVar(&o.client, "client", false, "leave out costs, hours and profit")
		o.layingFlags(flags)
		o.outputFlags(flags, "quote.svg and quote.json")
	},
	run: quoteJob,
}

func quoteJob(ctx context.Context, s streams, args []string, o *options) error {
	if o.client && o.whatIf {
		return &usageError{"--client and --what-if do not go together", "choices are the maker's own"}
	}
	name, src, qo, line, err := o.quoting("quote", args, s)
	if err != nil {
		return err
	}
	var q *quote.Quote
	var choices quote.Choices
	if o.whatIf {
		q, choices, err = quote.WhatIf(ctx, name, src, qo)
	} else {
		q, err = quote.Make(ctx, name, src, qo)
	}
	line.clear()
	if err != nil {
		return err
	}
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
	asJSON, err := encode(shown)
	if err != nil {
		return err
	}
	var files []file
	if o.dir != "" {
		called := "quote"
		if o.client { // never among the pages of a quote with costs
			called = "client"
		}
		if files, err = ledgerFiles(called, page, asJSON); err != nil {
			return err
		}
		if err := writeAll(o.dir, files); err != nil {
			return err
		}
	}
	if o.json {
		_, err := s.out.Write(asJSON)
		return err
	}
	width := columns(s.out)
	printLedger(s.out, page, width)
	if o.whatIf {
		printChoices(s.out, q, choices, width)
	}
	if !o.client {
		for _, c := range q.Cautions {
			fmt.Fprintf(s.out, "\n%s", wrapAt(c, "", width))
		}
	}
	return o.say(s.out, files)
}

// quoting reads what quote and shop need: the job's text, and how to lay it.
func (o *options) quoting(command string, args []string, s streams) (name string, src []byte, qo quote.Options, line *progress, err error) {
	name, src, qo.Options, line, err = o.rows(command, args, s)
	qo.Today = time.Now()
	return name, src, qo, line, err
}
