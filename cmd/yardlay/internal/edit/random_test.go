package edit

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"
)

// written draws a TOML file in any spelling: quotes, dotted keys, tables in braces or with
// headers, lists over several lines, comments, blank lines, byte order mark, line ends.
type written struct {
	t       *rapid.T
	b       strings.Builder
	indent  string
	aligned bool
	notes   int
}

func drawFile(t *rapid.T) string {
	w := written{t: t, aligned: rapid.Bool().Draw(t, "aligned")}
	w.noise()
	w.entries(w.names(3), 2)
	names := w.names(3)
	for _, name := range names {
		w.table(name, name, 2)
	}
	for _, name := range names { // far from the others of the same table
		if w.one("later", 3) {
			w.table("later", name+".later", 1)
		}
	}
	text := w.b.String()
	if w.one("no last line end", 4) {
		text = strings.TrimRight(text, "\n")
	}
	if w.one("CRLF", 4) {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	if w.one("mark", 6) {
		text = "\ufeff" + text
	}
	return text
}

// one is true once in so many times.
func (w *written) one(what string, in int) bool { return rapid.IntRange(1, in).Draw(w.t, what) == 1 }

// names draws keys that no other of the file has.
func (w *written) names(most int) (names []string) {
	for range rapid.IntRange(0, most).Draw(w.t, "keys") {
		w.notes++
		names = append(names, fmt.Sprintf("k%d", w.notes))
	}
	return names
}

func (w *written) comment() string {
	w.notes++
	return fmt.Sprintf("# note %d, \"quoted\" [a] = {", w.notes)
}

// noise is what may stand between lines.
func (w *written) noise() {
	for range rapid.IntRange(0, 2).Draw(w.t, "noise") {
		if w.one("blank", 2) {
			w.b.WriteString("\n")
		} else {
			w.b.WriteString(w.indent + w.comment() + "\n")
		}
	}
}

// table writes a table or a list of tables with headers.
func (w *written) table(name, header string, deep int) {
	w.noise()
	list := w.one("list", 2)
	for i := 0; ; i++ {
		w.indent = rapid.SampledFrom([]string{"", "", "  "}).Draw(w.t, "indent")
		var within []string
		if deep > 0 {
			within = w.names(2)
		}
		bare := !list && len(within) > 0 && w.one("implied", 3)
		if !bare {
			open, closed := "[", "]"
			if list {
				open, closed = "[[", "]]"
			}
			w.b.WriteString(w.indent + open + rapid.SampledFrom([]string{"", " "}).Draw(w.t, "inside") + header + closed)
			w.behind()
			w.entries(w.names(3), 2)
		}
		for _, sub := range within {
			w.table(sub, header+"."+sub, deep-1)
		}
		w.noise()
		if !list || i == 2 || w.one("enough", 2) {
			break
		}
	}
	w.indent = ""
}

// behind ends a line, sometimes with a comment.
func (w *written) behind() {
	if w.one("behind", 4) {
		w.b.WriteString("   " + w.comment())
	}
	w.b.WriteString("\n")
}

func (w *written) entries(names []string, deep int) {
	for _, name := range names {
		w.noise()
		if deep > 0 && w.one("dotted", 5) {
			for _, sub := range append(w.names(1), "last") {
				w.entry(w.key(name)+"."+sub, deep-1)
			}
			continue
		}
		w.entry(w.key(name), deep)
	}
}

func (w *written) key(name string) string {
	switch rapid.IntRange(0, 9).Draw(w.t, "key") {
	case 0:
		return `"` + name + `"`
	case 1:
		return "'" + name + "'"
	}
	return name
}

func (w *written) entry(key string, deep int) {
	equals := rapid.SampledFrom([]string{" = ", "=", " ="}).Draw(w.t, "equals")
	if w.aligned {
		equals = strings.Repeat(" ", max(1, 12-len(key))) + "= "
	}
	w.b.WriteString(w.indent + key + equals + w.value(deep))
	w.behind()
}

func (w *written) value(deep int) string {
	most := 11
	if deep == 0 {
		most = 8
	}
	switch rapid.IntRange(0, most).Draw(w.t, "value") {
	case 0:
		return "true"
	case 1:
		return "-0x1_F"[1:]
	case 2:
		return "2.50"
	case 3:
		return "1979-05-27 07:32:00Z"
	case 4:
		return `'27 1/2 "in"'`
	case 5:
		return `"""` + "\nseveral # no comment\nlines" + `"""`
	case 6, 7, 8:
		return `"a \"text\" # of, [some] = {signs}"`
	case 9:
		return w.listed("[", "]", deep, func() string { return w.value(deep - 1) })
	case 10:
		return w.listed("[", "]", deep, func() string { return w.value(0) })
	}
	return w.listed("{", "}", deep, func() string {
		w.notes++
		name := fmt.Sprintf("k%d", w.notes)
		if w.one("dotted", 5) {
			name += "." + name
		}
		return name + " = " + w.value(deep-1)
	})
}

// listed writes things in brackets or braces, on one line or on several.
func (w *written) listed(open, closed string, deep int, item func() string) string {
	n := rapid.IntRange(0, 3).Draw(w.t, "items")
	lines, b := w.one("lines", 3), strings.Builder{}
	b.WriteString(open)
	pad := rapid.SampledFrom([]string{"", " "}).Draw(w.t, "pad")
	for i := range n {
		if lines {
			b.WriteString("\n" + w.indent + "\t")
		} else {
			b.WriteString(pad)
		}
		b.WriteString(item())
		if lines && w.one("note before comma", 6) {
			b.WriteString(" " + w.comment() + "\n")
		}
		if i < n-1 || w.one("last comma", 4) {
			b.WriteString(",")
		}
		if lines && w.one("note", 4) {
			b.WriteString(" " + w.comment())
		}
	}
	if lines {
		b.WriteString("\n" + w.indent)
	} else {
		b.WriteString(pad)
	}
	b.WriteString(closed)
	return b.String()
}
