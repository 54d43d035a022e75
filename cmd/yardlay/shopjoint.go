package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/quote"
)

// shopTogether shops for several jobs at once.
func shopTogether(ctx context.Context, s streams, args []string, o *options) error {
	if err := o.severalJobs(args); err != nil {
		return err
	}
	var gowns []quote.Gown
	var before *job.File
	for i, name := range namesOf(args) {
		f, err := readNamed(ctx, args[i], before, s)
		if err != nil {
			return err
		}
		before = f
		o.settle(ctx, f, s)
		gowns = append(gowns, quote.Gown{Name: name, Job: f.Job()})
	}
	return o.shopFor(ctx, s, gowns)
}

// shopFor lays gowns and prints the shopping list over all of them.
func (o *options) shopFor(ctx context.Context, s streams, gowns []quote.Gown) error {
	lo, err := o.layingLike(gowns[0].Job, s)
	if err != nil {
		return err
	}
	on, err := o.day()
	if err != nil {
		return err
	}
	out, err := o.opened(ctx, files.ShopSet())
	if err != nil {
		return err
	}
	defer out.close()
	list, err := quote.Together(ctx, gowns, quote.Options{Options: lo, Today: on.Time()})
	if err != nil {
		return err
	}
	page := list.Ledger()
	return out.finish(s, list, func() (made, error) {
		drawn, err := files.Shop(page, list)
		return made{files.SetShop: drawn}, err
	}, func(to io.Writer) {
		printLedger(to, page, columns(s.out))
		told := list.Cautions
		for _, g := range gowns {
			for _, line := range roomNotes(g.Job, on) {
				if !slices.Contains(told, line) {
					told = append(told, line)
				}
			}
		}
		printCautions(to, told, columns(s.out))
	})
}

// severalJobs judges the use of shop over several jobs.
func (o *options) severalJobs(args []string) error {
	if o.gowns != 1 {
		return &usageError{"--gowns does not go with several jobs", "each of them is one gown"}
	}
	if len(args) > quote.MostGowns {
		return &usageError{fmt.Sprintf("%d jobs are too many to shop for at once", len(args)),
			fmt.Sprintf("at most %d", quote.MostGowns)}
	}
	for i, name := range args {
		if slices.Contains(args[:i], name) {
			return &usageError{fmt.Sprintf("%s is named twice", name),
				"`--gowns` with that job alone lays it several times"}
		}
	}
	_, err := o.searchEffort()
	return err
}

// namesOf calls jobs by the names of their files, without folders and extension where that tells them apart.
func namesOf(args []string) []string {
	names, times := make([]string, len(args)), map[string]int{}
	for i, arg := range args {
		names[i] = strings.TrimSuffix(filepath.Base(arg), filepath.Ext(arg))
		times[names[i]]++
	}
	for i, arg := range args {
		if times[names[i]] > 1 || arg == "-" {
			names[i] = arg
		}
		if arg == "-" {
			names[i] = "stdin"
		}
	}
	return names
}
