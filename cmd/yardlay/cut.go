package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/remains"
	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/cmd/yardlay/internal/workroom"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

var cutCommand = command{
	name: "cut", args: "JOB [JOB...]", brief: "say that a job is cut, keep what remains",
	about: `Lays the job as lay does, with the same flags, and writes into the book of its
workroom that it is cut so: what was bought, which leftovers were used, and what
remains of each length, as outlines in whole millimetres: the end of it, and the
holes between pieces where a rectangle of 15 x 10 cm, a band of 50 x 5 cm or a
right triangle with legs of 20 cm fits. Each gets a name to write on it. What is
narrower than 4 cm is cut off, and a hole within is opened by a cut across.

With --from it is cut by a layout file as that is, every piece where it lies.
Where --time ended the search, lay may have shown another layout: keep that with
lay --keep, and cut from it.

--undo takes a cut back, byte for byte where the book is as the cut left it, else
value by value. It refuses where something that was left has been used since.

Several jobs are laid as shop lays them: on a cloth that they share together, where
that costs less. Each has its share of what was bought there; what is left of it is
left from the first of them.

It cuts no cloth, and remembers what you say: say it once the shears are down.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		o.layingFlags(flags)
		flags.StringVar(&o.from, "from", "", "cut by the layouts in this file, as they are")
		flags.StringArrayVar(&o.cut.bought, "bought", nil,
			"what was bought by length, where that is not what the plan says: `CLOTH=LENGTH`, satin=\"4 3/4 yd\"")
		flags.StringArrayVar(&o.cut.lots, "lot", nil, "the dye lot of what was bought: `CLOTH=LOT`")
		flags.BoolVar(&o.cut.undo, "undo", false, "take back that the job was cut")
		o.onFlag(flags)
		flags.StringVar(&o.unit, "unit", "", "show lengths in this unit (in, ft, yd, mm, cm, m) instead of the job's")
		flags.BoolVar(&o.json, "json", false, "print JSON, lengths in millimetres")
		o.quietFlag(flags)
	},
	run: cut,
}

// cutOptions are the flags of cut.
type cutOptions struct {
	bought, lots []string
	undo         bool
}

func cut(ctx context.Context, s streams, args []string, o *options) error {
	on, err := o.day()
	if err != nil {
		return err
	}
	if len(args) > 1 {
		return o.cutTogether(ctx, s, args, on)
	}
	f, path, err := o.inRoom(ctx, "cut", args, s)
	if err != nil {
		return err
	}
	if o.cut.undo {
		return o.uncut(ctx, s, f, path)
	}
	if g, ok := f.Job().Room.Gown(f.Name()); ok && g.Cut != nil {
		return say.Errorf("%s was cut on %s", f.Name(), g.Cut.On).
			Hint("`yardlay cut %s --undo` takes that back", f.Name())
	}
	lo, err := o.layingLike(f.Job(), s)
	if err != nil {
		return err
	}
	bought, lots, err := o.cut.named(f.Job())
	if err != nil {
		return err
	}
	begun, err := o.asKept(&lo)
	if err != nil {
		return err
	}
	o.settle(ctx, f, s)
	laid, err := plan.Lay(ctx, f.Job(), lo)
	if err != nil {
		return err
	}
	if errors.Is(ctx.Err(), context.Canceled) {
		return say.Errorf("interrupted: nothing is written, %s is not cut by the book", f.Name())
	}
	if err := begun.exactly(laid); err != nil {
		return err
	}
	s.line.stage("finding what remains")
	c, told, err := cutFrom(ctx, laid, f.Job(), bought, lots)
	if err != nil {
		return err
	}
	c.On = on
	// The time that a search may take is no limit to writing down what it found.
	err = workroom.Change(context.WithoutCancel(ctx), path, func(src []byte, w *job.Workroom) ([]byte, error) {
		return c.Into(src, w, f.Name())
	})
	if err != nil {
		return err
	}
	return told.print(s, o, f, c)
}

// uncut takes a cut back.
func (o *options) uncut(ctx context.Context, s streams, f *job.File, path string) error {
	if len(o.cut.bought)+len(o.cut.lots) > 0 || o.from != "" {
		return &usageError{"--undo goes without --bought, --lot and --from", "it takes back all of the cut"}
	}
	err := workroom.Change(ctx, path, func(src []byte, w *job.Workroom) ([]byte, error) {
		return workroom.Uncut(src, w, f.Name())
	})
	if err != nil {
		return err
	}
	s.line.clear()
	if !o.quiet && !o.json {
		fmt.Fprintf(s.out, "%s is not cut any more, by the book: the shelf is what it was before.\n", f.Name())
	}
	return nil
}

// named reads --bought and --lot, by the ids of the job's cloths; lengths in mm.
func (c cutOptions) named(j *job.Job) (bought map[string]float64, lots map[string]string, err error) {
	bought, lots = map[string]float64{}, map[string]string{}
	for _, flag := range []struct {
		name string
		all  []string
	}{{"bought", c.bought}, {"lot", c.lots}} {
		for _, one := range flag.all {
			id, text, ok := strings.Cut(one, "=")
			i := slices.IndexFunc(j.Cloths, func(c job.Cloth) bool { return c.ID == id })
			if text = strings.TrimSpace(text); !ok || text == "" || i < 0 {
				return nil, nil, &usageError{fmt.Sprintf("--%s cannot be %q", flag.name, one),
					"the id of a cloth of the job, = and a value: " + clothList(j)}
			}
			if flag.name == "lot" {
				lots[id] = text
				continue
			}
			if bought[id], err = measure.ParsePositive(text, j.Cloths[i].Offer.Per); err != nil {
				return nil, nil, &usageError{fmt.Sprintf("--bought cannot be %q: %v", one, err),
					`for example satin="4 3/4 yd"`}
			}
		}
	}
	return bought, lots, nil
}

// clothList names the cloths of a job.
func clothList(j *job.Job) string {
	var ids []string
	for _, c := range j.Cloths {
		ids = append(ids, c.ID)
	}
	return strings.Join(ids, ", ")
}

// cutFrom is what the cloths of a job are cut from and what remains of them.
func cutFrom(ctx context.Context, laid []plan.Laid, j *job.Job, bought map[string]float64, lots map[string]string) (
	workroom.Cutting, cutReport, error) {
	var c workroom.Cutting
	var told cutReport
	for _, l := range laid {
		cloth := l.Task.Spread.Cloth
		one, report, err := clothCut(ctx, l, j, bought[cloth.ID], lots[cloth.ID])
		if err != nil {
			return c, told, say.Errorf("cloth `%s`: %w", cloth.ID, err)
		}
		c.Cloths = append(c.Cloths, one)
		told.Cloths = append(told.Cloths, report)
	}
	return c, told, nil
}

// clothCut is that of one cloth.
func clothCut(ctx context.Context, l plan.Laid, j *job.Job, bought float64, lot string) (one workroom.ClothCutting,
	told clothReport, err error) {
	cloth := l.Task.Spread.Cloth
	if bought > 0 && l.CounterLength() == 0 {
		return one, told, say.Errorf("nothing of it is bought by length, so --bought says nothing").Hint("leave it out")
	}
	lengths, err := remains.Lengths(l, bought)
	if err != nil {
		return one, told, err
	}
	one = workroom.ClothCutting{Cloth: cloth.ID, Unit: cloth.Offer.Per, Lot: lot}
	if cloth.From != "" {
		one.Cloth = cloth.From
	}
	told.Cloth, told.Room = cloth.ID, cloth.From != ""
	for _, length := range lengths {
		left, err := plan.Unless(ctx, func() ([]remains.Left, error) { return remains.Of(length.Cloth) })
		if err != nil {
			return one, told, err
		}
		one.Length += length.Bought
		from := remnantOf(l, j, length, lot)
		if from.used != nil {
			one.Used = append(one.Used, *from.used)
		} else if length.Shelf {
			told.Own = append(told.Own, length.Name)
		}
		if !told.Room {
			left = nil
		}
		for _, r := range left {
			one.Left = append(one.Left, workroom.Remnant{Outline: r.Outline, Lot: from.lot, Washed: from.washed})
		}
		told.Balance = told.Balance.Plus(remains.BalanceOf(length.Cloth, left))
	}
	return one, told, nil
}

// cutLength is where a length came from.
type cutLength struct {
	used   *job.Have // a leftover of the room; nil: bought, or a leftover of the job alone
	lot    string
	washed bool
}

// remnantOf tells that of one length.
func remnantOf(l plan.Laid, j *job.Job, length remains.Length, lot string) cutLength {
	cloth := l.Task.Spread.Cloth
	from := cutLength{lot: lot, washed: cloth.Shrinkage.Prewash}
	if !length.Shelf || l.Shelf == nil || l.Shelf.Verdict == shelf.Idle {
		return from
	}
	from.lot = ""
	i := slices.IndexFunc(cloth.Have, func(h job.Have) bool { return h.Name == length.Name })
	from.washed = from.washed || cloth.Have[i].Washed
	for _, left := range j.Room.Leftovers {
		if left.Name == length.Name && left.Cloth == cloth.From && cloth.Have[i].At.File == j.Room.File {
			from.used, from.lot = &left.Have, left.Lot
		}
	}
	return from
}
