package main

import (
	"fmt"
	"io"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
)

const aboutHelp = `Explains a command and its flags. ` + "`yardlay help job`" + ` lists all that a job file
may have. Add a name to see one part of it: a key (nap, or cloth.nap), a table
(cloth), or a draft (circle-skirt). ` + "`yardlay help workroom`" + ` lists what a workroom.toml may
have besides, ` + "`yardlay help workroom leftover`" + ` a part of it.
`

// help explains the program, one of its commands, or the job file.
func help(out io.Writer, args []string) error {
	switch {
	case len(args) == 0:
		return helpAll(out)
	case args[0] == "job":
		return helpKeys(out, jobFile, args[1:])
	case args[0] == "workroom" && len(args) > 1:
		return helpKeys(out, workroomFile, args[1:])
	case len(args) > 1:
		return &usageError{fmt.Sprintf("help takes one command, not %d", len(args)), "`yardlay help` lists them"}
	}
	c := commandNamed(args[0])
	if c == nil {
		hint := "`yardlay help` lists them"
		if len(topics(job.Reference(), args[0])) > 0 {
			hint = "it belongs to the job file: `yardlay help job " + args[0] + "` explains it"
		}
		return &usageError{fmt.Sprintf("there is no command %q to explain", args[0]), hint}
	}
	fmt.Fprintf(out, "yardlay %s %s\n\n", c.name, c.args)
	if c.about == "" {
		fmt.Fprintf(out, "%s\n", c.brief)
		return nil
	}
	printAbout(out, c.about)
	if flags := c.flagSet(new(options)); flags.HasFlags() {
		fmt.Fprintf(out, "\nFlags:\n%s", flags.FlagUsagesWrapped(columns(out)))
	}
	if c.name == "workroom" {
		printReference(out, job.WorkroomReference(), columns(out))
	}
	return nil
}

// printAbout prints paragraphs as wide as the terminal; examples, which are indented,
// stand as they are typed.
func printAbout(out io.Writer, about string) {
	for i, paragraph := range strings.Split(strings.TrimSpace(about), "\n\n") {
		if i > 0 {
			fmt.Fprintln(out)
		}
		if strings.HasPrefix(paragraph, " ") {
			fmt.Fprintln(out, paragraph)
		} else {
			fmt.Fprint(out, wrapAt(paragraph, "", columns(out)))
		}
	}
}

func helpAll(out io.Writer) error {
	fmt.Fprint(out, "yardlay drafts the panels of a gown, lays them on its cloths and says how much\nof each to "+
		"buy.\n\n")
	all, widest := commands(), 0
	for _, c := range all {
		widest = max(widest, len(c.name+" "+c.args))
	}
	for _, c := range all {
		fmt.Fprintf(out, "  yardlay %-*s  %s\n", widest, c.name+" "+c.args, c.brief)
	}
	fmt.Fprint(out, "\nStart with `yardlay new gown.toml`, then `yardlay lay gown.toml --out out`.\n")
	return nil
}
