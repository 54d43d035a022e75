package main

import (
	"context"
	"errors"
	"io"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/quote"
	"yardlay/shapes/say"
)

var compareCommand = command{
	name: "compare", args: "JOB", brief: "set other widths, naps and lays beside it",
	about: `Lays the job as written and in other ways, and prints what each would buy, what
it costs and how it differs. It marks the row that costs least; of rows that
cost the same, the one that is easier to cut: open before folded, then fewer
changes. A way that cannot be cut says why.

--vary names a key of the job file and its values. A cloth goes by its id, a
part by its name with - for a space. Several --vary multiply. Keys joined by +
change together, so that each width gets its own price:

  --vary satin.nap=one-way,two-way
  --vary satin.width=45in,54in,60in --vary satin.lay=open,lengthwise-fold
  --vary skirt.gores=6,8,10 --vary overskirt.gap=2in,3in
  --vary "satin.width+satin.price=45in+9.80/yd,60in+14/yd"

Without --vary one thing at a time is changed: nap, lay and usual widths of the
outer cloth, a gore more and one fewer, corners pieced at the best of up to three
places, two pieces cut in one, a small tilt, lay and next widths of the other
cloths. Rows that cut a part otherwise say what is sewn more or less. Where the
job leaves the place of a cut open, it is chosen for each row.

Where narrower cloth makes layers of net less full, the row says so and is not
marked: it is another gown.

A layout that another row may use too is used there when it is better. Interrupt
it once and it keeps the rows it has; interrupt it twice and it ends.

With --out it writes a picture compare.svg, the figures compare.json, and for
the best row what lay writes: CLOTH.svg, CLOTH.geojson and lay.json.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		flags.StringArrayVar(&o.vary, "vary", nil, "values to compare: KEY=V1,V2 or KEY+KEY=V1+W1,V2+W2")
		o.layingFlags(flags)
		o.outputFlags(flags, "compare.svg, compare.json and the best row's markers")
	},
	run: compareJob,
}

func compareJob(ctx context.Context, s streams, args []string, o *options) error {
	asked, ways, err := o.ways()
	if err != nil {
		return err
	}
	f, lo, err := o.laying(ctx, "compare", args, s)
	if err != nil {
		return err
	}
	out, err := o.opened(ctx, files.PageSet(files.SetCompare), files.LaySet(f.Job()))
	if err != nil {
		return err
	}
	defer out.close()
	qo := quote.Options{Options: lo}
	lo.Check = quote.Check(qo)
	r, err := compare.Run(ctx, f, asked, ways, compare.Options{Options: lo, Price: quote.Weigh(qo)})
	var refused *job.ChangeError
	if errors.As(err, &refused) {
		return wrongUse("--vary ", refused)
	} else if err != nil {
		return err
	}
	return out.finish(s, r, func() (made, error) { return compared(r) },
		func(to io.Writer) { printCompared(to, r, columns(s.out)) })
}

// ways reads every --vary and multiplies them; none when there is no --vary.
func (o *options) ways() (asked []compare.Asked, ways [][]job.Change, err error) {
	for _, text := range o.vary {
		a, err := compare.Ask(text)
		if err != nil {
			return nil, nil, wrongUse("--vary "+text+": ", err)
		}
		asked = append(asked, a)
	}
	if asked == nil {
		return nil, nil, nil
	}
	if ways, err = compare.Combine(asked); err != nil {
		return nil, nil, wrongUse("--vary: ", err)
	}
	return asked, ways, nil
}

// wrongUse makes an error of how the command was called.
func wrongUse(of string, err error) error {
	what, hint := say.Parts(err, nil)
	if hint == "" {
		hint = "`yardlay help compare` shows how"
	}
	return &usageError{of + what, hint}
}

// compared encodes all that compare writes: the comparison, and as lay does the markers of
// the best row.
func compared(r *compare.Result) (made, error) {
	comparison, err := files.Compare(r)
	if err != nil {
		return nil, err
	}
	all := made{files.SetCompare: comparison}
	if best := r.Best(); best != nil {
		all[files.SetLay], err = files.Lay(best.Report)
	}
	return all, err
}
