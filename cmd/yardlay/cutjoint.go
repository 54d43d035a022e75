package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"

	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/quote"
	"yardlay/cmd/yardlay/internal/workroom"
	"yardlay/shapes/say"
)

// cutTogether says of several jobs that they are cut as shop lays them.
func (o *options) cutTogether(ctx context.Context, s streams, args []string, on job.Date) error {
	if o.cut.undo || o.from != "" || len(o.cut.bought)+len(o.cut.lots) > 0 {
		return &usageError{"--undo, --from, --bought and --lot go with one job",
			"lots can be written into the book by hand"}
	}
	if err := o.severalJobs(args); err != nil {
		return err
	}
	jobs, path, err := o.uncutJobs(ctx, s, args)
	if err != nil {
		return err
	}
	lo, err := o.layingLike(jobs[0].Job(), s)
	if err != nil {
		return err
	}
	var gowns []quote.Gown
	for i, name := range namesOf(args) {
		o.settle(ctx, jobs[i], s)
		gowns = append(gowns, quote.Gown{Name: name, Job: jobs[i].Job()})
	}
	list, err := quote.Together(ctx, gowns, quote.Options{Options: lo, Today: on.Time()})
	if err != nil {
		return err
	}
	if errors.Is(ctx.Err(), context.Canceled) {
		return say.Errorf("interrupted: nothing is written, no job is cut by the book")
	}
	cuts, told, err := sharedCuts(ctx, list, jobs, on)
	if err != nil {
		return err
	}
	if err := writeCuts(ctx, path, cuts, jobs); err != nil {
		return err
	}
	for i := range told {
		told[i].fill(jobs[i].Name(), cuts[i])
	}
	s.line.clear()
	if o.json {
		asJSON, err := files.JSON(told)
		s.out.Write(asJSON)
		return err
	}
	for i, r := range told {
		if i > 0 {
			fmt.Fprintln(s.out)
		}
		r.words(s.out, lo.Unit, cuts[i])
	}
	return nil
}

// writeCuts writes all of them into the book, or none.
func writeCuts(ctx context.Context, path string, cuts []workroom.Cutting, jobs []*job.File) error {
	// The time that a search may take is no limit to writing down what it found.
	return workroom.Change(context.WithoutCancel(ctx), path, func(src []byte, w *job.Workroom) ([]byte, error) {
		for i, c := range cuts {
			var err error
			if src, err = c.Into(src, w, jobs[i].Name()); err != nil {
				return nil, err
			}
			if w, err = job.ReadWorkroom(path, src); err != nil {
				return nil, err
			}
		}
		return src, nil
	})
}

// uncutJobs reads jobs of one workroom that are not cut yet.
func (o *options) uncutJobs(ctx context.Context, s streams, args []string) (jobs []*job.File, path string, err error) {
	for i, arg := range args {
		f, in, err := o.inRoom(ctx, "cut", []string{arg}, s)
		if err != nil {
			return nil, "", err
		}
		if i > 0 && filepath.Clean(in) != filepath.Clean(path) {
			return nil, "", say.Errorf("%s stands in another workroom than %s", arg, args[0]).
				Hint("cut the jobs of one workroom together")
		}
		if g, ok := f.Job().Room.Gown(f.Name()); ok && g.Cut != nil {
			return nil, "", say.Errorf("%s was cut on %s", f.Name(), g.Cut.On).
				Hint("`yardlay cut %s --undo` takes that back", f.Name())
		}
		path, jobs = in, append(jobs, f)
	}
	return jobs, path, nil
}

// sharedCuts is what each job is cut from. What is used for several of them and what is left is noted with the first.
func sharedCuts(ctx context.Context, list *quote.Joint, jobs []*job.File, on job.Date) ([]workroom.Cutting,
	[]cutReport, error) {
	cuts, told := make([]workroom.Cutting, len(jobs)), make([]cutReport, len(jobs))
	for i := range cuts {
		cuts[i].On = on
	}
	for _, l := range list.Cloths {
		first := l.Gowns[0]
		l.Laid.Task.Spread.Cloth.ID = l.IDs[0]
		one, report, err := clothCut(ctx, l.Laid, jobs[first].Job(), 0, "")
		if err != nil {
			return nil, nil, say.Errorf("cloth `%s`: %w", l.Laid.Task.Spread.Cloth.ID, err)
		}
		if len(l.Gowns) > 1 {
			one.Length = l.Shares[0]
		}
		for k, gown := range l.Gowns {
			c, r := one, report
			if k > 0 {
				c.Length, c.Used, c.Left = l.Shares[k], nil, nil
				if !report.Room {
					c.Cloth = l.IDs[k]
				}
				r = clothReport{Cloth: l.IDs[k], Room: report.Room, With: jobs[first].Name()}
			}
			cuts[gown].Cloths = append(cuts[gown].Cloths, c)
			told[gown].Cloths = append(told[gown].Cloths, r)
		}
	}
	return cuts, told, nil
}
