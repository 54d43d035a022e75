// Package pdfpage turns a page of a PDF into SVG with a program that is installed for that,
// pdftocairo of poppler. It is for the command line alone: the page in a browser runs no
// programs.
package pdfpage

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"

	"yardlay/shapes/say"
)

// program turns pages into drawings, counter counts them; both are of one package.
const program, counter = "pdftocairo", "pdfinfo"

// patience is how long the program may take: a page of a pattern takes a second or two.
const patience = 30 * time.Second

// Is says whether a text is a PDF.
func Is(text []byte) bool { return bytes.HasPrefix(bytes.TrimSpace(text), []byte("%PDF")) }

// SVG turns a page, counted from 1, into SVG of most bytes at the most. The PDF is handed over
// as a copy under a name of our own. pages is how many there are, 0 where nobody says.
func SVG(ctx context.Context, pdf []byte, page, most int) (svg []byte, pages int, err error) {
	path, err := exec.LookPath(program)
	if err != nil {
		return nil, 0, say.Errorf("a PDF is read with %s, which is not installed", program).
			Hint("install poppler-utils, or save the page as SVG with a drawing program")
	}
	dir, err := os.MkdirTemp("", "yardlay-")
	if err != nil {
		return nil, 0, say.Errorf("cannot copy the PDF: %w", err)
	}
	defer os.RemoveAll(dir)
	file := filepath.Join(dir, "drawing.pdf")
	if err := os.WriteFile(file, pdf, 0o600); err != nil {
		return nil, 0, say.Errorf("cannot copy the PDF: %w", err)
	}
	limited, done := context.WithTimeout(ctx, patience)
	defer done()
	pages = count(limited, dir, file)
	if pages > 0 && page > pages {
		return nil, pages, say.Errorf("there is no page %d", page).Hint("it has %s", say.Count(pages, "page"))
	}
	n := strconv.Itoa(page)
	svg, err = run(limited, dir, most, path, "-svg", "-f", n, "-l", n, file, "-")
	switch {
	case errors.Is(ctx.Err(), context.Canceled):
		return nil, pages, ctx.Err()
	case limited.Err() != nil:
		return nil, pages, say.Errorf("%s took over %.0f s with page %d", program, patience.Seconds(), page).
			Hint("save the page as SVG with a drawing program, the pieces alone")
	case err != nil:
		return nil, pages, say.Errorf("%s cannot read page %d: %w", program, page, err).
			Hint("save the page as SVG with a drawing program")
	}
	return svg, pages, nil
}

// count asks how many pages there are; 0: nobody says.
func count(ctx context.Context, dir, file string) int {
	path, err := exec.LookPath(counter)
	if err != nil {
		return 0
	}
	text, err := run(ctx, dir, 1<<20, path, file)
	if err != nil {
		return 0
	}
	if m := pagesLine.FindSubmatch(text); m != nil {
		n, _ := strconv.Atoi(string(m[1]))
		return n
	}
	return 0
}

var pagesLine = regexp.MustCompile(`(?m)^Pages:\s+(\d{1,6})\s*$`)

// run runs a program in a folder and returns what it prints. It ends with the context, and when
// it prints too much.
func run(ctx context.Context, dir string, most int, path string, args ...string) ([]byte, error) {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	c := exec.CommandContext(ctx, path, args...)
	c.Dir = dir
	c.WaitDelay = time.Second
	out := &limitedBuffer{left: most, full: stop}
	said := &limitedBuffer{left: 1 << 16, full: func() {}}
	c.Stdout, c.Stderr = out, said
	err := c.Run()
	switch first, _, _ := strings.Cut(strings.TrimSpace(said.kept.String()), "\n"); {
	case out.over:
		return nil, fmt.Errorf("it makes over %d MiB of it", most>>20)
	case err != nil && first != "":
		return nil, errors.New(strings.Map(printable, first))
	case err != nil:
		return nil, err
	}
	return out.kept.Bytes(), nil
}

// printable leaves out what steers a terminal.
func printable(r rune) rune {
	if r < ' ' || r >= 0x7f && r < 0xa0 {
		return -1
	}
	return r
}

// limitedBuffer keeps so many bytes, and says when there are more.
// It has no other methods of a buffer, by which it could be filled past Write.
type limitedBuffer struct {
	kept bytes.Buffer
	left int
	over bool
	full func()
}

func (b *limitedBuffer) Write(p []byte) (int, error) {
	if len(p) > b.left && !b.over {
		b.over = true
		b.full()
	}
	kept := p[:min(len(p), b.left)]
	b.left -= len(kept)
	b.kept.Write(kept)
	return len(p), nil // what is beyond is lost, so that the program is not kept waiting
}
