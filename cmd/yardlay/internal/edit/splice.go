package edit

import (
	"bytes"
	"cmp"
	"slices"
)

// splices are parts of a text that give way to others.
type splices []splice

type splice struct {
	from, to int
	text     string
}

// put lets a text stand for what is between two places.
func (s *splices) put(from, to int, text string) { *s = append(*s, splice{from, to, text}) }

// written is the text with all changes made.
func (d *document) written() []byte {
	slices.SortStableFunc(d.splices, func(a, b splice) int { return cmp.Compare(a.from, b.from) })
	out := bytes.Clone(d.bom)
	at := 0
	for _, s := range d.splices {
		out = append(append(out, d.src[at:s.from]...), s.text...)
		at = s.to
	}
	return append(out, d.src[at:]...)
}

// eol is how the file ends its lines.
func (d *document) eol() string {
	if i := bytes.IndexByte(d.src, '\n'); i > 0 && d.src[i-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}

// cutLine takes whole lines away, with the line end behind them.
func (d *document) cutLine(from, to int) { d.put(d.lineStart(from), d.nextLine(to), "") }

// nextLine returns where the line after that of a place begins.
func (d *document) nextLine(at int) int {
	if i := bytes.IndexByte(d.src[at:], '\n'); i >= 0 {
		return at + i + 1
	}
	return len(d.src)
}

// indent returns the white space that the line of a place begins with.
func (d *document) indent(at int) string {
	line := d.src[d.lineStart(at):d.lineEnd(at)]
	return string(line[:len(line)-len(bytes.TrimLeft(line, " \t"))])
}

// alone says that nothing but white space stands before a place in its line.
func (d *document) alone(at int) bool { return len(d.indent(at)) == at-d.lineStart(at) }

// quote is what most text of the file stands in.
func (d *document) quote() byte {
	count := map[byte]int{}
	var walk func(n *node)
	walk = func(n *node) {
		if n.kind == plain {
			count[d.src[n.start]]++
		}
		for _, item := range n.items {
			walk(item)
		}
		for _, key := range n.order {
			walk(n.fields[key])
		}
	}
	walk(d.root)
	if count['\''] > count['"'] {
		return '\''
	}
	return '"'
}
