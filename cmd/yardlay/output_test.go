package main

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"yardlay/cmd/yardlay/internal/plan"
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

func TestSeconds(t *testing.T) {
	if got := seconds(1260 * time.Millisecond); got != "1.3 s" {
		t.Errorf("got %q", got)
	}
}
