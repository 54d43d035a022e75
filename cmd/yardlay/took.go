package main

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/quote"
	"yardlay/cmd/yardlay/internal/record"
	"yardlay/cmd/yardlay/internal/workroom"
	"yardlay/cost"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

var tookCommand = command{
	name: "took", args: "JOB", brief: "note the hours, lengths and prices as they were",
	about: `Writes into the book of the workroom what a gown really took, with what was planned
beside it: hours of making, for one gown and without fittings, as the job plans
them; the length of each cloth, as it was cut by the book, else as it is laid now.
What is told again takes the place of what was told before.

Without flags it shows what the book says. Later quotes then show what gowns of
that kind took: ` + "`yardlay help record`" + `.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		flags.StringVar(&o.took.hours, "hours", "", "hours of making, such as 21 or 21.5")
		flags.StringArrayVar(&o.took.lengths, "length", nil, `what was bought of a cloth: satin="4 3/4 yd"; repeat for more`)
		flags.StringArrayVar(&o.took.prices, "price", nil, "what was paid for it: satin=13.90/yd; repeat for more")
		o.onFlag(flags)
		o.layingFlags(flags)
		o.quietFlag(flags)
	},
	run: noteTook,
}

// tookOptions are the flags of took.
type tookOptions struct {
	hours           string
	lengths, prices []string
}

func noteTook(ctx context.Context, s streams, args []string, o *options) error {
	on, err := o.day()
	if err != nil {
		return err
	}
	if o.gowns != 1 {
		return &usageError{"--gowns does not go with took", "the book has one gown a job"}
	}
	if _, err := o.searchEffort(); err != nil {
		return err
	}
	f, path, err := o.inRoom(ctx, "took", args, s)
	if err != nil {
		return err
	}
	j, w := f.Job(), f.Job().Room
	told, ids, err := o.took.read(j)
	if err != nil {
		return err
	}
	writes := told.Hours != 0 || len(told.Cloths) > 0
	if writes {
		told.On = on
		if err := o.plan(ctx, s, j, &told, ids); err != nil {
			return err
		}
		err := workroom.Change(ctx, path, func(src []byte, w *job.Workroom) ([]byte, error) {
			return told.Into(src, w, f.Name())
		})
		if err != nil {
			return err
		}
		if _, w, err = workroom.Read(path); err != nil {
			return err
		}
	}
	g, _ := w.Gown(f.Name())
	made, ok := record.Of(g)
	if !ok {
		return say.Errorf("%s does not say what %s took", path, f.Name()).
			Hint("`yardlay took %s --hours 21` does", f.Name())
	}
	made.Title = j.Title
	s.line.clear()
	printMade(s.out, made, j.Unit)
	if writes && told.Hours != 0 && told.Planned == 0 {
		fmt.Fprint(s.out, wrapAt("The job plans no hours: give [labour] its hours, or rates by which they follow.", "",
			columns(s.out)))
	}
	return nil
}

// read reads the flags as what is told, with the ids of its cloths in the job.
func (to tookOptions) read(j *job.Job) (t workroom.Took, ids []string, err error) {
	if to.hours != "" {
		if t.Hours, err = cost.ParseDecimal(to.hours); err != nil || t.Hours <= 0 {
			return t, nil, &usageError{fmt.Sprintf("--hours cannot be %q", to.hours), "hours, such as 21 or 21.5"}
		}
	}
	cloth := func(flag, text, example string) (*workroom.TookCloth, string, error) {
		id, value, ok := strings.Cut(text, "=")
		k := slices.IndexFunc(j.Cloths, func(c job.Cloth) bool { return c.ID == id })
		if !ok || k < 0 {
			var known []string
			for _, c := range j.Cloths {
				known = append(known, c.ID)
			}
			return nil, "", &usageError{fmt.Sprintf("--%s %q names no cloth of the job", flag, text),
				fmt.Sprintf("--%s %s=%s; its cloths: %s", flag, known[0], example, strings.Join(known, ", "))}
		}
		i := slices.Index(ids, id)
		if i < 0 {
			i = len(ids)
			ids = append(ids, id)
			t.Cloths = append(t.Cloths, workroom.TookCloth{Cloth: workroom.CalledInBook(j, j.Cloths[k])})
		}
		return &t.Cloths[i], value, nil
	}
	for _, text := range to.lengths {
		c, value, err := cloth("length", text, `"4 3/4 yd"`)
		if err != nil {
			return t, nil, err
		}
		if c.Length, err = withUnit(value, j.Unit); err != nil {
			return t, nil, &usageError{fmt.Sprintf("--length %q is no length", text), `for example satin="4 3/4 yd"`}
		}
	}
	for _, text := range to.prices {
		c, value, err := cloth("price", text, "13.90/yd")
		if err != nil {
			return t, nil, err
		}
		if _, _, err := cost.ParsePrice(value, j.Room.Currency); err != nil {
			return t, nil, &usageError{fmt.Sprintf("--price %q is no price by length", text),
				"in " + j.Room.Currency + " by the yard or the metre: satin=13.90/yd"}
		}
		c.Price = strings.TrimSpace(value)
	}
	return t, ids, nil
}

// withUnit returns a length as it is typed, with its unit.
func withUnit(text string, bare measure.Unit) (string, error) {
	mm, err := measure.Parse(text, bare)
	if err != nil {
		return "", err
	}
	if mm <= 0 || mm > measure.Longest {
		return "", say.Errorf("%v is no length of cloth", say.MM(mm))
	}
	if other, err := measure.Parse(text, otherUnit(bare)); err == nil && other != mm {
		return strings.TrimSpace(text) + " " + bare.String(), nil
	}
	return strings.TrimSpace(text), nil
}

// otherUnit is any unit but one.
func otherUnit(u measure.Unit) measure.Unit {
	if u == measure.Inch {
		return measure.Centimetre
	}
	return measure.Inch
}

// plan writes beside what is told what was planned: hours by the job, lengths as the cloth was cut, else as it is laid.
func (o *options) plan(ctx context.Context, s streams, j *job.Job, told *workroom.Took, ids []string) error {
	var err error
	if told.Planned, err = quote.PlannedHours(j); err != nil {
		return err
	}
	if told.Hours == 0 {
		told.Planned = 0
	}
	var lay []string
	g, _ := j.Room.Gown(j.File)
	for i, id := range ids {
		if told.Cloths[i].Length == "" {
			continue
		}
		mm := 0.0
		if g.Cut != nil {
			for _, c := range g.Cut.Cloths {
				if c.Cloth == told.Cloths[i].Cloth || c.Cloth == id {
					mm = c.Length
				}
			}
		}
		if mm == 0 {
			lay = append(lay, id)
			continue
		}
		told.Cloths[i].Planned = workroom.Exactly(mm, measure.CounterUnit(j.Unit))
	}
	if lay == nil {
		return nil
	}
	lo, err := o.layingLike(j, s)
	if err != nil {
		return err
	}
	lo.Cloths = lay
	laid, err := plan.Lay(ctx, plan.Placed(ctx, j, lo), lo)
	if err != nil {
		return err
	}
	for _, l := range laid {
		i := slices.Index(ids, l.Task.Spread.Cloth.ID)
		told.Cloths[i].Planned = workroom.Exactly(l.Buy.Bought, l.Task.Spread.Cloth.Offer.Per)
	}
	return nil
}

// printMade prints what one gown took beside its plan.
func printMade(out io.Writer, g record.Gown, unit measure.Unit) {
	head := g.Job
	if g.Title != "" {
		head += ", " + g.Title
	}
	fmt.Fprint(out, wrapAt(head+", "+g.On, "", columns(out)))
	printLines(out, g.Lines(unit))
}
