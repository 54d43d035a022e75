package say

import "strings"

// Words cuts a text at its spaces, but leaves a number with its fraction and its
// unit ("8 3/4 yd") as long as that fits in a line: a line that ends in 8 would be
// read as 8.
func Words(text string, fits func(string) bool) []string {
	var all []string
	number := false
	for _, word := range strings.Fields(text) {
		if last := len(all) - 1; number && fits(all[last]+" "+word) {
			all[last] += " " + word
		} else {
			all = append(all, word)
		}
		number = strings.Trim(word, "(0123456789./") == "" && strings.ContainsAny(word, "0123456789") &&
			!strings.HasSuffix(word, ".")
	}
	return all
}
