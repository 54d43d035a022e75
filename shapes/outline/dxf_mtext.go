package outline

import "strings"

// plainMText takes the formatting off an MTEXT (DXF Reference, MTEXT; codes as in its user
// documentation): braces, fonts, colours, heights, tabs; \P ends a line, \S stacks two texts
// of a fraction, which are set side by side.
func plainMText(s string) string {
	var out strings.Builder
	for s != "" {
		c := s[0]
		switch {
		case c == '{' || c == '}':
			s = s[1:]
		case c == '\\' && len(s) > 1:
			var said string
			said, s = mtextCode(s)
			out.WriteString(said)
		default:
			out.WriteByte(c)
			s = s[1:]
		}
	}
	lines := strings.Split(plainCarets(undoPercents(out.String())), "\n")
	for i, l := range lines {
		lines[i] = strings.TrimSpace(l)
	}
	return printable(strings.Join(lines, "\n"))
}

// plainCarets undoes carets as plainText does, but keeps ends of lines.
func plainCarets(s string) string {
	return strings.NewReplacer("^ ", "^", "^I", " ", "^J", "\n", "^M", "").Replace(s)
}

// mtextCode reads a code at the start of s, and returns what it says and what follows.
func mtextCode(s string) (said, rest string) {
	switch c := s[1]; c {
	case 'P', 'N', 'X':
		return "\n", s[2:]
	case '~':
		return " ", s[2:]
	case '\\', '{', '}':
		return string(c), s[2:]
	case 'L', 'l', 'O', 'o', 'K', 'k':
		return "", s[2:]
	case 'A', 'C', 'c', 'F', 'f', 'H', 'Q', 'T', 'W', 'p':
		if end := strings.IndexByte(s, ';'); end >= 0 {
			return "", s[end+1:]
		}
		return "", ""
	case 'S':
		stack, rest, _ := strings.Cut(s[2:], ";")
		return strings.NewReplacer("^ ", "/", "^", "/", "#", "/").Replace(stack), rest
	}
	return s[:2], s[2:] // no code: as it stands
}
