// Gowns lays many gown cloths, drafted from a few bodies, with several seeds and
// amounts of work, and tells how far the default layout of each lies above the best.
//
//	go run ./benchmarks/gowns --list
//	go run ./benchmarks/gowns --out FILE [--seeds 1..8] [--work MULTIPLE] [--part K/N] [--worst N] [--unsettled]
//	    [--cloth REGEXP] [--workers N]
//	go run ./benchmarks/gowns --report FILE
//	go run ./benchmarks/gowns --bounds [--cloth REGEXP]
//
// FILE takes a line of JSON for each run. Runs that stand in it are not made again, so
// that an interrupted survey goes on where it ended. A file belongs to one state of the
// search: begin another after a change.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/signal"
	"regexp"
	"slices"

	"github.com/spf13/pflag"

	"yardlay/nest"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// defaultWork is that of nest.Normal, before it grows: evaluations for each lane.
const defaultWork = 16 << 20

type settings struct {
	list        bool
	bounds      bool
	part, parts int
	first, last uint64 // seeds
	work        int64  // multiple of the default
	worst       int    // only so many cloths, the worst so far first; 0: all in their order
	unsettled   bool
	named       *regexp.Regexp
	workers     int
	out         string
	report      string
}

// run does all and returns the exit code: 0 done, 1 failed, 2 usage.
func run(args []string, stdout, stderr io.Writer) int {
	s, err := parse(args, stderr)
	switch {
	case errors.Is(err, pflag.ErrHelp):
		return 0
	case err != nil:
		fmt.Fprintln(stderr, "gowns:", err)
		return 2
	}
	if err := do(s, stdout); err != nil {
		fmt.Fprintln(stderr, "gowns:", err)
		return 1
	}
	return 0
}

func parse(args []string, stderr io.Writer) (settings, error) {
	var s settings
	flags := pflag.NewFlagSet("gowns", pflag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.BoolVar(&s.list, "list", false, "print the cloths and lay none")
	flags.BoolVar(&s.bounds, "bounds", false, "print the bounds of the cloths and lay none")
	part := flags.String("part", "1/1", "lay the K-th of N shares of the cloths, as K/N")
	seeds := flags.String("seeds", "1", "seeds to search with, as 1..8 or 3")
	flags.Int64Var(&s.work, "work", 1, "search this many times as long as by default")
	flags.IntVar(&s.worst, "worst", 0, "lay only so many cloths: the worst of the runs so far, worst first")
	flags.BoolVar(&s.unsettled, "unsettled", false,
		"pass by the cloths whose default layout is within 1 % of its bound by the runs so far")
	named := flags.String("cloth", "", "lay only the cloths whose name matches this expression")
	flags.IntVar(&s.workers, "workers", 0, "processors to use; 0 takes all")
	flags.StringVar(&s.out, "out", "", "add a line for each run to this file, and pass by the runs in it")
	flags.StringVar(&s.report, "report", "", "print the table of the runs in this file")
	if err := flags.Parse(args); err != nil {
		return s, err
	}
	var err error
	if s.first, s.last, err = span(*seeds); err != nil {
		return s, err
	}
	if s.named, err = regexp.Compile(*named); err != nil {
		return s, fmt.Errorf("--cloth %s: %w", *named, err)
	}
	if n, _ := fmt.Sscanf(*part, "%d/%d", &s.part, &s.parts); n != 2 || s.part < 1 || s.part > s.parts {
		return s, fmt.Errorf("--part %s: a share as 1/2, 2/2", *part)
	}
	switch {
	case flags.NArg() > 0:
		return s, fmt.Errorf("unexpected %q", flags.Arg(0))
	case s.work < 1 || s.work > 1<<20:
		return s, fmt.Errorf("--work %d: a multiple of the default, at least 1", s.work)
	case s.worst < 0:
		return s, fmt.Errorf("--worst %d: a number of cloths", s.worst)
	case !s.list && !s.bounds && s.report == "" && s.out == "":
		return s, errors.New("one of --list, --bounds, --out FILE, --report FILE")
	}
	return s, nil
}

// span reads "1..8" or "3".
func span(text string) (first, last uint64, err error) {
	if n, _ := fmt.Sscanf(text, "%d..%d", &first, &last); n == 1 {
		last = first
	}
	if first < 1 || last < first {
		return 0, 0, fmt.Errorf("--seeds %s: as 1..8 or 3", text)
	}
	return first, last, nil
}

func do(s settings, stdout io.Writer) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	all, err := listed()
	if err != nil {
		return err
	}
	cloths := slices.Clone(all) // some are left out
	switch {
	case s.bounds:
		return bounds(ctx, slices.DeleteFunc(cloths, func(c cloth) bool { return !s.named.MatchString(c.name) }), stdout)
	case s.list:
		for _, c := range cloths {
			fmt.Fprintf(stdout, "%3d pieces  %s\n", copies(c.problem), c.name)
		}
		return nil
	case s.report != "":
		runs, err := read(s.report)
		if err != nil {
			return err
		}
		return report(stdout, cloths, runs)
	}
	return survey(ctx, s, cloths, stdout)
}

// survey makes the runs that the file lacks, seed by seed through all cloths.
func survey(ctx context.Context, s settings, cloths []cloth, stdout io.Writer) error {
	runs, err := read(s.out)
	if err != nil {
		return err
	}
	done := map[key]bool{}
	for _, r := range runs {
		done[r.key()] = true
	}
	picked, err := pick(s, cloths, runs)
	if err != nil {
		return err
	}
	for seed := s.first; seed <= s.last; seed++ {
		for _, c := range picked {
			r := record{Cloth: c.name, Pieces: copies(c.problem), Work: s.work, Seed: seed}
			if r.Mark, err = mark(c.problem); err != nil {
				return err
			}
			if done[r.key()] {
				continue
			}
			if err := r.lay(ctx, c.problem, s.workers); err != nil {
				return fmt.Errorf("%s, seed %d: %w", c.name, seed, err)
			}
			if err := add(s.out, r); err != nil {
				return err
			}
			fmt.Fprintf(stdout, "%8.2f in  seed %d, work %d, %.1f s: %s\n", r.Length/inch, seed, s.work,
				r.Seconds, c.name)
		}
	}
	return nil
}

// pick returns the share of the cloths that is asked for, or the worst of the runs so far.
func pick(s settings, cloths []cloth, runs []record) ([]cloth, error) {
	all, err := lines(cloths, runs)
	if err != nil {
		return nil, err
	}
	if s.worst > 0 {
		worstFirst(all)
		byName := map[string]cloth{}
		for _, c := range cloths {
			byName[c.name] = c
		}
		cloths = nil
		for _, l := range all[:min(s.worst, len(all))] {
			cloths = append(cloths, byName[l.name])
		}
	}
	if s.unsettled {
		settled := map[string]bool{}
		for _, l := range all {
			settled[l.name] = l.settled()
		}
		cloths = slices.DeleteFunc(cloths, func(c cloth) bool { return settled[c.name] })
	}
	var out []cloth
	for i, c := range cloths {
		if i%s.parts == s.part-1 && s.named.MatchString(c.name) {
			out = append(out, c)
		}
	}
	return out, nil
}

// eighths returns what is bought for a used length where cloth is sold by the eighth of a
// yard, mm.
func eighths(used float64) float64 {
	const eighth = 4.5 * inch
	return eighth * math.Ceil(used/eighth)
}

// lay makes the run and fills in what came of it. An interrupted run is an error.
func (r *record) lay(ctx context.Context, p nest.Problem, workers int) error {
	o := nest.Options{Seed: r.Seed, Workers: workers}
	if r.Work > 1 {
		o.Work = r.Work * defaultWork
	} else {
		o.Bought = eighths // as it is bought, which says when to go on and when to end
	}
	result, err := nest.Solve(ctx, p, o)
	if err != nil {
		return err
	}
	if result.Status == nest.Stopped {
		return errors.New("interrupted")
	}
	if err := nest.Verify(p, result.Layout); err != nil {
		return err
	}
	r.Length, r.Bound = result.Layout.Length, result.Bound.Length
	r.Proved = eighths(r.Length) <= eighths(r.Bound)
	r.Evaluations, r.Seconds = result.Stats.Evaluations, result.Stats.Elapsed.Seconds()
	return nil
}
