package main

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
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
the remarks on their drafts at its foot.
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
	out, err := o.opened(ctx, draftSet(j))
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
		files, err := pieceFiles(j.Title, spreads, list, unit)
		return made{setDraft: files}, err
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
			p.cells("%-30s%-12s%18s%20s", h, "cut", "finished", "cut size")
		}
		name := withoutPart(c.Piece, c.Part) + cutOn[job.Grain(c.Grain)]
		if len(name) > 27 && p.width >= usualColumns {
			fmt.Fprintf(p.out, "  %s\n", name)
			name = ""
		}
		p.cells("%-30s%-12s%18s%20s", "  "+name, copies(c.Count, c.Pair, c.OnFold), size(c.Finished, p.unit),
			size(c.CutSize, p.unit))
	}
	p.paragraph(fmt.Sprintf("Sizes are along the grain x across it, in %s.", inWords[p.unit]))
	if slices.ContainsFunc(list.Pieces, func(c report.Cut) bool { return cutOn[job.Grain(c.Grain)] != "" }) {
		fmt.Fprint(p.out, wrapAt(
			"Pieces on the bias or the cross grain are measured along x across their length as drafted.", "", p.width))
	}
	if slices.ContainsFunc(list.Pieces, func(c report.Cut) bool { return c.OnFold }) {
		fmt.Fprint(p.out, wrapAt("A piece on fold has the size of the whole, opened out.", "", p.width))
	}
	for _, t := range list.Tables {
		p.table(t, buy)
	}
	for _, e := range list.Ends {
		p.paragraph(p.freeEnds(e))
	}
}

// freeEnds says what is done with the free ends of a part.
func (p listPrinter) freeEnds(e report.Ends) string {
	what := e.Part + " in " + e.Cloth + " has two free ends"
	if e.Tiers > 1 {
		what += " in each tier"
	}
	switch {
	case e.Allowance == 0:
		return what + ", left raw."
	case e.Bound:
		return what + ". Turn in " + measure.Format(e.Allowance, p.unit) + " at each."
	}
	return what + ". Hem each, " + measure.Format(e.Allowance, p.unit) + " turned up."
}

// cutOn is what stands behind a piece that does not follow the warp.
var cutOn = map[job.Grain]string{job.BiasGrain: ", bias", job.CrossGrain: ", cross grain",
	job.EitherGrain: ", either grain"}

// inWords names the units that the lists are in.
var inWords = map[measure.Unit]string{
	measure.Inch: "inches", measure.Millimetre: "millimetres", measure.Centimetre: "centimetres",
	measure.Yard: "yards", measure.Metre: "metres",
}

// copies says how many to cut and which way.
func copies(count int, pair, onFold bool) string {
	switch {
	case pair && count == 2:
		return "1 pair"
	case pair:
		return fmt.Sprintf("%d pairs", count/2)
	case onFold:
		return fmt.Sprintf("%d on fold", count)
	}
	return fmt.Sprint(count)
}

// size shows a size without its unit.
func size(s plan.Size, unit measure.Unit) string {
	return bare(s.Along, unit) + " x " + bare(s.Across, unit)
}

// bare shows a length without its unit.
func bare(mm float64, unit measure.Unit) string {
	return strings.TrimSuffix(measure.Format(mm, unit), " "+unit.String())
}

// bareUp is bare rounded up, for lengths of cloth.
func bareUp(mm float64, unit measure.Unit) string {
	return strings.TrimSuffix(measure.FormatUp(mm, unit), " "+unit.String())
}

// table prints the figures of a gathered part.
func (p listPrinter) table(t report.Table, buy measure.Unit) {
	unit := p.unit
	const row = "%-5v%12s%12s%12s%7s%8s%11s%11s"
	if b := t.Binding; b != nil {
		p.paragraph(fmt.Sprintf(
			"%s in %s, in %s: %d strips %s wide with joins: %d, together %s long; side by side they take %s of cloth",
			t.Part, t.Cloth, inWords[unit], b.Strips, bare(b.CutWidth, unit), b.Joins, bare(b.Length, unit),
			bareUp(b.Cloth, unit)))
		return
	}
	p.paragraph(fmt.Sprintf("%s in %s, in %s; cloth at one strip a row, in %s", t.Part, t.Cloth,
		inWords[unit], inWords[buy]))
	if t.Tiers != nil {
		p.cells(row, "tier", "depth", "gathered to", "flat edge", "full", "strips", "cut depth", "cloth")
	}
	for _, l := range t.Tiers {
		gathered, full := "-", "-"
		if l.Edge > 0 {
			gathered, full = bare(l.Edge, unit), fmt.Sprintf("%.2f", l.Fullness)
		}
		p.cells(row, fmt.Sprint(l.Tier), bare(l.Depth, unit), gathered, bare(l.Flat, unit), full,
			fmt.Sprint(l.Strips), bare(l.CutDepth, unit), bareUp(l.Cloth, buy))
	}
	if t.Layers == nil {
		return
	}
	p.cells(row, "layer", "from waist", "gathered to", "flat edge", "full", "strips", "cut depth", "cloth")
	for _, l := range t.Layers {
		p.cells(row, fmt.Sprint(l.Layer), bare(l.Depth, unit), bare(l.Girth, unit), bare(l.Flat, unit),
			fmt.Sprintf("%.2f", l.Fullness), fmt.Sprint(l.Strips), bare(l.CutDepth, unit), bareUp(l.Cloth, buy))
	}
	p.pins(t.Layers)
}
