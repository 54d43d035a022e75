package main

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/nest"
)

// The progress line is for terminals; a pipe gets nothing.
func TestProgressIsForTerminals(t *testing.T) {
	if newProgress(new(bytes.Buffer), false) != nil {
		t.Error("progress is shown in a pipe")
	}
	var out bytes.Buffer
	line := &progress{out: &out, began: time.Now()}
	line.stage("reading the job")
	line.show(0)(plan.Progress{Progress: nest.Progress{Phase: "drafting"}})
	line.show(0)(plan.Progress{Progress: nest.Progress{Length: 2540, Utilisation: 0.5, Done: 0.25}, Cloth: "satin"})
	line.clear()
	lines := []string{"", "  0 s  reading the job", "  0 s  drafting",
		"  0 s  satin             25 %  100 in, 50.0 % filled", ""}
	if want := strings.Join(lines, clearLine); out.String() != want {
		t.Errorf("the line is %q, want %q", out.String(), want)
	}
}

// A search that goes on says how to end it, where there is a layout to keep and room.
func TestProgressSaysHowToEndIt(t *testing.T) {
	line := &progress{}
	const hint = "  Ctrl-C keeps this"
	for _, c := range []struct {
		keeps bool
		after time.Duration
		room  int
		want  string
	}{
		{true, patience, 79, " 10 s  satin" + hint},
		{true, patience - time.Second, 79, "  9 s  satin"},
		{false, patience, 79, " 10 s  satin"},
		{true, patience, len(" 10 s  satin"+hint) - 1, " 10 s  satin"},
		{true, patience, 10, " 10 s  sat"},
	} {
		line.text, line.keeps = "satin", c.keeps
		if got := line.line(c.after, c.room); got != c.want {
			t.Errorf("%+v: %q", c, got)
		}
	}
}

func TestNotesSayWhatIsOutOfTheOrdinary(t *testing.T) {
	r := &report.Report{Cloths: []report.Cloth{
		{ID: "a", Cost: "1.00", Ended: nest.Stopped}, {ID: "b", Cost: "1.00", Ended: nest.OutOfTime},
		{ID: "c", Cost: "1.00"}, {ID: "d"},
	}}
	all := strings.Join(notes(r), "\n")
	for _, want := range []string{"Interrupted: the best layout so far is kept for a.", "Out of time", "for b.",
		"d has no price"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not among the notes:\n%s", want, all)
		}
	}
}

// A share is never rounded up to a full cloth.
func TestPercentRoundsDown(t *testing.T) {
	for share, want := range map[float64]string{1: "100.0 %", 0.99999: "99.9 %", 0.7267: "72.6 %", 0.5: "50.0 %"} {
		if got := percent(share); got != want {
			t.Errorf("percent(%v) = %s, want %s", share, got, want)
		}
	}
}

func TestSeconds(t *testing.T) {
	if got := seconds(1260 * time.Millisecond); got != "1.3 s" {
		t.Errorf("got %q", got)
	}
}
