package edit

import (
	"bytes"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"yardlay/shapes/say"
)

// mark is what some editors write before all else.
var mark = []byte("\ufeff")

// document is a text with the place of all that it says.
type document struct {
	bom    []byte // the mark, where there is one
	src    []byte // without it
	root   *node
	blocks []*block // the lines before the first header, then one for each header
	splices
}

// block is a header with the keys below it.
type block struct {
	from, to int // the line of the header; both 0 of what stands before the first
	keysEnd  int // where its last key ends
	table    *node
	entries  []*entry
}

// entry is a key with its value, as it is written in one place.
type entry struct {
	keys       []keyPlace
	start, end int // from its first key to the end of its value
	value      *node
}

type keyPlace struct {
	name       string
	start, end int
}

// node is a value of the file.
type node struct {
	kind  kind
	path  Path
	start int // where a value is written: of plain ones and those in brackets or braces
	end   int

	block *block   // of a table with a header of its own
	seq   []*entry // what stands in braces, in order
	last  *entry   // of a table that dotted keys make: the last of them
	depth int      // and how many keys lead to it there
	home  *node    // and the table that these keys are written in
	from  *entry   // of the value of a key: where it is written
	items []*node  // of a list

	fields map[string]*node
	order  []string
}

type kind int

const (
	plain     kind = iota
	list           // in brackets
	braces         // a table in braces
	headed         // a table with a header of its own, the file among them
	implied        // a table that only the headers of others name
	dotted         // a table that only dotted keys name
	tableList      // written as [[name]]
)

func (k kind) isTable() bool { return k >= braces && k <= dotted }

// judge says whether a text is TOML, as a decoder has it.
func judge(src []byte) error {
	var judged map[string]any
	if err := toml.Unmarshal(bytes.TrimPrefix(src, mark), &judged); err != nil {
		return say.Errorf("%w: %w", ErrNotTOML, err)
	}
	return nil
}

// scan finds the places of a text that is TOML.
func scan(src []byte) (*document, error) {
	d := &document{src: bytes.TrimPrefix(src, mark)}
	d.bom = src[:len(src)-len(d.src)]
	if !utf8.Valid(d.src) {
		return nil, say.Errorf("%w: it is not UTF-8 text", ErrNotTOML)
	}
	if err := judge(d.src); err != nil {
		return nil, err
	}
	d.root = newTable(headed, nil)
	d.root.block = &block{table: d.root}
	d.blocks = []*block{d.root.block}
	var p unstable.Parser
	p.Reset(d.src)
	for p.NextExpression() {
		switch e := p.Expression(); e.Kind {
		case unstable.KeyValue:
			b := d.blocks[len(d.blocks)-1]
			b.entries = append(b.entries, d.entry(b.table, e))
		case unstable.Table, unstable.ArrayTable:
			d.header(e)
		}
	}
	if err := p.Error(); err != nil {
		return nil, say.Errorf("%w: %w", ErrNotTOML, err)
	}
	return d, nil
}

func newTable(k kind, at Path) *node { return &node{kind: k, path: at, fields: map[string]*node{}} }

// put gives a table a field.
func (n *node) put(key string, value *node) *node {
	n.fields[key] = value
	n.order = append(n.order, key)
	return value
}

// header notes a [name] or [[name]] line.
func (d *document) header(e *unstable.Node) {
	table := d.root
	var b *block
	for keys := e.Key(); keys.Next(); {
		key := string(keys.Node().Data)
		if b == nil {
			from := int(keys.Node().Raw.Offset)
			b = &block{from: d.lineStart(from), to: d.lineEnd(from)}
		}
		b.keysEnd = int(keys.Node().Raw.Offset + keys.Node().Raw.Length)
		next := table.fields[key]
		switch {
		case keys.IsLast() && e.Kind == unstable.ArrayTable:
			if next == nil {
				next = table.put(key, &node{kind: tableList, path: table.path.Key(key)})
			}
			item := newTable(headed, next.path.Item(len(next.items)))
			next.items = append(next.items, item)
			table = item
			continue
		case next == nil:
			next = table.put(key, newTable(implied, table.path.Key(key)))
		case next.kind == tableList:
			next = next.items[len(next.items)-1]
		}
		table = next
	}
	table.kind, table.block, b.table = headed, b, table
	d.blocks = append(d.blocks, b)
}

// entry notes a key and its value in a table.
func (d *document) entry(table *node, e *unstable.Node) *entry {
	one := &entry{start: int(e.Raw.Offset), end: int(e.Raw.Offset + e.Raw.Length)}
	home := table
	for keys := e.Key(); keys.Next(); {
		raw := keys.Node().Raw
		one.keys = append(one.keys, keyPlace{string(keys.Node().Data), int(raw.Offset), int(raw.Offset + raw.Length)})
		key := one.keys[len(one.keys)-1]
		if !keys.IsLast() {
			next := table.fields[key.name]
			if next == nil {
				next = table.put(key.name, newTable(dotted, table.path.Key(key.name)))
			}
			if next.kind == implied || next.kind == dotted {
				next.last, next.depth, next.home = one, len(one.keys), home
			}
			table = next
			continue
		}
		equals := d.skip(key.end)
		one.value = table.put(key.name, d.value(e.Value(), d.skip(equals+1), table.path.Key(key.name)))
		one.value.from = one
	}
	return one
}

// value notes a value that is written from start on.
func (d *document) value(v *unstable.Node, start int, at Path) *node {
	n := &node{path: at, start: start}
	switch v.Kind {
	case unstable.Array:
		n.kind, n.end = list, start+1
		for items := v.Children(); items.Next(); {
			item := d.value(items.Node(), d.skip(n.end), at.Item(len(n.items)))
			n.items, n.end = append(n.items, item), item.end
		}
		n.end = d.skip(n.end) + 1
	case unstable.InlineTable:
		n.kind, n.end, n.fields = braces, start+1, map[string]*node{}
		for fields := v.Children(); fields.Next(); {
			one := d.entry(n, fields.Node())
			n.seq, n.end = append(n.seq, one), one.end
		}
		n.end = d.skip(n.end) + 1
	default:
		n.end = int(v.Raw.Offset + v.Raw.Length)
	}
	return n
}

// skip returns where the next thing begins that is no space, comma, line end or comment.
func (d *document) skip(at int) int {
	for at < len(d.src) {
		switch d.src[at] {
		case ' ', '\t', '\n', '\r', ',':
			at++
		case '#':
			at = d.lineEnd(at)
		default:
			return at
		}
	}
	return at
}

// lineStart returns where the line of a place begins.
func (d *document) lineStart(at int) int { return bytes.LastIndexByte(d.src[:at], '\n') + 1 }

// lineEnd returns where the line of a place ends, its line end not taken in.
func (d *document) lineEnd(at int) int {
	end := len(d.src)
	if i := bytes.IndexByte(d.src[at:], '\n'); i >= 0 {
		end = at + i
	}
	if end > at && end < len(d.src) && d.src[end-1] == '\r' {
		end--
	}
	return end
}

// find returns the value at a path, and how many of its steps are there.
func (d *document) find(at Path) (n *node, steps int) {
	n = d.root
	for i, s := range at {
		var next *node
		switch {
		case s.OfList && s.Index < len(n.items):
			next = n.items[s.Index]
		case !s.OfList && n.kind.isTable():
			next = n.fields[s.Key]
		}
		if next == nil {
			return n, i
		}
		n = next
	}
	return n, len(at)
}
