package main

import (
	"bytes"
	"context"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// Interrupted before anything is laid, compare has nothing to show and says so.
func TestCompareInterruptedAtOnce(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	var out bytes.Buffer
	err := dispatch(ctx, time.Now(), []string{"compare", filepath.Join("..", "..", "testdata", "half-circle.toml")},
		streams{out: &out, err: &out})
	if err == nil || !strings.Contains(err.Error(), "interrupted before there was anything to keep") || out.Len() > 0 {
		t.Errorf("%v, %s", err, &out)
	}
}

// Interrupted between two rows, compare prints the one it has.
func TestCompareInterruptedPrintsFinishedRows(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	name, src, err := readSource(filepath.Join("..", "..", "testdata", "half-circle.toml"), nil)
	if err != nil {
		t.Fatal(err)
	}
	asked, ways, err := (&options{vary: []string{"linen.width=56,58,60"}}).ways()
	if err != nil {
		t.Fatal(err)
	}
	r, err := compare.Run(ctx, testjobs.File(t, name, string(src)), asked, ways, compare.Options{Options: plan.Options{
		Effort: nest.Trial, Workers: 1, Unit: measure.Inch,
		Progress: func(p plan.Progress) {
			if p.Finished == 1 {
				cancel()
			}
		},
	}})
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	printCompared(&out, r, usualColumns)
	for _, want := range []string{"as written ", "not laid: interrupted before it was laid",
		"Interrupted: the best layouts so far are kept", "costs least: "} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("it does not say %q:\n%s", want, &out)
		}
	}
}

// However long names and numbers are, no line is longer than the terminal, as
// long as words fit in it.
func TestComparisonFitsTheTerminal(t *testing.T) {
	name, src, err := readSource(filepath.Join("..", "..", "testdata", "lantern-gown.toml"), nil)
	if err != nil {
		t.Fatal(err)
	}
	asked, ways, err := (&options{vary: []string{"satin.nap=two-way", "waistband.ease=-1,-2",
		"satin.title=a b c d e f g h i j k l m n o p q r s t u v"}}).ways()
	if err != nil {
		t.Fatal(err)
	}
	r, err := compare.Run(t.Context(), testjobs.File(t, name, string(src)), asked, ways,
		compare.Options{Options: plan.Options{Effort: nest.Trial, Unit: measure.Inch}})
	if err != nil {
		t.Fatal(err)
	}
	for _, width := range []int{30, 40, 50, 60, 70, 80} {
		var out bytes.Buffer
		printCompared(&out, r, width)
		for line := range strings.Lines(out.String()) {
			if len(line)-1 > width {
				t.Errorf("%d letters on a terminal of %d: %s", len(line)-1, width, line)
			}
		}
	}
}
