package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"syscall"

	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/folder"
)

// made is what a command has made, by the sets of the folder.
type made map[string][]folder.File

// output is where the result of a command goes.
type output struct {
	folder *folder.Folder // nil without --out
	*options
}

// opened opens the folder of --out for the sets of a command, before anything is
// searched for.
func (o *options) opened(ctx context.Context, sets ...folder.Set) (*output, error) {
	out := &output{options: o}
	if o.dir == "" {
		return out, nil
	}
	var err error
	out.folder, err = folder.Open(ctx, o.dir, sets...)
	return out, err
}

// finish prints the result, as JSON or in words, encodes and writes the files, and
// says what was written. Whoever waits has the result at once, and whether the files
// can be written or not.
func (out *output) finish(s streams, result any, encoded func() (made, error), print func(io.Writer)) error {
	s.line.clear()
	if out.json {
		asJSON, err := files.JSON(result)
		if err != nil {
			return err
		}
		s.out.Write(asJSON) // what goes wrong with it is told at the end of run
	} else {
		print(s.out)
	}
	if out.folder == nil {
		return nil
	}
	defer out.close()
	files, err := encoded()
	if err != nil {
		return err
	}
	done, err := out.folder.Write(files)
	if err == nil {
		out.tell(s, done)
	}
	return err
}

// tell says what was written, and what became of an earlier run's files; beside
// JSON it says only the latter. Quiet, it says what is not there any more or may
// mislead, where errors go.
func (out *output) tell(s streams, done folder.Outcome) {
	to := s.out
	if out.json || out.quiet {
		to = s.err
	} else if len(done.Wrote) > 0 {
		fmt.Fprintf(to, "\n%s", wrapAt("Wrote into "+out.dir+": "+strings.Join(done.Wrote, ", "), "", columns(to)))
	}
	if out.quiet {
		done.Replaced = nil
	}
	for _, note := range []struct {
		text  string
		files []string
	}{
		{"Replaced from an earlier run: ", done.Replaced},
		{"Removed, as this run does not make it: ", done.Removed},
		{"Left, as changed since an earlier run: ", done.Kept},
	} {
		if len(note.files) > 0 {
			fmt.Fprint(to, wrapAt(note.text+strings.Join(note.files, ", "), "", columns(to)))
		}
	}
}

// close lets go of the folder.
func (out *output) close() {
	if out.folder != nil {
		out.folder.Close()
		out.folder = nil
	}
}

// checked passes on what is written until that fails, and remembers why.
type checked struct {
	io.Writer
	err error
}

func (c *checked) Write(p []byte) (int, error) {
	if c.err != nil {
		return 0, c.err
	}
	n, err := c.Writer.Write(p)
	c.err = err
	return n, err
}

// closedPipe says whether whoever read what is printed has had enough of it, as in
// yardlay help | head: all went well, and the files are written.
func closedPipe(err error) bool { return errors.Is(err, syscall.EPIPE) }
