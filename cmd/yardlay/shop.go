package main

import (
	"context"
	"io"
	"slices"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/quote"
)

var shopCommand = command{
	name: "shop", args: "JOB [JOB...]", brief: "list what to buy where, and what is on the shelf",
	about: `Lays the job and prints its shopping list over all parts: cloth and notions by
supplier, the cheapest in all with shipping and tax; of each the length or the
number to buy in the counter's own unit, what is needed, spare and price;
then what is on the shelf already.

Over several jobs it is one list, one order a supplier: price breaks, bolts, packs
and free shipping are reckoned over all, and a cloth that several gowns are cut
from is laid for them together where that costs less. A cloth is the same where
its title and all that it is laid and sold by are. Nothing on the shelf is used
twice. What each gown takes by itself stands at the end.

With --week in place of jobs it shops for the open gowns of the workroom in this
folder, or in the one that is named: those in its book that are not cut yet, the
one to be delivered first before the others.

With --out it writes shop.svg, a page to print, and shop.json; of cloths that are
laid together the markers, shop.CLOTH.svg and shop.CLOTH.geojson.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		flags.BoolVar(&o.week, "week", false, "shop for the open gowns of the workroom")
		flags.StringVar(&o.until, "until", "", "with --week: only for those to be delivered by this day, 2026-12-20")
		o.layingFlags(flags)
		o.onFlag(flags)
		o.outputFlags(flags, "shop.svg, shop.json, and markers laid together")
	},
	run: shop,
}

func shop(ctx context.Context, s streams, args []string, o *options) error {
	switch {
	case o.week:
		return shopWeek(ctx, s, args, o)
	case o.until != "":
		return &usageError{"--until goes with --week", "name the jobs, or let the book of the workroom name them"}
	case len(args) > 1:
		return shopTogether(ctx, s, args, o)
	}
	f, qo, err := o.quoting(ctx, "shop", args, s)
	if err != nil {
		return err
	}
	out, err := o.opened(ctx, files.ShopSet())
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
		printCautions(to, slices.Concat(q.Cautions, roomNotes(f.Job(), job.DateOf(qo.Today))), columns(s.out))
	})
}
