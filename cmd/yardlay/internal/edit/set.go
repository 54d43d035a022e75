package edit

import (
	"slices"
	"strings"
	"unicode/utf8"

	"yardlay/shapes/say"
)

// set gives a key a value.
func (d *document) set(at Path, value Value) error {
	n, steps := d.find(at)
	if steps < len(at) {
		text, err := value.spell("", d.quote())
		if err != nil {
			return err
		}
		return d.insert(n, at, steps, text)
	}
	if n.kind != plain && n.kind != list && n.kind != braces {
		return say.Errorf("%w: %s is written as tables of its own", ErrNoPlace, at)
	}
	was := ""
	if n.kind == plain {
		was = string(d.src[n.start:n.end])
	}
	text, err := value.spell(was, d.quote())
	if err != nil {
		return err
	}
	d.put(n.start, n.end, text)
	return nil
}

// insert gives a table a key that it lacks: that of a path from a step on.
func (d *document) insert(table *node, at Path, steps int, value string) error {
	rest := at[steps:]
	if !table.kind.isTable() || slices.ContainsFunc(rest, func(s Step) bool { return s.OfList }) {
		return say.Errorf("%w: %s", ErrNoPlace, at)
	}
	within := 0
	if table == d.root && len(rest) > 1 {
		within = 1
	}
	for i := len(rest) - 1; i > within; i-- {
		value = "{ " + spellKey(rest[i].Key) + " = " + value + " }"
	}
	key := spellKey(rest[within].Key)
	switch {
	case within > 0:
		d.newTable(spellKey(rest[0].Key), key+" = "+value)
	case table.kind == braces:
		d.addTo(table, key+" = "+value)
	case table.kind == implied:
		d.headerFor(table, key+" = "+value)
	case table.kind == dotted:
		d.addDotted(table, key, value)
	case len(table.block.entries) == 0:
		d.firstKey(table.block, key+" = "+value)
	default:
		d.addLine(table.block.entries, key, value)
	}
	return nil
}

// addLine writes a key on a line of its own behind others of its table.
func (d *document) addLine(others []*entry, key, value string) {
	last := others[len(others)-1]
	at := d.lineEnd(last.end)
	indent := d.indent(last.start)
	d.put(at, at, d.eol()+indent+key+d.equals(others, indent+key)+value)
}

// equals is the sign between a key and its value as the lines around have it: where all
// theirs stand below each other, so does this one.
func (d *document) equals(others []*entry, before string) string {
	last := others[len(others)-1]
	sign := func(e *entry) (column int, space string) {
		end := e.keys[len(e.keys)-1].end
		equals := d.skip(end)
		return utf8.RuneCount(d.src[d.lineStart(end):equals]), string(d.src[end:equals])
	}
	column, space := sign(last)
	padded := false
	for _, e := range others {
		c, s := sign(e)
		if c != column {
			column = 0
		}
		padded = padded || len(s) > 1
	}
	behind := string(d.src[d.skip(last.keys[len(last.keys)-1].end)+1 : last.value.start])
	if padded && column > 0 {
		space = strings.Repeat(" ", max(1, column-utf8.RuneCountInString(before)))
	} else {
		space = space[:min(1, len(space))]
	}
	return space + "=" + behind
}

// firstKey writes the only key of a table.
func (d *document) firstKey(b *block, line string) {
	if b.table != d.root {
		d.put(b.to, b.to, d.eol()+d.indent(b.from)+line)
		return
	}
	if len(d.blocks) > 1 {
		at := d.region(1, 1).from
		d.put(at, at, line+d.eol()+d.eol())
		return
	}
	d.atEnd(line)
}

// atEnd writes lines at the end of the file.
func (d *document) atEnd(lines string) {
	end := len(strings.TrimRight(string(d.src), " \t\r\n"))
	if end == 0 {
		d.put(len(d.src), len(d.src), lines+d.eol())
		return
	}
	d.put(end, end, d.eol()+d.eol()+lines)
}

// newTable writes a table of the file that is not there yet: behind the last one with a
// single header, else before those of lists.
func (d *document) newTable(name, line string) {
	lines := "[" + name + "]" + d.eol() + line
	last := 0
	for i, b := range d.blocks {
		if i > 0 && b.table.path[0] == b.table.path[len(b.table.path)-1] {
			last = i
		}
	}
	switch {
	case last > 0:
		at := d.region(last, last).to
		d.put(at, at, d.eol()+d.eol()+lines)
	case len(d.blocks) > 1:
		at := d.region(1, 1).from
		d.put(at, at, lines+d.eol()+d.eol())
	default:
		d.atEnd(lines)
	}
}

// headerFor gives a table a header which has none, before that of the first table in it.
func (d *document) headerFor(table *node, line string) {
	first := slices.IndexFunc(d.blocks, func(b *block) bool { return under(b, table) })
	at := d.region(first, first).from
	indent := d.indent(d.blocks[first].from)
	d.put(at, at, indent+"["+spellKeys(table.path)+"]"+d.eol()+indent+line+d.eol()+d.eol())
}

// spellKeys writes the keys of a path as a header has them.
func spellKeys(at Path) string {
	var keys []string
	for _, s := range at {
		if !s.OfList {
			keys = append(keys, spellKey(s.Key))
		}
	}
	return strings.Join(keys, ".")
}

// addDotted writes a key of a table behind the last one that names the table by dots.
func (d *document) addDotted(table *node, key, value string) {
	last := table.last
	before := string(d.src[last.start:last.keys[table.depth-1].end]) + "."
	if table.home.kind == braces {
		d.addTo(table.home, before+key+" = "+value)
		return
	}
	d.addLine([]*entry{last}, before+key, value)
}
