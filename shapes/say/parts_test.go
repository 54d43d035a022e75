package say

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// What would mend it stands on a line of its own, and there is none where nobody says.
func TestHintsStandBelow(t *testing.T) {
	inner := Errorf("too wide").Hint("narrower")
	for _, c := range []struct {
		err  error
		want string
	}{
		{inner, "too wide\n  hint: narrower"},
		{Errorf("too wide"), "too wide"},
		{Errorf("cloth: %w", inner), "cloth: too wide\n  hint: narrower"},
		{Errorf("cloth: %v", inner), "cloth: too wide\n  hint: narrower"},
		{Errorf("cloth: %w", inner).Hint("another"), "cloth: too wide\n  hint: another"},
		{Errorf("cloth: %w", Errorf("part: %w", inner)), "cloth: part: too wide\n  hint: narrower"},
		{Errorf("%w and %w", Errorf("first"), inner), "first and too wide\n  hint: narrower"},
		{Errorf("%w and %w", inner, Errorf("second").Hint("last")), "too wide and second\n  hint: narrower"},
	} {
		if got := c.err.Error(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	// An error of another kind that says more than what it wraps is one whole.
	if what, hint := Parts(fmt.Errorf("in all: %w", inner), nil); what != "in all: too wide\n  hint: narrower" ||
		hint != "" {
		t.Errorf("%q, %q", what, hint)
	}
	if what, hint := Parts(errors.Join(inner), nil); !strings.HasPrefix(what, "too wide") || hint != "" {
		t.Errorf("%q, %q", what, hint)
	}
}

// Texts one after the other, commas between them, each with its lengths as shown.
func TestListsOfTexts(t *testing.T) {
	for n, want := range []string{"", "0.00 ft", "0.00 ft, 1.00 ft", "0.00 ft, 1.00 ft, 2.00 ft"} {
		var texts []Text
		for i := range n {
			texts = append(texts, Textf("%v", MM(304.8*float64(i))))
		}
		if got := List(texts).In(feet); got != want {
			t.Errorf("%d texts: %q, want %q", n, got, want)
		}
	}
	inner := Textf("%d %% of %v", 5, MM(609.6))
	if got := Textf("%s, %v", inner, inner).In(feet); got != "5 % of 2.00 ft, 5 % of 2.00 ft" {
		t.Errorf("a text in a text: %q", got)
	}
}

// Cut at its spaces and joined again a text is the same, whatever fits in a line; only
// what begins with a number is kept with more, and never more than fits.
func TestWordsJoinAgain(t *testing.T) {
	word := rapid.SampledFrom([]string{"needed", "8", "3/4", "yd", "(8.01", "m),", "20", "%", "12.", "a1", "1.5", "/",
		"of"})
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(word, 0, 12).Draw(t, "words")
		text, most := strings.Join(words, "  "), rapid.IntRange(1, 20).Draw(t, "most")
		got := Words(text, func(s string) bool { return len(s) <= most })
		if !slices.Equal(strings.Fields(strings.Join(got, " ")), words) {
			t.Fatalf("%q is cut into %q", text, got)
		}
		for i, w := range got {
			first, _, kept := strings.Cut(w, " ")
			if kept && (len(w) > most || strings.Trim(first, "(0123456789./") != "" ||
				!strings.ContainsAny(first, "0123456789")) {
				t.Fatalf("%q is kept together in %d letters", w, most)
			}
			last := w[strings.LastIndexByte(w, ' ')+1:]
			number := strings.Trim(last, "(0123456789./") == "" && strings.ContainsAny(last, "0123456789") &&
				!strings.HasSuffix(last, ".")
			if next := i + 1; number && next < len(got) && len(w)+1+len(strings.Fields(got[next])[0]) <= most {
				t.Fatalf("%q is cut off from %q in %d letters", w, got[next], most)
			}
		}
	})
}
