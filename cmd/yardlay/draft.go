package main

import (
	"context"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/workroom"
	"yardlay/shapes/measure"
)

var draftCommand = command{
	name: "draft", args: "JOB", brief: "draw the pieces and print the cut list",
	about: `Drafts the parts of the job and prints what to cut: each piece with how many,
and its finished and cut size along and across the grain. Gathered parts and
bindings have their figures below. JOB is a job file, or - for standard input.

With --seams it prints the order in which the parts can be sewn: which edge is
sewn to which, how long both are finished, and what is eased or gathered in.
With --edges it prints the edges of each piece by the names that [[match]] takes.

With --out it writes for each cloth a drawing of its pieces, CLOTH-pieces.svg, with
the remarks on their drafts at its foot. Where several bodies have a piece,
CLOTH-sizes.svg shows it in all sizes, one over the other.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		flags.BoolVar(&o.seams, "seams", false, "print the sewing order with the lengths of both sides of each seam")
		flags.BoolVar(&o.edges, "edges", false, "print the names and lengths of the edges of each piece")
		o.outputFlags(flags, "CLOTH-pieces.svg")
	},
	run: draftJob,
}

func draftJob(ctx context.Context, s streams, args []string, o *options) error {
	j, unit, err := o.jobAndUnit(ctx, "draft", args, s)
	if err != nil {
		return err
	}
	out, err := o.opened(ctx, files.DraftSet(j))
	if err != nil {
		return err
	}
	defer out.close()
	s.line.stage("drafting")
	var spreads []plan.Spread
	list, err := plan.Unless(ctx, func() (list report.CutList, err error) {
		if spreads, err = plan.Draw(j); err == nil {
			list, err = report.List(j, spreads, unit)
		}
		return list, err
	})
	if err != nil {
		return err
	}
	return out.finish(s, list, func() (made, error) {
		list, err := files.Pieces(j.Title, spreads, list, unit)
		if err != nil {
			return nil, err
		}
		sizes, err := files.Sizes(j.Title, spreads, unit)
		return made{files.SetDraft: append(list, sizes...)}, err
	}, func(to io.Writer) {
		p := listPrinter{to, columns(to), measure.SizeUnit(unit)}
		p.cutList(list, unit)
		for _, r := range list.Remarks {
			p.paragraph(r)
		}
		if o.edges {
			p.edges(list.Pieces)
		}
		if o.seams {
			p.seams(list.Seams)
		}
		for _, line := range workroom.Changed(j, unit) {
			p.paragraph(line)
		}
	})
}

// listPrinter prints lists of pieces in lines of at most so many letters.
type listPrinter struct {
	out   io.Writer
	width int
	unit  measure.Unit // of sizes
}

// paragraph prints a text with an empty line before it.
func (p listPrinter) paragraph(text string) { fmt.Fprintf(p.out, "\n%s", wrapAt(text, "", p.width)) }

// cells prints a row in columns, or, where the terminal is too narrow for them, the
// name and what follows it in words.
func (p listPrinter) cells(format, name string, cells ...string) {
	row := []any{name}
	var words []string
	for _, c := range cells {
		row = append(row, c)
		if c = strings.TrimSpace(c); c != "" {
			words = append(words, c)
		}
	}
	if line := strings.TrimRight(fmt.Sprintf(format, row...), " "); len(line) <= p.width {
		fmt.Fprintln(p.out, line)
		return
	}
	name = strings.TrimRight(name, " ")
	indent := name[:len(name)-len(strings.TrimLeft(name, " "))]
	fmt.Fprint(p.out, wrapAt(name, "", p.width), wrapAt(strings.Join(words, "; "), indent+"    ", p.width))
}

// cutList prints the pieces cloth by cloth and part by part.
func (p listPrinter) cutList(list report.CutList, unit measure.Unit) {
	if list.Title != "" {
		fmt.Fprint(p.out, wrapAt(list.Title, "", p.width))
	}
	buy := measure.CounterUnit(unit)
	var heading string
	for _, c := range list.Pieces {
		if h := c.Part + " in " + c.Cloth; h != heading {
			heading = h
			fmt.Fprintln(p.out)
			p.cells("%-30s%-12s%18s%20s", h, report.CutHeads...)
		}
		row := c.Row(p.unit)
		name := row[0]
		if len(name) > 27 && p.width >= usualColumns {
			fmt.Fprintf(p.out, "  %s\n", name)
			name = ""
		}
		p.cells("%-30s%-12s%18s%20s", "  "+name, row[1:]...)
	}
	for i, note := range list.SizeNotes(p.unit) {
		if i == 0 {
			p.paragraph(note)
		} else {
			fmt.Fprint(p.out, wrapAt(note, "", p.width))
		}
	}
	for _, t := range list.Tables {
		p.table(t, buy)
	}
	for _, e := range list.Ends {
		p.paragraph(e.Words(p.unit))
	}
	for _, c := range list.Closed {
		p.paragraph(c.Words(p.unit))
	}
	for _, b := range list.Boned {
		if g := b.Grid(p.unit); len(g.Rows) > 0 {
			p.paragraph(g.Caption)
			for _, row := range append([][]string{g.Heads}, g.Rows...) {
				p.cells("  %-36s%6s%14s%10s%10s", row[0], row[1:]...)
			}
		}
		for _, words := range b.Words(p.unit) {
			p.paragraph(words)
		}
	}
	for _, h := range list.Hems {
		if words := h.Words(p.unit); words != "" {
			p.paragraph(words)
		}
	}
}

// table prints the figures of a gathered part, then where its layers are pinned.
func (p listPrinter) table(t report.Table, buy measure.Unit) {
	for _, g := range t.Grids(p.unit, buy) {
		format := "%-5v%12s%12s%12s%7s%8s%11s%11s"
		if g.Caption != "" {
			p.paragraph(g.Caption)
		}
		if len(g.Heads) == pinColumns {
			format = "%-5s" + strings.Repeat("%12s", pinColumns-1)
		} else if g.Heads != nil {
			p.cells(format, g.Heads[0], g.Heads[1:]...)
		}
		for _, row := range g.Rows {
			p.cells(format, row[0], row[1:]...)
		}
		for _, note := range g.Notes {
			p.paragraph(note)
		}
	}
}

// pinColumns are a layer and its four places, which need no heads.
const pinColumns = 5
