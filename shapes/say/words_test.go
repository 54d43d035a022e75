package say

import (
	"slices"
	"testing"
)

func TestWordsKeepNumbersWithWhatTheyCount(t *testing.T) {
	text := "needed 8 3/4 yd (8.01 m), 20 % spare of 12."
	for most, want := range map[int][]string{
		40: {"needed", "8 3/4 yd", "(8.01 m),", "20 %", "spare", "of", "12."},
		5:  {"needed", "8 3/4", "yd", "(8.01", "m),", "20 %", "spare", "of", "12."},
	} {
		got := Words(text, func(s string) bool { return len(s) <= most })
		if !slices.Equal(got, want) {
			t.Errorf("in %d letters: %q, want %q", most, got, want)
		}
	}
}

// A setting that is to be copied into a job does not end in the middle of a line; where it must, as elsewhere.
func TestWordsKeepWhatIsToBeCopied(t *testing.T) {
	text := "Write `within = { 22 1/2 in }`. The ` stands alone, 3 times."
	for most, want := range map[int][]string{
		40: {"Write", "`within = { 22 1/2 in }`.", "The", "`", "stands", "alone,", "3 times."},
		9:  {"Write", "`within", "=", "{", "22 1/2 in", "}`.", "The", "`", "stands", "alone,", "3 times."},
	} {
		if got := Words(text, func(s string) bool { return len(s) <= most }); !slices.Equal(got, want) {
			t.Errorf("in %d letters: %q, want %q", most, got, want)
		}
	}
}
