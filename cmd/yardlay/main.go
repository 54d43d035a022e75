// Yardlay drafts the panels of a gown, lays them on its cloths and says how
// much of each to buy.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"time"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/say"
)

// What the program exits with.
const (
	exitDone   = 0
	exitFailed = 1
	exitUsage  = 2
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// run does what the command line says and returns what to exit with.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	began := time.Now()
	ctx, release := interruptible()
	defer release()
	if desktop, ok := fromDesktop(stdin, stdout, stderr); ok && len(args) == 0 {
		args = desktop
	}
	out := &checked{Writer: stdout}
	code := told(stderr, dispatch(ctx, began, args, streams{in: stdin, out: out, err: stderr}))
	if code == exitDone && out.err != nil && !closedPipe(out.err) {
		code = exitFailed
		fmt.Fprintf(stderr, "yardlay: cannot print the result: %v\n", out.err)
	}
	return code
}

// told prints what went wrong and returns what to exit with.
func told(stderr io.Writer, err error) int {
	var usage *usageError
	var inJob strict.Errors
	var atPlace *strict.Error
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &usage):
		fmt.Fprintf(stderr, "yardlay: %v\n", usage)
		return exitUsage
	case errors.As(err, &inJob), errors.As(err, &atPlace): // start with the file's name
		fmt.Fprintln(stderr, err)
	default:
		fmt.Fprintf(stderr, "yardlay: %v\n", err)
	}
	return exitFailed
}

// streams is what a command reads from and writes to.
type streams struct {
	in       io.Reader
	out, err io.Writer
	line     *progress // nil: none is shown
}

// usageError is a command line that cannot be followed.
type usageError struct {
	what, hint string
}

func (e *usageError) Error() string { return say.Join(e.what, e.hint) }

// command is one thing the program can do.
type command struct {
	name  string
	args  string // what follows the name
	brief string // one line
	about string // the rest of its help
	flags func(*pflag.FlagSet, *options)
	run   func(ctx context.Context, s streams, args []string, o *options) error
}

// commands lists them in the order of the help. It is a function because help
// itself reads the list.
func commands() []command {
	return []command{layCommand, compareCommand, quoteCommand, shopCommand, draftCommand, printCommand, takeCommand,
		orderCommand, cutCommand, shelfCommand, tookCommand, recordCommand, openCommand, newCommand, workroomCommand, {
			name: "help", args: "[COMMAND | job]", brief: "explain a command, or the keys of a job file",
			about: aboutHelp,
			run:   func(_ context.Context, s streams, args []string, _ *options) error { return help(s.out, args) },
		}}
}

// dispatch finds the command and runs it with its flags read.
func dispatch(ctx context.Context, began time.Time, args []string, s streams) error {
	if len(args) == 0 {
		return &usageError{"no command given", "`yardlay help` lists the commands"}
	}
	if args[0] == "-h" || args[0] == "--help" {
		return help(s.out, args[1:])
	}
	c := commandNamed(args[0])
	if c == nil {
		return &usageError{fmt.Sprintf("there is no command %q", args[0]), "`yardlay help` lists the commands"}
	}
	var o options
	flags := c.flagSet(&o)
	if err := flags.Parse(args[1:]); errors.Is(err, pflag.ErrHelp) {
		return help(s.out, []string{c.name})
	} else if err != nil {
		return badFlag(err, c.name)
	}
	if o.time > 0 {
		var done context.CancelFunc
		ctx, done = plan.WithCeiling(ctx, began.Add(o.time))
		defer done()
	}
	s.line = newProgress(s.err, o.quiet)
	defer s.line.clear()
	return c.run(ctx, s, flags.Args(), &o)
}

func commandNamed(name string) *command {
	for _, c := range commands() {
		if c.name == name {
			return &c
		}
	}
	return nil
}

// flagSet returns the flags of a command, to be read into o.
func (c *command) flagSet(o *options) *pflag.FlagSet {
	flags := pflag.NewFlagSet(c.name, pflag.ContinueOnError)
	flags.SetOutput(io.Discard)
	flags.SortFlags = false
	if c.flags != nil {
		c.flags(flags, o)
	}
	return flags
}

// onlyOne returns the single argument that a command takes.
func onlyOne(command, what string, args []string) (string, error) {
	if len(args) != 1 {
		return "", &usageError{fmt.Sprintf("%s takes one %s, not %d arguments", command, what, len(args)),
			"`yardlay help " + command + "` shows how"}
	}
	return args[0], nil
}
