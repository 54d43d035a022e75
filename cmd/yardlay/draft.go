package main

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/plan"
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

With --out it writes for each cloth a drawing of its pieces, CLOTH-pieces.svg.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		flags.BoolVar(&o.seams, "seams", false, "print the sewing order with the lengths of both sides of each seam")
		flags.BoolVar(&o.edges, "edges", false, "print the names and lengths of the edges of each piece")
		o.outputFlags(flags, "CLOTH-pieces.svg")
	},
	run: draftJob,
}

func draftJob(_ context.Context, s streams, args []string, o *options) error {
	j, unit, err := o.jobAndUnit("draft", args, s.in)
	if err != nil {
		return err
	}
	spreads, err := plan.Draw(j)
	if err != nil {
		return err
	}
	list, err := plan.List(j, spreads)
	if err != nil {
		return err
	}
	var files []file
	if o.dir != "" {
		if files, err = pieceFiles(j.Title, spreads, unit); err != nil {
			return err
		}
		if err := writeAll(o.dir, files); err != nil {
			return err
		}
	}
	if o.json {
		text, err := encode(list)
		if err != nil {
			return err
		}
		_, err = s.out.Write(text)
		return err
	}
	printCutList(s.out, list, unit)
	if o.edges {
		printEdges(s.out, list.Pieces, plan.SizeUnit(unit))
	}
	if o.seams {
		printSeams(s.out, list.Seams, plan.SizeUnit(unit))
	}
	return o.say(s.out, files)
}

// printCutList prints the pieces cloth by cloth and part by part.
func printCutList(out io.Writer, list plan.CutList, unit measure.Unit) {
	if list.Title != "" {
		fmt.Fprintln(out, list.Title)
	}
	buy := measure.Yard
	if unit.Metric() {
		buy = measure.Metre
	}
	unit = plan.SizeUnit(unit)
	var heading string
	for _, c := range list.Pieces {
		if h := c.Part + " in " + c.Cloth; h != heading {
			heading = h
			fmt.Fprintf(out, "\n%-30s%-12s%18s%20s\n", h, "cut", "finished", "cut size")
		}
		name := withoutPart(c.Piece, c.Part)
		if len(name) > 27 {
			fmt.Fprintf(out, "  %s\n", name)
			name = ""
		}
		fmt.Fprintf(out, "  %-28s%-12s%18s%20s\n", name, copies(c.Count, c.Pair, c.OnFold), size(c.Finished, unit), size(c.CutSize, unit))
	}
	fmt.Fprintf(out, "\nSizes are along the grain x across it, in %s.\n", inWords[unit])
	if slices.ContainsFunc(list.Pieces, func(c plan.Cut) bool { return c.OnFold }) {
		fmt.Fprintln(out, "A piece on fold has the size of the whole, opened out.")
	}
	for _, t := range list.Tables {
		printTable(out, t, unit, buy)
	}
}

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

// printTable prints the figures of a gathered part.
func printTable(out io.Writer, t plan.Table, unit, buy measure.Unit) {
	const row = "%-5v%12s%12s%12s%7s%8s%11s%11s\n"
	if b := t.Binding; b != nil {
		fmt.Fprint(out, "\n"+wrap(fmt.Sprintf("%s in %s, in %s: %d strips %s wide with joins: %d, together %s long; side by side they take %s of cloth",
			t.Part, t.Cloth, inWords[unit], b.Strips, bare(b.CutWidth, unit), b.Joins, bare(b.Length, unit), bareUp(b.Cloth, unit)), ""))
		return
	}
	fmt.Fprintf(out, "\n%s in %s, in %s; cloth at one strip a row, in %s\n", t.Part, t.Cloth, inWords[unit], inWords[buy])
	if t.Tiers != nil {
		fmt.Fprintf(out, row, "tier", "depth", "gathered to", "flat edge", "full", "strips", "cut depth", "cloth")
	}
	for _, l := range t.Tiers {
		gathered, full := "-", "-"
		if l.Edge > 0 {
			gathered, full = bare(l.Edge, unit), fmt.Sprintf("%.2f", l.Fullness)
		}
		fmt.Fprintf(out, row, l.Tier, bare(l.Depth, unit), gathered, bare(l.Flat, unit), full,
			fmt.Sprint(l.Strips), bare(l.CutDepth, unit), bareUp(l.Cloth, buy))
	}
	if t.Layers == nil {
		return
	}
	fmt.Fprintf(out, row, "layer", "from waist", "gathered to", "flat edge", "full", "strips", "cut depth", "cloth")
	for _, l := range t.Layers {
		fmt.Fprintf(out, row, l.Layer, bare(l.Depth, unit), bare(l.Girth, unit), bare(l.Flat, unit),
			fmt.Sprintf("%.2f", l.Fullness), fmt.Sprint(l.Strips), bare(l.CutDepth, unit), bareUp(l.Cloth, buy))
	}
	fmt.Fprintf(out, "\nPin the quarters of the flat edge this far round the skirt from centre back:\n")
	for _, l := range t.Layers {
		fmt.Fprintf(out, "%-5d", l.Layer)
		for _, q := range l.Quarters {
			fmt.Fprintf(out, "%12s", bare(q, unit))
		}
		fmt.Fprintln(out)
	}
}
