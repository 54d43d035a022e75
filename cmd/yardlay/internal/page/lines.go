package page

import (
	"bytes"
	"strings"
)

// typed returns a text as a browser sends it with the line ends of the file: lines at
// its beginning and its end that stand there unchanged keep their own, others take
// those that the file has more of.
func typed(src []byte, text string) []byte {
	old, lines := strings.SplitAfter(string(src), "\n"), strings.SplitAfter(text, "\n")
	n := min(len(old), len(lines))
	head, tail := 0, 0
	for head < n && withoutEnd(old[head]) == withoutEnd(lines[head]) {
		head++
	}
	for tail < n-head && withoutEnd(old[len(old)-1-tail]) == withoutEnd(lines[len(lines)-1-tail]) {
		tail++
	}
	end := "\n"
	if 2*bytes.Count(src, []byte("\r\n")) > bytes.Count(src, []byte("\n")) {
		end = "\r\n"
	}
	var out strings.Builder
	for i, line := range lines {
		was := -1 // the line of the file that it is
		if i < head {
			was = i
		} else if i >= len(lines)-tail {
			was = i - len(lines) + len(old)
		}
		switch last := i == len(lines)-1; {
		case last:
			out.WriteString(withoutEnd(line))
		case was >= 0 && was < len(old)-1:
			out.WriteString(old[was])
		default:
			out.WriteString(withoutEnd(line) + end)
		}
	}
	return []byte(out.String())
}

// withoutEnd is a line without its end.
func withoutEnd(line string) string { return strings.TrimSuffix(strings.TrimSuffix(line, "\n"), "\r") }
