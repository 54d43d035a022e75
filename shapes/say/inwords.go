package say

import (
	"fmt"
	"strings"
)

// InWords lists words as in a sentence, last before the last of them: "6, 8 or 10".
func InWords(words []string, last string) string {
	n := len(words)
	if n < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:n-1], ", ") + " " + last + " " + words[n-1]
}

// Quoted sets each word between marks.
func Quoted(words []string, mark string) []string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = mark + w + mark
	}
	return quoted
}

// Count says how many there are of a thing: "1 page", "2 pages", "2 bodies".
func Count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	if stem, y := strings.CutSuffix(thing, "y"); y && strings.TrimRight(stem, "aeiou") == stem {
		thing = stem + "ie"
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
