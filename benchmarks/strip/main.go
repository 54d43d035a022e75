// Strip runs the layout engine on one strip-packing instance and prints one
// line of figures, so that runs can be compared with the literature.
//
//	go run ./benchmarks/strip [--time 60s | --effort E | --work N] [--seed N] [--workers N]
//	    [--lots N] [--out placed.geojson] FILE.geojson
//
// The format of FILE is described in testdata/README.md.
package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/pprof"
	"time"

	"github.com/spf13/pflag"

	"yardlay/benchmarks/instance"
	"yardlay/nest"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

type settings struct {
	options nest.Options
	lots    int
	out     string
	profile string
	file    string
}

// run does all and returns the exit code: 0 done, 1 failed, 2 usage.
func run(args []string, stdout, stderr io.Writer) int {
	s, err := parse(args, stderr)
	switch {
	case errors.Is(err, pflag.ErrHelp):
		return 0
	case err != nil:
		fmt.Fprintln(stderr, "strip:", err)
		return 2
	}
	if err := solve(s, stdout); err != nil {
		fmt.Fprintln(stderr, "strip:", err)
		return 1
	}
	return 0
}

func parse(args []string, stderr io.Writer) (settings, error) {
	var s settings
	flags := pflag.NewFlagSet("strip", pflag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.DurationVar(&s.options.Time, "time", 0, "search until this much time is used")
	effort := flags.String("effort", "", "search this hard instead: quick, normal or thorough (default normal)")
	work := flags.Int64("work", 0,
		"search for this many million evaluations in each lane instead: the same layout on a slow machine")
	flags.Uint64Var(&s.options.Seed, "seed", 1, "another seed searches another way")
	flags.IntVar(&s.options.Workers, "workers", 0, "processors to use; 0 takes all")
	flags.IntVar(&s.lots, "lots", 1, "lay this many times the instance's pieces")
	flags.StringVar(&s.out, "out", "", "write the placed outlines as GeoJSON to this file")
	flags.StringVar(&s.profile, "profile", "", "write a processor profile to this file")
	if err := flags.Parse(args); err != nil {
		return s, err
	}
	if flags.NArg() != 1 {
		return s, fmt.Errorf("one instance file, not %d", flags.NArg())
	}
	s.file = flags.Arg(0)
	if s.lots < 1 {
		return s, fmt.Errorf("--lots %d: at least 1", s.lots)
	}
	if *work < 0 || *work > 1<<40 {
		return s, fmt.Errorf("--work %d: millions of evaluations, at least 1", *work)
	}
	s.options.Work = *work * 1_000_000
	var err error
	switch {
	case *effort != "":
		s.options.Effort, err = nest.ParseEffort(*effort)
	case s.options.Time > 0:
		s.options.Effort = nest.Endless
	}
	return s, err
}

func solve(s settings, stdout io.Writer) error {
	text, err := os.ReadFile(s.file)
	if err != nil {
		return err
	}
	in, err := instance.Read(bytes.NewReader(text))
	if err != nil {
		return err
	}
	in = in.Lots(s.lots)
	if s.profile != "" {
		f, err := os.Create(s.profile)
		if err != nil {
			return err
		}
		defer f.Close()
		if err := pprof.StartCPUProfile(f); err != nil {
			return err
		}
		defer pprof.StopCPUProfile()
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	r, err := nest.Solve(ctx, in.Problem, s.options)
	if err != nil {
		return err
	}
	if err := nest.Verify(in.Problem, r.Layout); err != nil {
		return err
	}
	fmt.Fprintf(stdout, "%s length=%.4f density=%.3f first=%.3fs time=%.2fs evals/s=%.2fM bound=%.4f\n",
		in.Name, r.Layout.Length/in.Scale, 100*r.Utilisation, r.Stats.First.Seconds(), r.Stats.Elapsed.Seconds(),
		float64(r.Stats.Evaluations)/1e6/max(r.Stats.Elapsed, time.Millisecond).Seconds(), r.Bound.Length/in.Scale)
	if s.out == "" {
		return nil
	}
	var placed bytes.Buffer
	if err := instance.WritePlaced(&placed, in.Name, in.Problem, r.Layout, in.Scale); err != nil {
		return err
	}
	return os.WriteFile(s.out, placed.Bytes(), 0o644)
}
