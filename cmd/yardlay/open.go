package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/page"
	"yardlay/shapes/say"
)

// openOptions are the flags of the page.
type openOptions struct {
	port      int
	noBrowser bool
	whileOpen time.Duration
}

var openCommand = command{
	name: "open", args: "[JOB]", brief: "fill in a job on a page in your browser",
	about: `Shows the job on a page in your own browser: its measures, cloths and parts as a
form, and as text. Without JOB it lists the jobs of the folder that it runs in;
JOB may also be a folder. The job file stays what it is, comments and all, and
every other command reads it as before.

The page is for this machine alone. The address has a secret word in it, so open
it as printed. Interrupt the program (Ctrl-C) to end it. What is not saved by
then is on the page again the next time.

Started from a desktop, without a terminal and without arguments, the program
opens this page by itself, and ends ten minutes after the last page is closed.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		flags.IntVar(&o.open.port, "port", 0, "listen on this port; 0 takes a free one")
		flags.DurationVar(&o.open.whileOpen, "while-open", 0,
			"end once no page has been open for this long, such as 10m; 0 goes on until it is interrupted")
		flags.BoolVar(&o.open.noBrowser, "no-browser", false, "only print the address")
	},
	run: openPage,
}

// openPage serves the page until it is interrupted.
func openPage(ctx context.Context, s streams, args []string, o *options) error {
	dir, name, err := whatToOpen(args)
	if err != nil {
		return err
	}
	if o.open.port < 0 || o.open.port > 65535 {
		return &usageError{fmt.Sprintf("--port cannot be %d", o.open.port), "from 1 to 65535, or 0 for a free one"}
	}
	if o.open.whileOpen < 0 {
		return &usageError{fmt.Sprintf("--while-open cannot be %s", o.open.whileOpen), "for example --while-open 10m"}
	}
	server, err := page.New(page.Options{Dir: dir, Job: name, WhileOpen: o.open.whileOpen})
	if err != nil {
		return err
	}
	defer server.Close()
	listener, err := page.Listen(o.open.port)
	if err != nil {
		return say.Errorf("cannot serve the page: %w", err).Hint("leave out --port to take a free one")
	}
	defer listener.Close()
	address := server.Address(listener)
	if _, err := fmt.Fprintf(s.out, "%s\n", address); err != nil {
		return nil // told at the end of run
	}
	if !o.open.noBrowser {
		if err := showInBrowser(server.AddressOnce(listener)); err != nil {
			fmt.Fprint(s.err, "Open this address in your browser.\n")
		}
	}
	fmt.Fprint(s.err, "Ctrl-C ends it.\n")
	return server.Serve(ctx, listener)
}

// whatToOpen returns the folder to serve and the job in it to show first.
func whatToOpen(args []string) (dir, name string, err error) {
	switch len(args) {
	case 0:
		return ".", "", nil
	case 1:
	default:
		return "", "", &usageError{fmt.Sprintf("open takes one job file, not %d", len(args)),
			"`yardlay help open` shows how"}
	}
	info, err := os.Stat(args[0])
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "", "", say.Errorf("cannot open the job: %w", err).Hint("`yardlay new FILE` writes one to start from")
	case err != nil:
		return "", "", say.Errorf("cannot open the job: %w", err)
	case info.IsDir():
		return args[0], "", nil
	case job.IsWorkroom(args[0]):
		return "", "", say.Errorf("%s is the book of a workroom, not a job", args[0]).
			Hint("open its folder, %s, or one of the jobs in it", filepath.Dir(args[0]))
	case !page.IsJobName(filepath.Base(args[0])):
		return "", "", say.Errorf("cannot open %s: the page takes files whose names end in .toml", args[0]).
			Hint("give the job such a name")
	}
	return filepath.Dir(args[0]), filepath.Base(args[0]), nil
}
