package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/workroom"
	"yardlay/shapes/say"
)

var newCommand = command{
	name: "new", args: "FILE", brief: "write a job file to start from",
	about: `Writes a small job that runs as it stands: a skirt with its lining and a
waistband. Change its measures, cloths and parts to your own. A file that is
already there is left alone.

--like makes it of another job. Leftovers and dates of that one stay with it.
--without person takes its style: cloths, parts and terms without the measures and
the client, for another wearer; --for names one of the people of the workroom.
--without style takes the measures, and the parts are those to start from.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		flags.StringVar(&o.like.job, "like", "", "make it of this job")
		flags.StringVar(&o.like.without, "without", "", "with --like: leave out the person, or the style")
		flags.StringVar(&o.like.of, "for", "", "for this person of the workroom, by her measures there")
		o.quietFlag(flags)
	},
	run: newJob,
}

// likeOptions say what a new job is made of.
type likeOptions struct{ job, without, of string }

// copied makes the text of a new job.
func (l likeOptions) copied(name string) (*workroom.Copy, error) {
	switch {
	case !slices.Contains([]string{"", "person", "style"}, l.without):
		return nil, &usageError{fmt.Sprintf("--without cannot be %q", l.without), "person or style"}
	case l.without != "" && l.job == "":
		return nil, &usageError{"--without goes with --like", "for example --like gown.toml --without person"}
	case l.without == "style" && l.of != "":
		return nil, &usageError{"--without style takes the person of the job, and --for another",
			"`yardlay new FILE --for PERSON` starts from scratch for her"}
	case l.job == "":
		return workroom.Starter(l.of, name)
	}
	if l.job == "-" {
		return nil, &usageError{"--like needs a file", "for example --like gown.toml"}
	}
	_, src, err := readSource(l.job, nil)
	if err != nil {
		return nil, err
	}
	if _, err := job.Read(l.job, src); err != nil {
		return nil, err
	}
	if l.without == "style" {
		return workroom.Person(src, name)
	}
	return workroom.Style(src, l.without == "", l.of, name)
}

func newJob(_ context.Context, s streams, args []string, o *options) error {
	name, err := onlyOne("new", "file name", args)
	if err != nil {
		return err
	}
	if job.IsWorkroom(name) {
		return say.Errorf("%s is the name of the book of a workroom, not of a job", name).
			Hint("`yardlay workroom --new` writes that book")
	}
	made, err := o.like.copied(name)
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
	_, err = f.Write(made.Text)
	if err := errors.Join(err, f.Close()); err != nil {
		os.Remove(name)
		return say.Errorf("cannot write the job: %w", err)
	}
	if o.quiet {
		return nil
	}
	_, err = fmt.Fprintf(s.out, "wrote %s\n%s", name, whatNext(made, name, columns(s.out)))
	if err == nil || closedPipe(err) {
		return nil
	}
	os.Remove(name) // so that the same command works once there is room
	return say.Errorf("cannot print what was done, so %s is not kept: %w", name, err)
}

// whatNext says what a copy leaves out, and what to do with it.
func whatNext(made *workroom.Copy, name string, width int) string {
	said := ""
	if len(made.Left) > 0 {
		said = wrapAt("left out: "+say.InWords(made.Left, "and"), "", width)
	}
	if len(made.Lacks) == 0 {
		return said + fmt.Sprintf("next: yardlay lay %s --out out\n", name)
	}
	return said + wrapAt("next: give "+say.InWords(say.Quoted(made.Lacks, "`"), "and")+" under [body]", "", width)
}
