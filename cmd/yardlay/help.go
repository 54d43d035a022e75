package main

import (
	"fmt"
	"io"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
)

// help explains the program, one of its commands, or the job file.
func help(out io.Writer, args []string) error {
	switch {
	case len(args) > 1:
		return &usageError{fmt.Sprintf("help takes one command, not %d", len(args)), "`yardlay help` lists them"}
	case len(args) == 0:
		return helpAll(out)
	case args[0] == "job":
		return helpJob(out)
	}
	c := commandNamed(args[0])
	if c == nil {
		return &usageError{fmt.Sprintf("there is no command %q to explain", args[0]), "`yardlay help` lists them"}
	}
	fmt.Fprintf(out, "yardlay %s %s\n\n", c.name, c.args)
	if c.about == "" {
		fmt.Fprintf(out, "%s\n", c.brief)
		return nil
	}
	fmt.Fprint(out, c.about)
	if flags := c.flagSet(new(options)); flags.HasFlags() {
		fmt.Fprintf(out, "\nFlags:\n%s", flags.FlagUsagesWrapped(80))
	}
	return nil
}

func helpAll(out io.Writer) error {
	fmt.Fprint(out, "yardlay drafts the panels of a gown, lays them on its cloths and says how much\nof each to buy.\n\n")
	for _, c := range commands() {
		fmt.Fprintf(out, "  yardlay %-21s %s\n", c.name+" "+c.args, c.brief)
	}
	fmt.Fprint(out, "\nStart with `yardlay new gown.toml`, then `yardlay lay gown.toml --out out`.\n")
	return nil
}

// helpJob lists the keys of a job file.
func helpJob(out io.Writer) error {
	fmt.Fprint(out, "A job file is TOML. A length is a number in the job's `unit`, or text: \"27 1/2\",\n"+
		"\"90 cm\", \"2 3/8 yd\". A ratio is a number or text: 2.5, \"2 1/2\".\n")
	margin := strings.Repeat(" ", 25)
	for _, s := range job.Reference() {
		fmt.Fprintf(out, "\n%s", wrap(s.Title+": "+s.About, ""))
		if s.Draft {
			fmt.Fprint(out, wrap("for example "+s.Example, "  "))
		}
		for _, k := range s.Keys {
			otherwise := "default: " + k.Default
			if k.Default == "" {
				otherwise = "must be given"
			}
			facts := wrap(k.Takes+"; "+otherwise, margin) + wrap(k.Meaning, margin)
			fmt.Fprintf(out, "  %-22s %s", k.Name, facts[len(margin):])
		}
	}
	return nil
}
