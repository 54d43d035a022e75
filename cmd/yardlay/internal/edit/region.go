package edit

import (
	"slices"
	"strings"

	"yardlay/shapes/say"
)

// region is the lines of headers that follow each other, from the comment right above the
// first one on, without the last line end.
type region struct{ from, to int }

// region returns the lines of the blocks first to last.
func (d *document) region(first, last int) region {
	return region{d.commentAbove(first), d.contentEnd(last)}
}

// lastOf returns the end of the last line of a block that is no comment.
func (d *document) lastOf(i int) int {
	b := d.blocks[i]
	if len(b.entries) > 0 {
		return d.lineEnd(b.entries[len(b.entries)-1].end)
	}
	return b.to
}

// commentAbove returns where a header with the comment right above it begins. The comment
// that a file begins with is of the file.
func (d *document) commentAbove(i int) int {
	from, least := d.blocks[i].from, 0
	if end := d.lastOf(i - 1); end > 0 {
		least = d.nextLine(end)
	}
	at := from
	for at > least {
		above := d.lineStart(at - 1)
		if !d.isComment(above) {
			return at
		}
		at = above
	}
	if at == 0 {
		return from
	}
	return at
}

func (d *document) isComment(lineStart int) bool {
	return strings.HasPrefix(strings.TrimLeft(string(d.src[lineStart:d.lineEnd(lineStart)]), " \t"), "#")
}

// contentEnd returns where the lines of a block end, comments right below them taken in.
func (d *document) contentEnd(i int) int {
	end := d.lastOf(i)
	least := len(d.src)
	if i+1 < len(d.blocks) {
		least = d.commentAbove(i + 1)
	}
	for next := d.nextLine(end); next < least && next > end && d.isComment(next); next = d.nextLine(end) {
		end = d.lineEnd(next)
	}
	return end
}

// under says whether a block is of a table or of one within it.
func under(b *block, table *node) bool {
	return len(b.table.path) >= len(table.path) && slices.Equal(b.table.path[:len(table.path)], table.path)
}

// regions returns where a table with headers is written, and what is within it.
func (d *document) regions(table *node) (all []region) {
	for i := 1; i < len(d.blocks); i++ {
		first := i
		for i < len(d.blocks) && under(d.blocks[i], table) {
			i++
		}
		if i > first {
			all = append(all, d.region(first, i-1))
		}
	}
	return all
}

// cutRegion takes lines away, and the blank ones that would be too many then.
func (d *document) cutRegion(r region) {
	from, to := r.from, d.nextLine(r.to)
	if from == 0 || d.blank(d.lineStart(from-1)) {
		for to < len(d.src) && d.blank(to) {
			to = d.nextLine(to)
		}
	}
	for to == len(d.src) && from > 0 && d.blank(d.lineStart(from-1)) {
		from = d.lineStart(from - 1)
	}
	d.put(from, to, "")
}

// blank says that the line that begins at a place is empty.
func (d *document) blank(lineStart int) bool { return d.spaces(lineStart) == d.lineEnd(lineStart) }

// remove takes a key or an item away.
func (d *document) remove(at Path) error {
	n, steps := d.find(at)
	if steps < len(at) || len(at) == 0 {
		return say.Errorf("%w: %s", ErrNoPlace, at)
	}
	parent, _ := d.find(at[:len(at)-1])
	switch {
	case parent.kind == list:
		d.cutFrom(parent, at[len(at)-1].Index)
	case n.from == nil && n.kind != dotted:
		for _, r := range d.regions(n) {
			d.cutRegion(r)
		}
	case n.kind == dotted:
		return d.removeDotted(at)
	case parent.kind == braces || parent.kind == dotted && parent.home.kind == braces:
		home := parent
		if parent.kind == dotted {
			home = parent.home
		}
		d.cutFrom(home, slices.Index(home.seq, n.from))
	default:
		d.cutEntry(n.from)
	}
	return nil
}

// cutEntry takes a key away that has lines of its own. A comment behind it stays.
func (d *document) cutEntry(e *entry) {
	if rest := d.spaces(e.end); rest < d.lineEnd(e.end) {
		d.put(e.start, rest, "")
		return
	}
	d.cutLine(e.start, e.end)
}

// removeDotted takes all keys of a table away that only dotted keys name. Those in braces
// go one after the other, since each takes a comma with it.
func (d *document) removeDotted(at Path) error {
	for {
		n, steps := d.find(at)
		if steps < len(at) {
			return nil
		}
		if n.home.kind != braces {
			d.cutAll(n)
			return nil
		}
		next := n.path.Key(n.order[0])
		if err := d.remove(next); err != nil {
			return err
		}
		again, err := scan(d.written())
		if err != nil {
			return err
		}
		*d = *again
	}
}

// cutAll takes the lines of a table away, and those of what is within it.
func (d *document) cutAll(n *node) {
	for _, key := range n.order {
		switch one := n.fields[key]; {
		case one.from != nil:
			d.cutEntry(one.from)
		case one.kind == dotted:
			d.cutAll(one)
		default:
			for _, r := range d.regions(one) {
				d.cutRegion(r)
			}
		}
	}
}

// move takes an item to the place of another.
func (d *document) move(at Path, from, to int) error {
	n, steps := d.find(at)
	if steps < len(at) || from < 0 || to < 0 || max(from, to) >= len(n.items) {
		return say.Errorf("%w: %s has no items %d and %d", ErrNoPlace, at, from, to)
	}
	if from == to {
		return nil
	}
	slots, texts := make([]region, len(n.items)), make([]string, len(n.items))
	for i, item := range n.items {
		if n.kind == list {
			slots[i] = region{item.start, item.end}
			texts[i] = string(d.src[item.start:item.end])
			continue
		}
		parts := d.regions(item)
		slots[i] = parts[0]
		var written []string
		for _, r := range parts {
			written = append(written, string(d.src[r.from:r.to]))
		}
		texts[i] = strings.Join(written, d.eol())
		if i >= min(from, to) && i <= max(from, to) {
			for _, r := range parts[1:] {
				d.cutRegion(r)
			}
		}
	}
	moved := texts[from]
	order := slices.Insert(slices.Delete(slices.Clone(texts), from, from+1), to, moved)
	for i := min(from, to); i <= max(from, to); i++ {
		d.put(slots[i].from, slots[i].to, order[i])
	}
	return nil
}
