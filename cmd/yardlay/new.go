package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/say"
)

var newCommand = command{
	name: "new", args: "FILE", brief: "write a job file to start from",
	about: `Writes a small job that runs as it stands: a skirt with its lining and a
waistband. Change its measures, cloths and parts to your own. A file that is
already there is left alone.
`,
	flags: func(flags *pflag.FlagSet, o *options) { o.quietFlag(flags) },
	run:   newJob,
}

func newJob(_ context.Context, s streams, args []string, o *options) error {
	name, err := onlyOne("new", "file name", args)
	if err != nil {
		return err
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return say.Errorf("%s is already there and stays as it is", name).
			Hint("give another name, or move that file away")
	}
	if errors.Is(err, fs.ErrNotExist) {
		return say.Errorf("cannot write the job: there is no folder %s", filepath.Dir(name)).
			Hint("make it first, or give another name")
	}
	if err != nil {
		return say.Errorf("cannot write the job: %w", err)
	}
	_, err = f.Write(job.Starter())
	if err := errors.Join(err, f.Close()); err != nil {
		os.Remove(name)
		return say.Errorf("cannot write the job: %w", err)
	}
	if o.quiet {
		return nil
	}
	_, err = fmt.Fprintf(s.out, "wrote %s\nnext: yardlay lay %s --out out\n", name, name)
	if err == nil || closedPipe(err) {
		return nil
	}
	os.Remove(name) // so that the same command works once there is room
	return say.Errorf("cannot print what was done, so %s is not kept: %w", name, err)
}
