package main

import (
	"fmt"
	"io"
	"os"
	"time"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// options is what the flags of all commands are read into.
type options struct {
	dir     string
	effort  string
	time    time.Duration
	seed    uint64
	workers int
	exact   bool
	why     bool
	gowns   int
	vary    []string
	whatIf  bool
	client  bool
	unit    string
	json    bool
	quiet   bool
	seams   bool
	edges   bool
}

// mostGowns is more than any workroom lays at a time.
const mostGowns = 100

// layingFlags are those that steer the search.
func (o *options) layingFlags(flags *pflag.FlagSet) {
	flags.StringVar(&o.effort, "effort", "normal", "how hard to search: quick, normal or thorough")
	flags.DurationVar(&o.time, "time", 0, "stop the search after this long at the latest, as in 30s or 2m;\nwhat it has by then depends on the machine")
	flags.Uint64Var(&o.seed, "seed", 1, "another seed searches another way")
	flags.IntVar(&o.workers, "workers", 0, "how many processors to use; 0 takes all, the layout is the same")
	flags.IntVar(&o.gowns, "gowns", 1, "how many gowns to lay together, on the same lay of each cloth")
}

// outputFlags are those that say where results go and how.
func (o *options) outputFlags(flags *pflag.FlagSet, writes string) {
	flags.StringVar(&o.dir, "out", "", "write into this folder: "+writes)
	flags.StringVar(&o.unit, "unit", "", "show lengths in this unit (in, ft, yd, mm, cm, m) instead of the job's")
	flags.BoolVar(&o.json, "json", false, "print JSON, lengths in millimetres")
	o.quietFlag(flags)
}

func (o *options) quietFlag(flags *pflag.FlagSet) {
	flags.BoolVarP(&o.quiet, "quiet", "q", false, "no progress and no notes on what was written")
}

// searchEffort reads --effort and judges the other flags of the search.
func (o *options) searchEffort() (nest.Effort, error) {
	effort, err := nest.ParseEffort(o.effort)
	switch {
	case err != nil:
		return 0, &usageError{fmt.Sprintf("--effort cannot be %q", o.effort), "quick, normal or thorough"}
	case o.time < 0:
		return 0, &usageError{fmt.Sprintf("--time cannot be %s", o.time), "for example --time 30s"}
	case o.workers < 0:
		return 0, &usageError{fmt.Sprintf("--workers cannot be %d", o.workers), "1 or more, or 0 for all processors"}
	case o.gowns < 1 || o.gowns > mostGowns:
		return 0, &usageError{fmt.Sprintf("--gowns cannot be %d", o.gowns), fmt.Sprintf("from 1 to %d", mostGowns)}
	}
	return effort, nil
}

// showIn returns the unit to show lengths in: --unit, else the job's.
func (o *options) showIn(j *job.Job) (measure.Unit, error) {
	if o.unit == "" {
		return j.Unit, nil
	}
	unit, err := measure.ParseUnit(o.unit)
	if err != nil {
		return 0, &usageError{fmt.Sprintf("--unit cannot be %q", o.unit), "in, ft, yd, mm, cm or m"}
	}
	return unit, nil
}

// jobAndUnit reads the one job a command was given, and the unit to show it in.
func (o *options) jobAndUnit(command string, args []string, in io.Reader) (*job.Job, measure.Unit, error) {
	name, err := onlyOne(command, "job file", args)
	if err != nil {
		return nil, 0, err
	}
	j, err := readJob(name, in)
	if err != nil {
		return nil, 0, err
	}
	unit, err := o.showIn(j)
	return j, unit, err
}

// readJob reads the job file a command was given; "-" is standard input.
func readJob(name string, in io.Reader) (*job.Job, error) {
	name, src, err := readSource(name, in)
	if err != nil {
		return nil, err
	}
	return job.Parse(name, src)
}

// readSource reads the text of a job file, and what messages call it.
func readSource(name string, in io.Reader) (called string, src []byte, err error) {
	if name == "-" {
		src, err := io.ReadAll(in)
		if err != nil {
			return "", nil, fmt.Errorf("cannot read the job from standard input: %w", err)
		}
		return "stdin", src, nil
	}
	if src, err = os.ReadFile(name); err != nil {
		return "", nil, fmt.Errorf("cannot read the job: %w\n  hint: `yardlay new FILE` writes one to start from", err)
	}
	return name, src, nil
}

// rows reads what a command that lays rows needs: the job's text, and how to lay it.
func (o *options) rows(command string, args []string, s streams) (name string, src []byte, co compare.Options, line *progress, err error) {
	refuse := func(err error) (string, []byte, compare.Options, *progress, error) { return "", nil, co, nil, err }
	effort, err := o.searchEffort()
	if err != nil {
		return refuse(err)
	}
	if name, err = onlyOne(command, "job file", args); err != nil {
		return refuse(err)
	}
	if name, src, err = readSource(name, s.in); err != nil {
		return refuse(err)
	}
	j, err := job.Parse(name, src)
	if err != nil {
		return refuse(err)
	}
	unit, err := o.showIn(j)
	if err != nil {
		return refuse(err)
	}
	line = newProgress(s.err, o.quiet)
	co = compare.Options{Effort: effort, Seed: o.seed, Workers: o.workers, Time: o.time, Unit: unit, Gowns: o.gowns}
	if show := line.show(unit); show != nil {
		co.Progress = func(done, of int, cloth string, p nest.Progress) {
			show(fmt.Sprintf("%d/%d %s", done, of, cloth), p)
		}
	}
	return name, src, co, line, nil
}
