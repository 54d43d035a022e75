package main

import (
	"context"
	"errors"
	"io"
	"slices"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/workroom"
)

var layCommand = command{
	name: "lay", args: "JOB", brief: "lay the pieces on each cloth and say what to buy",
	about: `Drafts the parts of the job, lays the pieces on each cloth, checks every layout
and prints the length used, the length to buy and what it costs. JOB is a job
file, or - for standard input. Interrupt it once and it keeps the best layout it
has so far; interrupt it twice and it ends.

Beside every layout stands a bound: a length that no layout of these pieces can
be shorter than, with the reason in a line; --why gives all of it. Where bound
and layout come to the same length at the counter, the purchase is proved
minimal and the search ends.

A cloth that the job folds is laid in up to two stretches: one cut through two
layers, and an open one behind it for the rest. Each layout is checked as it
lies and opened out. Ends, a skewed cut end, washing and spare are added and
listed. A repeat is set beside plain cloth. Leftovers on the shelf are used
where that saves cloth. With --gowns several gowns share one lay.

With --out it writes for each cloth a drawing CLOTH.svg and the placed outlines
of its markers (millimetres), and for the whole job lay.json: CLOTH.geojson,
CLOTH-open.geojson for an open stretch behind a fold, CLOTH-bolt-1.geojson and
so on for whole bolts where several lengths are bought, CLOTH-shelf-1.geojson
for leftovers. A layout that does not hold is never written.

With --keep it keeps the layouts in a file, JSON, a line for each piece. With
--from it goes on from such a file: a piece marked "pinned": true stays where it
lies, the others are laid around it; where nothing changed the search begins from
where all of them lie. Everything is checked anew. What has changed since is told
by name and laid anew. A cloth with pinned pieces is cut from one length.

In a workroom --promise notes in its book that the leftovers used are for this
job: others leave them alone, until it is cut or ` + "`yardlay shelf --release`" + `.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		o.layingFlags(flags)
		flags.BoolVar(&o.exact, "exact", false,
			"shorten the used length even when it is proved that no less can be bought")
		o.fromFlag(flags)
		flags.BoolVar(&o.promise, "promise", false, "promise this job the leftovers of the workroom that it is laid on")
		flags.StringVar(&o.keep, "keep", "", "keep the layouts in this file, to go on from")
		o.onFlag(flags)
		flags.BoolVar(&o.why, "why", false, "explain for each cloth why no marker can be shorter than its bound")
		o.outputFlags(flags, "CLOTH.svg, CLOTH.geojson and lay.json")
	},
	run: lay,
}

func lay(ctx context.Context, s streams, args []string, o *options) error {
	f, lo, err := o.laying(ctx, "lay", args, s)
	if err != nil {
		return err
	}
	on, err := o.day()
	if err != nil {
		return err
	}
	lo.Exact = o.exact
	if o.promise && f.Job().Room == nil {
		return &usageError{"--promise needs a workroom", "`yardlay workroom --new` makes one in the folder of the job"}
	}
	begun, err := o.begun(&lo)
	if err != nil {
		return err
	}
	keep, err := o.keeper()
	if err != nil {
		return err
	}
	out, err := o.opened(ctx, files.LaySet(f.Job()))
	if err != nil {
		return err
	}
	defer out.close()
	r, err := report.Run(ctx, f.Job(), lo)
	if err != nil {
		return err
	}
	r.Begun = begun.lines()
	err = out.finish(s, r, func() (made, error) {
		list, err := files.Lay(r)
		return made{files.SetLay: list}, err
	}, func(to io.Writer) {
		layPrinter{r, to, columns(to), o.why}.print()
		j := f.Job()
		printCautions(to, slices.Concat(workroom.Changed(j, lo.Unit), workroom.Shelf(j), workroom.OldPrices(j, on)),
			columns(to))
	})
	return errors.Join(err, keep.write(s, r), o.promised(ctx, s, f, r.Laid()))
}
