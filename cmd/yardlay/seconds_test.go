package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"yardlay/benchmarks/processor"
)

// secondsOf runs the program to its end and returns its processor time, which what else runs
// on the machine changes little.
func secondsOf(t *testing.T, args ...string) time.Duration {
	t.Helper()
	p := start(t, append(args, "--effort", "quick", "--out", t.TempDir())...)
	if p.Wait(); !p.ProcessState.Success() {
		t.Fatalf("%q: %v\n%s", args, p.ProcessState, &p.err)
	}
	return p.ProcessState.UserTime() + p.ProcessState.SystemTime()
}

// A maker does not wait for paper: all pieces of the demo are on sheets within two seconds,
// its workbook is there within a second after the layout, and every way to print a chorus
// within ten seconds of two processors, which layouts use both of. It runs with
// YARDLAY_LONG=1, as in .ci/run.
func TestSecondsOfPrints(t *testing.T) {
	if os.Getenv("YARDLAY_LONG") == "" {
		t.Skip("YARDLAY_LONG=1 runs this test, which measures processor time")
	}
	demo, chorus := filepath.Join(jobs, "lantern-gown.toml"), filepath.Join(jobs, "chorus-gown.toml")
	laid := secondsOf(t, "lay", demo)
	for _, c := range []struct {
		what  string
		less  time.Duration
		limit time.Duration
		args  []string
	}{
		{"sheets of the demo", 0, 2 * time.Second, []string{"print", demo, "--sheets", "a4"}},
		{"sheets of Letter", 0, 2 * time.Second, []string{"print", demo, "--sheets", "letter"}},
		{"workbook of the demo, as laid", laid, time.Second, []string{"print", demo, "--book", "--html"}},
		{"sheets of a chorus", 0, 20 * time.Second, []string{"print", chorus, "--sheets", "a4"}},
		{"roll of a chorus", 0, 20 * time.Second, []string{"print", chorus, "--roll", "36in"}},
		{"markers of a chorus", 0, 20 * time.Second, []string{"print", chorus, "--roll", "36in", "--markers"}},
		{"light of a chorus", 0, 20 * time.Second, []string{"print", chorus, "--projector", "48x27in", "--table", "60in"}},
		{"chalk of a chorus", 0, 20 * time.Second, []string{"print", chorus, "--chalk"}},
		{"lines of a chorus", 0, 20 * time.Second, []string{"print", chorus, "--dxf", "--svg", "--markers"}},
		{"workbook of a chorus", 0, 20 * time.Second, []string{"print", chorus, "--book", "--html"}},
	} {
		got := secondsOf(t, c.args...) - c.less
		t.Logf("%s: %v", c.what, got)
		if processor.Exceeds(got, c.limit) {
			t.Errorf("%s: %v, %v is the most (%s)", c.what, got, c.limit, strings.Join(c.args, " "))
		}
	}
}
