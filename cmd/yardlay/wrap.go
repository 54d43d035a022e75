package main

import "strings"

// wrapAt sets a text in lines of at most so many letters, each after the indent; a
// longer word stands alone. Numbers are not parted from what they count.
func wrapAt(text, indent string, most int) string {
	var b strings.Builder
	line := ""
	for _, word := range words(text, most-len(indent)) {
		if line != "" && len(indent)+len(line)+1+len(word) > most {
			b.WriteString(indent + line + "\n")
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return b.String() + indent + line + "\n"
}

// words cuts a text at its spaces, but leaves a number with its fraction and its
// unit ("8 3/4 yd") as long as that fits in a line: a line that ends in 8 would be
// read as 8.
func words(text string, most int) []string {
	var all []string
	number := false
	for _, word := range strings.Fields(text) {
		if last := len(all) - 1; number && len(all[last])+1+len(word) <= most {
			all[last] += " " + word
		} else {
			all = append(all, word)
		}
		number = strings.Trim(word, "(0123456789./") == "" && strings.ContainsAny(word, "0123456789") &&
			!strings.HasSuffix(word, ".")
	}
	return all
}
