package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/say"
)

// enoughFor says whether a job could be cut from the shelf alone.
type enoughFor struct {
	Job    string   `json:"job"`
	Enough bool     `json:"enough"`
	From   []string `json:"from"`          // names of the leftovers that it would be cut from
	Why    string   `json:"why,omitempty"` // it is not enough, or that is not known
	Open   bool     `json:"open"`          // it is not known: the time was up
}

// words say it.
func (e enoughFor) words() string {
	if e.Enough {
		return "yes, from " + strings.Join(e.From, ", ")
	}
	if e.Open {
		return e.Why
	}
	return "no: " + e.Why
}

// mostRoomJobs is the most jobs of a room that are looked at in one run.
const mostRoomJobs = 500

// uncutJobs are the jobs of a room that are not cut yet: those of its book as they stand there, then what
// else lies in the folder.
func uncutJobs(w *job.Workroom, dir string) (names []string, err error) {
	known := map[string]bool{job.WorkroomFile: true}
	for _, g := range w.Gowns {
		if known[g.Job] = true; g.Cut == nil && g.Took == nil {
			names = append(names, filepath.Join(dir, g.Job))
		}
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, say.Errorf("cannot look through the workroom: %w", err)
	}
	for _, e := range entries {
		if filepath.Ext(e.Name()) == ".toml" && e.Type().IsRegular() && !known[e.Name()] {
			names = append(names, filepath.Join(dir, e.Name()))
		}
	}
	if len(names) > mostRoomJobs {
		return nil, say.Errorf("%d jobs are not cut, at most %d are looked at", len(names), mostRoomJobs).
			Hint("name some of them: `yardlay shelf JOB JOB`")
	}
	return names, nil
}

// enoughFor looks at jobs one by one, each with its share of the time that is left.
func (o *options) enoughFor(ctx context.Context, s streams, w *job.Workroom, names []string) ([]enoughFor, error) {
	var all []enoughFor
	var before *job.File
	for i, name := range names {
		if errors.Is(ctx.Err(), context.Canceled) {
			return nil, context.Cause(ctx)
		}
		one := enoughFor{Job: filepath.Base(name), From: []string{}, Why: "not looked at, the time was up", Open: true}
		if ctx.Err() == nil {
			one.Open = false
			f, err := readNamed(ctx, name, before, s)
			var wrong strict.Errors
			switch {
			case err != nil && o.shelf.jobs && !inBook(w, name):
				continue // it is no job: rates, for example
			case errors.As(err, &wrong), err != nil && o.shelf.jobs:
				one.Why = "it cannot be read: `yardlay draft " + name + "` says why"
			case err != nil:
				return nil, err
			default:
				before = f
				if o.shelf.jobs && !inBook(w, name) && !takesFromRoom(f.Job()) {
					continue
				}
				within, done := plan.InTurn(ctx, len(names)-i)
				one.judge(within, f.Job(), plan.Options{Seed: 1, Workers: o.workers})
				done()
			}
		}
		all = append(all, one)
	}
	return all, nil
}

// inBook says whether a book has a job.
func inBook(w *job.Workroom, name string) bool {
	_, ok := w.Gown(name)
	return ok
}

// takesFromRoom says whether a job takes a cloth from its room.
func takesFromRoom(j *job.Job) bool {
	return slices.ContainsFunc(j.Cloths, func(c job.Cloth) bool { return c.From != "" })
}

// judge looks whether every cloth of a job can be cut from the shelf.
func (e *enoughFor) judge(ctx context.Context, j *job.Job, o plan.Options) {
	tasks, err := plan.Unless(ctx, func() ([]plan.Task, error) { return plan.Tasks(j, 1) })
	if err != nil {
		e.Why = "it cannot be laid: `yardlay lay` says why"
		if ctx.Err() != nil {
			e.Why, e.Open = "not found in the time that there was", true
		}
		return
	}
	for _, t := range tasks {
		use, enough, err := plan.FromShelf(ctx, t, o)
		if err != nil || !enough {
			e.From = []string{}
			e.Why = t.Spread.Cloth.ID + " is not enough"
			if ctx.Err() != nil {
				e.Why, e.Open = "not found in the time that there was", true
			}
			return
		}
		for _, c := range use.Cuts {
			if !slices.Contains(e.From, c.Name) {
				e.From = append(e.From, c.Name)
			}
		}
	}
	e.Enough, e.Why = len(tasks) > 0, ""
}
