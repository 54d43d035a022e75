package main

import (
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/report"
	"yardlay/shapes/measure"
)

// What is said of a bound on a repeat: whether it counts the repeat, and how far it may be
// too low; nothing where it is met.
func TestRepeatWordsSayHowLooseTheBoundIs(t *testing.T) {
	const in = 25.4
	for _, c := range []struct {
		repeat report.Repeat
		want   string
	}{
		{report.Repeat{}, "the repeat takes no more."},
		{report.Repeat{Counted: true}, "the repeat takes no more."},
		{report.Repeat{Loose: 12 * in},
			"The bound leaves the repeat out: on plain cloth it is met, here it may be up to 12 in too low."},
		{report.Repeat{Loose: 12 * in, PlainLoose: 2 * in},
			"The bound leaves the repeat out: on plain cloth it is 2 in under the marker, here it may be up to 12 in " +
				"too low."},
		{report.Repeat{Loose: 2 * in, PlainLoose: in, Counted: true},
			"The bound counts whole repeats only where pieces must follow each other: it may be up to 2 in too low."},
	} {
		got := repeatWords(&report.Report{Unit: measure.Inch}, report.Cloth{Repeat: &c.repeat})
		if !strings.HasSuffix(got, c.want) {
			t.Errorf("%+v: %q, want %q at its end", c.repeat, got, c.want)
		}
	}
}
