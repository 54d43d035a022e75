package main

import (
	"context"
	"io"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/quote"
)

var shopCommand = command{
	name: "shop", args: "JOB", brief: "list what to buy where, and what is on the shelf",
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
	f, qo, err := o.quoting(ctx, "shop", args, s)
	if err != nil {
		return err
	}
	out, err := o.opened(ctx, files.PageSet(files.SetShop))
	if err != nil {
		return err
	}
	defer out.close()
	q, err := quote.Make(ctx, f.Job(), qo)
	if err != nil {
		return err
	}
	list, err := q.Shopping()
	if err != nil {
		return err
	}
	page := list.Ledger()
	return out.finish(s, list, func() (made, error) {
		drawn, err := files.Pages(files.SetShop, page, list)
		return made{files.SetShop: drawn}, err
	}, func(to io.Writer) {
		printLedger(to, page, columns(s.out))
		printCautions(to, q.Cautions, columns(s.out))
	})
}
