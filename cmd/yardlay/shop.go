package main

import (
	"context"
	"fmt"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/quote"
)

var shopCommand = command{
	name: "shop", args: "JOB", brief: "list what to buy where, and what is there",
	about: `Lays the job and prints its shopping list over all parts: cloth and notions by
supplier, the cheapest in all with shipping and tax; of each the length or the
number to buy in the counter's own unit, what is needed, spare and price;
then what is on the shelf already.

With --out it writes shop.svg, a page to print, and shop.json.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		o.layingFlags(flags)
		o.outputFlags(flags, "shop.svg and shop.json")
	},
	run: shop,
}

func shop(ctx context.Context, s streams, args []string, o *options) error {
	name, src, qo, line, err := o.quoting("shop", args, s)
	if err != nil {
		return err
	}
	q, err := quote.Make(ctx, name, src, qo)
	line.clear()
	if err != nil {
		return err
	}
	list, err := q.Shopping()
	if err != nil {
		return err
	}
	asJSON, err := encode(list)
	if err != nil {
		return err
	}
	page := list.Ledger()
	var files []file
	if o.dir != "" {
		if files, err = ledgerFiles("shop", page, asJSON); err != nil {
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
	printLedger(s.out, page, columns(s.out))
	for _, c := range q.Cautions {
		fmt.Fprintf(s.out, "\n%s", wrapAt(c, "", columns(s.out)))
	}
	return o.say(s.out, files)
}
