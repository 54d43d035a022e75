package edit

import "strings"

// span is where one thing of a list or of a table in braces is written.
type span struct{ start, end int }

// spans lists what stands in brackets or braces.
func (n *node) spans() (all []span) {
	for _, item := range n.items {
		all = append(all, span{item.start, item.end})
	}
	for _, e := range n.seq {
		all = append(all, span{e.start, e.end})
	}
	return all
}

// comma returns where a comma behind a place is; ok is false where something else comes
// first.
func (d *document) comma(at int) (where int, ok bool) {
	for at < len(d.src) {
		switch d.src[at] {
		case ' ', '\t', '\n', '\r':
			at++
		case '#':
			at = d.lineEnd(at)
		case ',':
			return at, true
		default:
			return at, false
		}
	}
	return at, false
}

// addTo writes one thing behind those in brackets or braces: beside the last one, or
// below it where that has a line of its own.
func (d *document) addTo(n *node, text string) {
	all := n.spans()
	if len(all) == 0 {
		d.fillEmpty(n, text)
		return
	}
	last := all[len(all)-1]
	comma, closed := d.comma(last.end)
	at, after := last.end, ""
	if closed {
		at, after = comma+1, ","
	} else {
		text = ", " + text
	}
	if !d.alone(last.start) {
		if closed {
			text = " " + text
		}
		d.put(at, at, text+after)
		return
	}
	if !closed {
		d.put(last.end, last.end, ",")
		text = text[2:]
	}
	if end := d.lineEnd(at); end < n.end-1 { // a comment may stand behind it
		at = end
	}
	d.put(at, at, d.eol()+d.indent(last.start)+text+after)
}

// fillEmpty writes the only thing in brackets or braces.
func (d *document) fillEmpty(n *node, text string) {
	from, to := n.start+1, n.end-1
	switch inner := string(d.src[from:to]); {
	case strings.TrimLeft(inner, " \t") != "": // a comment, or lines
		d.put(to, to, text)
	case inner != "" || n.kind == braces:
		d.put(from, to, " "+text+" ")
	default:
		d.put(from, to, text)
	}
}

// cutFrom takes one thing out of brackets or braces, and the comma that parted it from
// its neighbour. Comments stay.
func (d *document) cutFrom(n *node, index int) {
	all := n.spans()
	from, to := all[index].start, all[index].end
	comma, own := d.comma(to)
	switch {
	case own && d.spaces(to) == comma:
		to = d.spaces(comma + 1)
	case own:
		d.put(comma, comma+1, "")
	case index > 0:
		comma, _ = d.comma(all[index-1].end)
		if d.spaces(comma+1) == from {
			from = comma
		} else {
			d.put(comma, comma+1, "")
		}
	}
	switch {
	case len(all) == 1 && d.spaces(n.start+1) == from && d.spaces(to) == n.end-1:
		from, to = n.start+1, n.end-1
	case d.alone(from) && d.lineEnd(to) == to:
		from, to = d.lineStart(from), d.nextLine(to)
	}
	d.put(from, to, "")
}

// spaces returns where the white space at a place ends, within its line.
func (d *document) spaces(at int) int {
	for at < len(d.src) && (d.src[at] == ' ' || d.src[at] == '\t') {
		at++
	}
	return at
}
