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

// Count says how many there are of a thing: "1 page", "2 pages".
func Count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
