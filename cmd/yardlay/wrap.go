package main

import (
	"strings"

	"yardlay/shapes/say"
)

// wrapAt sets a text in lines of at most so many letters, each after the indent; a
// longer word stands alone. Numbers are not parted from what they count.
func wrapAt(text, indent string, most int) string {
	var b strings.Builder
	line := ""
	for _, word := range say.Words(text, func(s string) bool { return len(s) <= most-len(indent) }) {
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
