package job

import (
	"errors"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

// kind is what a value in the file is; its text completes "expected ..., not".
type kind string

const (
	kindText   kind = "text"
	kindNumber kind = "a number"
	kindBool   kind = "true or false"
	kindDate   kind = "a date or time"
	kindList   kind = "a list"
	kindTable  kind = "a table"
)

// node is one value of the file with its place.
type node struct {
	kind    kind
	at      Position
	text    string  // text
	number  float64 // a number
	integer bool    // the number was written without a fraction or exponent
	truth   bool    // true or false
	items   []*node // a list
	headers bool    // the list was written as [[name]] tables
	fields  map[string]*field
	order   []string // the keys of fields as they stand in the file
}

// field is a key of a table with its value.
type field struct {
	at    Position // of the key
	value *node
}

func newTable(at Position) *node {
	return &node{kind: kindTable, at: at, fields: map[string]*field{}}
}

func (n *node) set(key string, at Position, value *node) {
	if _, ok := n.fields[key]; !ok {
		n.order = append(n.order, key)
	}
	n.fields[key] = &field{at, value}
}

// readTree reads TOML into a tree that knows where everything stands. The
// library's decoder judges the document first (syntax, keys given twice), so
// that the walk may rely on it.
func readTree(src []byte) (*node, *Error) {
	w := walker{src: src, lines: lineStarts(src)}
	if !utf8.Valid(src) {
		return nil, &Error{At: w.place(invalidAt(src)), What: "the file is not UTF-8 text",
			Hint: "save it as plain UTF-8"}
	}
	if bad := w.tooMuch(); bad != nil {
		return nil, bad
	}
	var judged map[string]any
	if err := toml.Unmarshal(src, &judged); err != nil {
		return nil, w.syntaxError(err)
	}
	w.parser.Reset(src)
	root := newTable(Position{1, 1})
	table := root
	for w.parser.NextExpression() {
		switch e := w.parser.Expression(); e.Kind {
		case unstable.KeyValue:
			w.keyValue(table, e)
		case unstable.Table, unstable.ArrayTable:
			table = w.header(root, e)
		}
	}
	if err := w.parser.Error(); err != nil {
		return nil, w.syntaxError(err)
	}
	return root, nil
}

// invalidAt returns the offset of the first byte that is not UTF-8.
func invalidAt(src []byte) int {
	for i := 0; i < len(src); {
		r, size := utf8.DecodeRune(src[i:])
		if r == utf8.RuneError && size == 1 {
			return i
		}
		i += size
	}
	return len(src)
}

// lineStarts returns the byte offset at which each line starts.
func lineStarts(src []byte) []int {
	starts := []int{0}
	for i, c := range src {
		if c == '\n' {
			starts = append(starts, i+1)
		}
	}
	return starts
}

type walker struct {
	src    []byte
	lines  []int
	parser unstable.Parser

	// The last place that was told: the next one mostly lies behind it in the same
	// line, which may be as long as the file.
	told   Position
	offset int
}

// place returns the line and column of a byte offset.
func (w *walker) place(offset int) Position {
	line, found := slices.BinarySearch(w.lines, offset)
	if found {
		line++
	}
	column, from := 1, w.lines[line-1]
	if line == w.told.Line && w.offset <= offset {
		column, from = w.told.Column, w.offset
	}
	w.told, w.offset = Position{line, column + utf8.RuneCount(w.src[from:offset])}, offset
	return w.told
}

func (w *walker) at(n *unstable.Node) Position { return w.place(int(n.Raw.Offset)) }

// syntaxError places what the TOML library found.
func (w *walker) syntaxError(err error) *Error {
	at := Position{1, 1}
	var decode *toml.DecodeError
	if errors.As(err, &decode) {
		line, column := decode.Position() // the column counts bytes
		at = w.place(min(w.lines[line-1]+column-1, len(w.src)))
	}
	what := strings.TrimPrefix(err.Error(), "toml: ")
	hint := "text stands in quotes, a key and its value on one line: length = \"41 1/2\""
	if strings.Contains(what, "already") {
		hint = "give each key once; a further cloth or part starts with its own [[cloth]] or [[part]] line"
	}
	return &Error{At: at, What: "not TOML: " + what, Hint: hint}
}

// header returns the table that a [a.b] or [[a.b]] line opens.
func (w *walker) header(root *node, e *unstable.Node) *node {
	table := root
	for keys := e.Key(); keys.Next(); {
		key, at := string(keys.Node().Data), w.at(keys.Node())
		if e.Kind == unstable.ArrayTable && keys.IsLast() {
			if table.fields[key] == nil {
				table.set(key, at, &node{kind: kindList, at: at, headers: true})
			}
			list := table.fields[key].value
			list.items = append(list.items, newTable(at))
		}
		table = descend(table, key, at)
	}
	return table
}

// descend steps into table[key]: a table, made when missing, or the last
// table of a list of tables.
func descend(table *node, key string, at Position) *node {
	if table.fields[key] == nil {
		table.set(key, at, newTable(at))
	}
	value := table.fields[key].value
	if value.kind == kindList && len(value.items) > 0 {
		value = value.items[len(value.items)-1]
	}
	return value
}

// keyValue sets a key, dotted or not, in table.
func (w *walker) keyValue(table *node, e *unstable.Node) {
	for keys := e.Key(); keys.Next(); {
		key, at := string(keys.Node().Data), w.at(keys.Node())
		if !keys.IsLast() {
			table = descend(table, key, at)
			continue
		}
		table.set(key, at, w.value(e.Value(), at))
	}
}

// value reads a value; keyAt places a list, which has no place of its own.
func (w *walker) value(v *unstable.Node, keyAt Position) *node {
	n := &node{at: keyAt}
	if v.Raw.Length > 0 {
		n.at = w.at(v)
	}
	switch v.Kind {
	case unstable.String:
		n.kind, n.text = kindText, string(v.Data)
	case unstable.Integer:
		i, _ := strconv.ParseInt(string(v.Data), 0, 64) // judged before
		n.kind, n.number, n.integer = kindNumber, float64(i), true
	case unstable.Float:
		n.kind = kindNumber
		n.number, _ = strconv.ParseFloat(strings.ReplaceAll(string(v.Data), "_", ""), 64)
	case unstable.Bool:
		n.kind, n.truth = kindBool, string(v.Data) == "true"
	case unstable.Array:
		n.kind = kindList
		for items := v.Children(); items.Next(); {
			n.items = append(n.items, w.value(items.Node(), n.at))
		}
	case unstable.InlineTable:
		n = newTable(n.at)
		for fields := v.Children(); fields.Next(); {
			w.keyValue(n, fields.Node())
		}
	default:
		n.kind = kindDate
	}
	return n
}
