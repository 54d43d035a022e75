package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"
	"syscall"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/kept"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// fromFlag is that of commands that lay from a file.
func (o *options) fromFlag(flags *pflag.FlagSet) {
	flags.StringVar(&o.from, "from", "",
		"go on from the layouts in this file: pinned pieces stay, the others are laid around them")
}

// begun is what --from goes on from.
type begun struct {
	file   *kept.File // nil without --from
	unit   measure.Unit
	states []kept.State // in the order of the cloths
}

// begun reads the file of --from, and lets the options of a run begin from it.
func (o *options) begun(lo *plan.Options) (*begun, error) {
	b := &begun{unit: lo.Unit}
	if o.from == "" {
		return b, nil
	}
	src, err := readLayout(o.from)
	if err != nil {
		return nil, err
	}
	if b.file, err = kept.Read(o.from, src); err != nil {
		return nil, err
	}
	lo.Begin = func(t plan.Task) plan.Task {
		t, state := b.file.Begin(t)
		b.states = append(b.states, state)
		return t
	}
	return b, nil
}

// readLayout reads the text of a layout file, a byte beyond the longest that is taken at
// most.
func readLayout(name string) ([]byte, error) {
	file, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, say.Errorf("cannot read the layout: %w", err).Hint("`yardlay lay JOB --keep FILE` keeps one")
	}
	if err != nil {
		return nil, say.Errorf("cannot read the layout: %w", err)
	}
	defer file.Close()
	src, err := io.ReadAll(io.LimitReader(file, kept.MaxFile+1))
	if errors.Is(err, syscall.EISDIR) {
		return nil, say.Errorf("%s is a folder, not a layout", name).Hint("name the file that --keep wrote")
	}
	if err != nil {
		return nil, say.Errorf("cannot read the layout from %s: %w", name, err)
	}
	return src, nil
}

// lines say what a run went on from, of each cloth once.
func (b *begun) lines() (lines []string) {
	if b.file == nil {
		return nil
	}
	if len(b.states) == 0 {
		return []string{fmt.Sprintf("No marker is laid, so nothing is taken from %s.", b.file.Name)}
	}
	var cloths []string
	stale := false
	for _, s := range b.states {
		if slices.Contains(cloths, s.Cloth) {
			continue
		}
		lines = append(lines, s.Lines(b.file.Name, measure.SizeUnit(b.unit).Size)...)
		cloths, stale = append(cloths, s.Cloth), stale || s.Stale()
	}
	if words := b.file.Unused(cloths); words != "" {
		lines, stale = append(lines, words), true
	}
	if stale {
		lines = append(lines, fmt.Sprintf("Where you like the new layout, keep it with --keep %s.", b.file.Name))
	}
	return lines
}

// keeper keeps the layouts of a run in a file.
type keeper struct {
	name string // "": it does not
	*options
}

// keeper tries, before anything is searched for, that the file of --keep can be written, and
// that what is there is a layout and nothing else.
func (o *options) keeper() (keeper, error) {
	k := keeper{o.keep, o}
	if o.keep == "" {
		return k, nil
	}
	if info, err := os.Stat(o.keep); err == nil && !info.Mode().IsRegular() {
		return k, say.Errorf("cannot keep the layout: %s is no file", o.keep).Hint("give --keep the name of a file")
	} else if err == nil {
		src, err := readLayout(o.keep)
		if err == nil {
			_, err = kept.Read(o.keep, src)
		}
		if err != nil {
			return k, say.Errorf("cannot keep the layout: %s is there and is no layout, so it stays as it is", o.keep).
				Hint("give --keep another name, or move that file away")
		}
	}
	if err := folder.TryReplace(o.keep); err != nil {
		return k, say.Errorf("cannot keep the layout: %w", err).Hint("give --keep a file that can be written")
	}
	return k, nil
}

// write writes the file, and says so.
func (k keeper) write(s streams, r *report.Report) error {
	if k.name == "" {
		return nil
	}
	file, left := kept.Of(r.Laid())
	to := s.out
	if k.json || k.quiet {
		to = s.err
	}
	if len(left) > 0 {
		fmt.Fprintf(to, "\n%s", wrapAt(fmt.Sprintf("Not kept, as it is cut from leftovers or several lengths: %s",
			strings.Join(left, ", ")), "", columns(to)))
	}
	if len(file.Cloths) == 0 {
		fmt.Fprint(to, wrapAt("There is nothing to keep in "+k.name+".", "", columns(to)))
		return nil
	}
	if err := folder.Replace(k.name, file.Encode()); err != nil {
		return say.Errorf("cannot keep the layout: %w", err).Hint("give --keep a file that can be written")
	}
	if !k.json && !k.quiet {
		fmt.Fprintf(to, "\n%s", wrapAt("Kept the layout in "+k.name+".", "", columns(to)))
	}
	return nil
}
