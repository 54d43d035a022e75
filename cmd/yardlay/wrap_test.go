package main

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// A line that ended in 8 of 8 3/4 yd would be read as 8.
func TestLinesKeepNumbersTogether(t *testing.T) {
	for _, c := range []struct {
		most int
		want string
	}{
		{36, "  at 10.90/yd, 58 in wide, needed\n  8 3/4 yd (8.01 m), 20 % spare\n"},
		{80, "  at 10.90/yd, 58 in wide, needed 8 3/4 yd (8.01 m), 20 % spare\n"},
		{9, "  at\n  10.90/yd,\n  58 in\n  wide,\n  needed\n  8 3/4\n  yd\n  (8.01\n  m),\n  20 %\n  spare\n"},
	} {
		if got := wrapAt("at 10.90/yd, 58 in wide, needed 8 3/4 yd (8.01 m), 20 % spare", "  ", c.most); got != c.want {
			t.Errorf("in %d letters:\n%s", c.most, got)
		}
	}
}

// No word is lost, and no line is too long where its words are not.
func TestLinesHoldAllWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOf(rapid.StringMatching(`[a-z]{1,9}|[0-9]{1,3}(/[0-9])?\.?`)).Draw(t, "words")
		most := rapid.IntRange(12, 60).Draw(t, "most")
		text := strings.Join(words, " ")
		got := wrapAt(text, "  ", most)
		if strings.Join(strings.Fields(got), " ") != text {
			t.Fatalf("%q became %q", text, got)
		}
		for line := range strings.Lines(got) {
			if len(line)-1 > most || !strings.HasPrefix(line, "  ") {
				t.Fatalf("%q is longer than %d, or not indented", line, most)
			}
		}
	})
}
