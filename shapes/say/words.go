package say

import "strings"

// Words cuts a text at its spaces, but leaves a number with its fraction and its
// unit ("8 3/4 yd") as long as that fits in a line: a line that ends in 8 would be
// read as 8. What stands between back quotes is to be copied as it is, and stays
// together likewise.
func Words(text string, fits func(string) bool) []string {
	var all []string
	number := false
	for _, word := range quoted(strings.Fields(text), fits) {
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

// quoted joins the words from a back quote to the one that closes it, where they fit in a line.
func quoted(words []string, fits func(string) bool) []string {
	var all []string
	for len(words) > 0 {
		n := spanned(words)
		if span := strings.Join(words[:n], " "); fits(span) {
			all = append(all, span)
		} else {
			all = append(all, words[:n]...)
		}
		words = words[n:]
	}
	return all
}

// spanned counts the words up to the one in which back quotes opened in the first are closed: 1 where none is.
func spanned(words []string) int {
	quotes := 0
	for n, word := range words {
		if quotes += strings.Count(word, "`"); quotes%2 == 0 {
			return n + 1
		}
	}
	return 1
}
