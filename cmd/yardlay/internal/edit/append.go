package edit

import (
	"bytes"
	"strings"

	"yardlay/shapes/say"
)

// append adds an item to a list.
func (d *document) append(at Path, item Item) error {
	n, steps := d.find(at)
	if steps < len(at) {
		return d.begin(n, at, steps, item)
	}
	if n.kind == tableList || n.kind == headed && len(at) == 1 {
		if !item.Table {
			return say.Errorf("%w: %s lists tables", ErrNoPlace, at)
		}
		return d.appendHeader(n, item.Fields)
	}
	text, err := d.spellItem(item)
	switch {
	case err != nil:
		return err
	case n.kind == list:
		d.addTo(n, text)
	case n.kind == plain || n.kind == braces: // one alone becomes the first of a list
		d.put(n.start, n.start, "[")
		d.put(n.end, n.end, ", "+text+"]")
	default:
		return say.Errorf("%w: %s is no list", ErrNoPlace, at)
	}
	return nil
}

func (d *document) spellItem(item Item) (string, error) {
	if item.Table {
		return spellFields(item.Fields, d.quote())
	}
	return item.Value.spell("", d.quote())
}

// begin makes a list with its first item.
func (d *document) begin(n *node, at Path, steps int, item Item) error {
	if n == d.root && item.Table && len(at) == 1 {
		lines, err := d.headerLines(at, item.Fields, "", false)
		if err != nil {
			return err
		}
		d.atEnd(lines)
		return nil
	}
	if item.Table && item.Headed && n.kind == headed && n.block != nil && steps == len(at)-1 {
		regions := d.regions(n)
		end := regions[len(regions)-1].to
		lines, err := d.headerLines(at, item.Fields, d.indent(n.block.from), false)
		if err != nil {
			return err
		}
		d.put(end, end, d.eol()+lines)
		return nil
	}
	text, err := d.spellItem(item)
	if err != nil {
		return err
	}
	return d.insert(n, at, steps, "["+text+"]")
}

// appendHeader writes a table with a header behind the last of its like. Of a single
// table a list is made.
func (d *document) appendHeader(n *node, fields []Field) error {
	last := n
	if n.kind == tableList {
		last = n.items[len(n.items)-1]
	} else {
		line := d.src[n.block.from:n.block.to]
		open := n.block.from + bytes.IndexByte(line, '[')
		closed := n.block.keysEnd + bytes.IndexByte(d.src[n.block.keysEnd:n.block.to], ']')
		d.put(open, open, "[")
		d.put(closed, closed, "]")
	}
	regions := d.regions(last)
	end := regions[len(regions)-1].to
	from := last.block.from
	padded := false
	for _, e := range last.block.entries {
		padded = padded || strings.HasPrefix(string(d.src[e.keys[len(e.keys)-1].end:]), "  ")
	}
	lines, err := d.headerLines(n.path, fields, d.indent(from), padded)
	if err != nil {
		return err
	}
	gap := d.eol()
	if above := regions[0].from; above == 0 || d.blank(d.lineStart(above-1)) {
		gap += d.eol()
	}
	d.put(end, end, gap+lines)
	return nil
}

// headerLines are those of a new table in a list.
func (d *document) headerLines(at Path, fields []Field, indent string, padded bool) (string, error) {
	lines := []string{indent + "[[" + spellKeys(at) + "]]"}
	longest := 0
	for _, f := range fields {
		longest = max(longest, len(spellKey(f.Key)))
	}
	for _, f := range fields {
		value, err := f.Value.spell("", d.quote())
		if err != nil {
			return "", say.Errorf("%s: %w", f.Key, err)
		}
		key := spellKey(f.Key)
		if padded {
			key += strings.Repeat(" ", longest-len(key))
		}
		lines = append(lines, indent+key+" = "+value)
	}
	return strings.Join(lines, d.eol()), nil
}
