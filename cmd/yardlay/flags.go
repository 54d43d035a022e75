package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"syscall"
	"time"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/ways"
	"yardlay/nest"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// options is what the flags of all commands are read into.
type options struct {
	dir     string
	effort  string
	time    time.Duration
	seed    uint64
	workers int
	exact   bool
	from    string
	keep    string
	why     bool
	gowns   int
	vary    []string
	whatIf  bool
	week    bool
	until   string
	on      string // the day of what is told
	order   orderOptions
	took    tookOptions
	year    int
	record  bool
	cut     cutOptions
	shelf   shelfOptions
	promise bool
	client  bool
	unit    string
	json    bool
	quiet   bool
	seams   bool
	edges   bool
	print   ways.Options
	open    openOptions
	take    takeOptions
	room    roomOptions
	like    likeOptions
	proofs  nest.Proofs  // bounds, which all that is laid shares
	weighed plan.Weighed // and what places of cuts were weighed by
}

// mostGowns is more than any workroom lays at a time.
const mostGowns = 100

// layingFlags are those that steer the search.
func (o *options) layingFlags(flags *pflag.FlagSet) {
	flags.StringVar(&o.effort, "effort", "normal", "how hard to search: quick, normal or thorough")
	flags.DurationVar(&o.time, "time", 0,
		"end the whole run after this long, such as 30s or 2m, and keep the best so far; how good that is depends "+
			"on the machine")
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
	flags.BoolVarP(&o.quiet, "quiet", "q", false, "print no progress, and of files only those removed or left")
}

// badFlag says what is wrong with the flags of a command.
func badFlag(err error, command string) error {
	var value *pflag.InvalidValueError
	if !errors.As(err, &value) {
		return &usageError{err.Error(), "`yardlay help " + command + "` lists the flags"}
	}
	takes := map[string]string{"uint64": "a whole number from 0 to 18446744073709551615",
		"int": "a whole number", "duration": "for example 30s or 2m", "bool": "true or false"}
	f := value.GetFlag()
	hint := takes[f.Value.Type()]
	if hint == "" { // it is read by rules of its own
		hint = value.Unwrap().Error()
	}
	return &usageError{fmt.Sprintf("--%s cannot be %q", f.Name, value.GetValue()), hint}
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
func (o *options) showIn(j *job.Job) (measure.Unit, error) { return o.unitOr(j.Unit) }

// unitOr returns the unit of --unit, otherwise where it is not given.
func (o *options) unitOr(otherwise measure.Unit) (measure.Unit, error) {
	if o.unit == "" {
		return otherwise, nil
	}
	unit, err := measure.ParseUnit(o.unit)
	if err != nil {
		return 0, &usageError{fmt.Sprintf("--unit cannot be %q", o.unit), "in, ft, yd, mm, cm or m"}
	}
	return unit, nil
}

// jobAndUnit reads the one job a command was given, and the unit to show it in.
func (o *options) jobAndUnit(ctx context.Context, command string, args []string, s streams) (*job.Job, measure.Unit,
	error) {
	f, err := readJob(ctx, command, args, s)
	if err != nil {
		return nil, 0, err
	}
	unit, err := o.showIn(f.Job())
	if err == nil {
		o.settle(ctx, f, s)
	}
	return f.Job(), unit, err
}

// settle has jobs that leave open where parts are pieced say where: what is drafted, laid and cut agrees on that.
func (o *options) settle(ctx context.Context, f *job.File, s streams) {
	if len(f.Job().PlacesOpen()) > 0 {
		s.line.stage("choosing where pieces are cut")
		plan.Settle(ctx, f, plan.Options{
			Workers: o.workers, Progress: s.line.show(f.Job().Unit), Proofs: &o.proofs, Weighed: &o.weighed,
		})
	}
}

// readJob reads the job file a command was given; "-" is standard input.
func readJob(ctx context.Context, command string, args []string, s streams) (*job.File, error) {
	name, err := onlyOne(command, "job file", args)
	if err != nil {
		return nil, err
	}
	return readNamed(ctx, name, nil, s)
}

// readNamed reads the job file of a name; "-" is standard input. What it shares with a job before it, if there is one,
// is not read again.
func readNamed(ctx context.Context, name string, before *job.File, s streams) (*job.File, error) {
	s.line.stage("reading the job")
	return plan.Unless(ctx, func() (*job.File, error) { // a pipe may keep it waiting
		called, src, err := readSource(name, s.in)
		if err != nil {
			return nil, err
		}
		if before != nil {
			return before.ReadWith(called, src)
		}
		return job.Read(called, src)
	})
}

// readSource reads the text of a job file, a byte beyond the longest that is taken
// at most, and what messages call it.
func readSource(name string, in io.Reader) (called string, src []byte, err error) {
	called = name
	if name == "-" {
		called = "stdin"
	} else {
		file, err := os.Open(name)
		if err != nil {
			return "", nil, say.Errorf("cannot read the job: %w", err).
				Hint("`yardlay new FILE` writes one to start from")
		}
		defer file.Close()
		in = file
	}
	src, err = io.ReadAll(io.LimitReader(in, job.MaxFile+1))
	if errors.Is(err, syscall.EISDIR) {
		return "", nil, say.Errorf("%s is a folder, not a job", name).
			Hint("name the file in it: %s", filepath.Join(name, "gown.toml"))
	}
	if err != nil {
		return "", nil, say.Errorf("cannot read the job from %s: %w", called, err)
	}
	return called, src, nil
}

// laying reads what a command that lays needs: the job, and how to lay it.
func (o *options) laying(ctx context.Context, command string, args []string, s streams) (*job.File, plan.Options,
	error) {
	if _, err := o.searchEffort(); err != nil {
		return nil, plan.Options{}, err
	}
	f, err := readJob(ctx, command, args, s)
	if err != nil {
		return nil, plan.Options{}, err
	}
	lo, err := o.layingLike(f.Job(), s)
	if err == nil {
		o.settle(ctx, f, s)
	}
	return f, lo, err
}

// layingLike says how to lay a job, and what is shown in its unit.
func (o *options) layingLike(j *job.Job, s streams) (plan.Options, error) {
	effort, err := o.searchEffort()
	if err != nil {
		return plan.Options{}, err
	}
	unit, err := o.showIn(j)
	return plan.Options{
		Effort: effort, Seed: o.seed, Workers: o.workers, Unit: unit, Gowns: o.gowns, Progress: s.line.show(unit),
		Proofs: &o.proofs, Weighed: &o.weighed,
	}, err
}
