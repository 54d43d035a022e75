package main

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"
)

// Lines are as long as COLUMNS says, from 30 letters to 80, and 80 where it says nothing that can be read.
func TestColumnsAreWithinLimits(t *testing.T) {
	for value, want := range map[string]int{"": 80, "80": 80, "81": 80, "200": 80, "79": 79, "31": 31, "30": 30, "29": 30,
		"1": 30, "0": 80, "-5": 80, "wide": 80, "4x": 80} {
		t.Setenv("COLUMNS", value)
		for _, out := range []io.Writer{new(bytes.Buffer), &checked{Writer: new(bytes.Buffer)}} {
			if got := columns(out); got != want {
				t.Errorf("COLUMNS=%q: %d letters, want %d", value, got, want)
			}
		}
	}
}

// Flags that cannot be followed are told before anything is read, with what they take, and end every command that has
// them with the code of a wrong command line; the ends of their limits are taken.
func TestFlagsOfTheSearchAreJudged(t *testing.T) {
	const gowns = "from 1 to 100"
	for _, c := range []struct{ flag, what, hint string }{
		{"--effort=most", `--effort cannot be "most"`, "quick, normal or thorough"},
		{"--time=-1s", "--time cannot be -1s", "for example --time 30s"},
		{"--time=soon", `--time cannot be "soon"`, "for example 30s or 2m"},
		{"--workers=-1", "--workers cannot be -1", "1 or more, or 0 for all processors"},
		{"--workers=two", `--workers cannot be "two"`, "a whole number"},
		{"--seed=-1", `--seed cannot be "-1"`, "a whole number from 0 to 18446744073709551615"},
		{"--gowns=0", "--gowns cannot be 0", gowns}, {"--gowns=101", "--gowns cannot be 101", gowns},
		{"--json=perhaps", `--json cannot be "perhaps"`, "true or false"},
		{"--unit=ell", `--unit cannot be "ell"`, "in, ft, yd, mm, cm or m"},
	} {
		for _, command := range []string{"lay", "compare", "quote", "shop"} {
			var out bytes.Buffer
			code, said := trying(t, small, &out, command, c.flag, "--effort=quick", c.flag, "-")
			if want := "yardlay: " + c.what + "\n  hint: " + c.hint + "\n"; code != exitUsage || said != want || out.Len() > 0 {
				t.Errorf("%s %s ends with %d: %s", command, c.flag, code, said)
			}
		}
	}
	for _, flag := range []string{"--gowns=100", "--gowns=1", "--workers=0", "--workers=1", "--seed=0", "--time=0"} {
		o := &options{}
		flags := layCommand.flagSet(o)
		if err := flags.Parse([]string{flag}); err != nil {
			t.Fatal(err)
		}
		if _, err := o.searchEffort(); err != nil {
			t.Errorf("%s: %v", flag, err)
		}
	}
}

// Every command wants as many names as it takes, and says how it is called where it gets others; help of each is
// printed by name and by flag alike.
func TestNamesOfCommands(t *testing.T) {
	for _, command := range []string{"lay", "draft", "compare"} {
		for _, names := range [][]string{{}, {"-", "-"}} {
			var out bytes.Buffer
			code, said := trying(t, small, &out, append([]string{command}, names...)...)
			if want := fmt.Sprintf("yardlay: %s takes one job file, not %d arguments\n  hint: `yardlay help %s` shows how\n",
				command, len(names), command); code != exitUsage || said != want || out.Len() > 0 {
				t.Errorf("%s %q ends with %d: %s", command, names, code, said)
			}
		}
	}
	for _, c := range commands() {
		var by, flag, short, before bytes.Buffer
		for out, args := range map[*bytes.Buffer][]string{&by: {"help", c.name}, &flag: {c.name, "--help"},
			&short: {c.name, "-h"}, &before: {"--help", c.name}} {
			if code, said := trying(t, "", out, args...); code != exitDone || said != "" {
				t.Errorf("%q ends with %d: %s", args, code, said)
			}
		}
		if by.Len() == 0 || by.String() != flag.String() || by.String() != short.String() || by.String() != before.String() {
			t.Errorf("help of %s differs by how it is asked for", c.name)
		}
	}
	for args, want := range map[string]string{"": "no command given", "lai": "there is no command \"lai\""} {
		var out bytes.Buffer
		code, said := trying(t, "", &out, strings.Fields(args)...)
		if code != exitUsage || said != "yardlay: "+want+"\n  hint: `yardlay help` lists the commands\n" || out.Len() > 0 {
			t.Errorf("%q ends with %d: %s", args, code, said)
		}
	}
}
