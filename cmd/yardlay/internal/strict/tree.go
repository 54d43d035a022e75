package strict

import (
	"bytes"
	"errors"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"yardlay/shapes/measure"
)

// Kind is what a value in the file is; its text completes "expected ..., not".
type Kind string

// The kinds of values.
const (
	KindText   Kind = "text"
	KindNumber Kind = "a number"
	KindBool   Kind = "true or false"
	KindDate   Kind = "a date"
	KindTime   Kind = "a time"
	KindList   Kind = "a list"
	KindTable  Kind = "a table"
)

// Value is one value of the file with its place.
type Value struct {
	Kind    Kind
	At      Position
	Text    string            // of a text; of a date as it is written, 2026-11-29
	Number  float64           // of a number
	Integer bool              // the number was written without a fraction or exponent
	Unit    *measure.Unit     // what it counts in as a bare length; nil: what the file does
	Truth   bool              // of true or false
	Items   []*Value          // of a list
	Headers bool              // the list was written as [[name]] tables
	Fields  map[string]*Field // of a table
	Order   []string          // the keys of Fields as they stand in the file
}

// Field is a key of a table with its value.
type Field struct {
	At    Position // of the key
	Value *Value
}

// NewTable returns a table without keys.
func NewTable(at Position) *Value {
	return &Value{Kind: KindTable, At: at, Fields: map[string]*Field{}}
}

// Set gives a key of a table a value, in place of one that it has.
func (n *Value) Set(key string, at Position, value *Value) {
	if _, ok := n.Fields[key]; !ok {
		n.Order = append(n.Order, key)
	}
	n.Fields[key] = &Field{at, value}
}

// Parse reads TOML into a tree that knows where everything stands. The
// library's decoder judges the document first (syntax, keys given twice), so
// that the walk may rely on it.
func (f Format) Parse(src []byte) (*Value, *Error) {
	src = bytes.TrimPrefix(src, []byte("\ufeff")) // some editors write this mark first
	w := walker{Format: f, src: src, lines: lineStarts(src)}
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
	root := NewTable(Position{Line: 1, Column: 1})
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
	Format
	src    []byte
	lines  []int
	parser unstable.Parser

	// The last place looked up: the next one mostly lies behind it in the same
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
	w.told, w.offset = Position{Line: line, Column: column + utf8.RuneCount(w.src[from:offset])}, offset
	return w.told
}

func (w *walker) at(n *unstable.Node) Position { return w.place(int(n.Raw.Offset)) }

// syntaxError places what the TOML library found.
func (w *walker) syntaxError(err error) *Error {
	at := Position{Line: 1, Column: 1}
	var decode *toml.DecodeError
	if errors.As(err, &decode) {
		line, column := decode.Position() // the column counts bytes
		at = w.place(min(w.lines[line-1]+column-1, len(w.src)))
	}
	what := strings.TrimPrefix(err.Error(), "toml: ")
	hint := w.SyntaxHint
	if strings.Contains(what, "already") {
		hint = w.TwiceHint
	}
	return &Error{At: at, What: "not TOML: " + what, Hint: hint}
}

// header returns the table that a [a.b] or [[a.b]] line opens.
func (w *walker) header(root *Value, e *unstable.Node) *Value {
	table := root
	for keys := e.Key(); keys.Next(); {
		key, at := string(keys.Node().Data), w.at(keys.Node())
		if e.Kind == unstable.ArrayTable && keys.IsLast() {
			if table.Fields[key] == nil {
				table.Set(key, at, &Value{Kind: KindList, At: at, Headers: true})
			}
			list := table.Fields[key].Value
			list.Items = append(list.Items, NewTable(at))
		}
		table = descend(table, key, at)
	}
	return table
}

// descend steps into table[key]: a table, made when missing, or the last
// table of a list of tables.
func descend(table *Value, key string, at Position) *Value {
	if table.Fields[key] == nil {
		table.Set(key, at, NewTable(at))
	}
	value := table.Fields[key].Value
	if value.Kind == KindList && len(value.Items) > 0 {
		value = value.Items[len(value.Items)-1]
	}
	return value
}

// keyValue sets a key, dotted or not, in table.
func (w *walker) keyValue(table *Value, e *unstable.Node) {
	for keys := e.Key(); keys.Next(); {
		key, at := string(keys.Node().Data), w.at(keys.Node())
		if !keys.IsLast() {
			table = descend(table, key, at)
			continue
		}
		table.Set(key, at, w.value(e.Value(), at))
	}
}

// value reads a value; keyAt places a list, which has no place of its own.
func (w *walker) value(v *unstable.Node, keyAt Position) *Value {
	n := &Value{At: keyAt}
	if v.Raw.Length > 0 {
		n.At = w.at(v)
	}
	switch v.Kind {
	case unstable.String:
		n.Kind, n.Text = KindText, string(v.Data)
	case unstable.Integer:
		i, _ := strconv.ParseInt(string(v.Data), 0, 64) // judged before
		n.Kind, n.Number, n.Integer = KindNumber, float64(i), true
	case unstable.Float:
		n.Kind = KindNumber
		text := strings.ReplaceAll(string(v.Data), "_", "")
		if strings.HasSuffix(text, "nan") {
			text = "nan" // Go knows no sign of it
		}
		n.Number, _ = strconv.ParseFloat(text, 64)
	case unstable.Bool:
		n.Kind, n.Truth = KindBool, string(v.Data) == "true"
	case unstable.Array:
		n.Kind = KindList
		for items := v.Children(); items.Next(); {
			n.Items = append(n.Items, w.value(items.Node(), n.At))
		}
	case unstable.InlineTable:
		n = NewTable(n.At)
		for fields := v.Children(); fields.Next(); {
			w.keyValue(n, fields.Node())
		}
	case unstable.LocalDate:
		n.Kind, n.Text = KindDate, string(v.Data)
	default:
		n.Kind = KindTime
	}
	return n
}

// TextOf returns the text of a key, "" when it is none.
func (n *Value) TextOf(key string) string {
	if f := n.Fields[key]; f != nil && f.Value.Kind == KindText {
		return f.Value.Text
	}
	return ""
}

// Clone returns a value of its own that may be changed.
func (n *Value) Clone() *Value {
	c := *n
	c.Items, c.Order = slices.Clone(n.Items), slices.Clone(n.Order)
	for i, item := range c.Items {
		c.Items[i] = item.Clone()
	}
	if n.Fields != nil {
		c.Fields = make(map[string]*Field, len(n.Fields))
		for key, f := range n.Fields {
			c.Fields[key] = &Field{f.At, f.Value.Clone()}
		}
	}
	return &c
}

// MoveTo gives a value and all in it one place.
func (n *Value) MoveTo(at Position) {
	n.At = at
	for _, item := range n.Items {
		item.MoveTo(at)
	}
	for _, f := range n.Fields {
		f.At = at
		f.Value.MoveTo(at)
	}
}

// From marks a value and all in it as written in another file, where bare lengths count
// in its own unit.
func (n *Value) From(file string, unit measure.Unit) {
	n.At.File, n.Unit = file, &unit
	for _, item := range n.Items {
		item.From(file, unit)
	}
	for _, f := range n.Fields {
		f.At.File = file
		f.Value.From(file, unit)
	}
}

// Typed is a plain value as it would be typed.
func (n *Value) Typed() string {
	switch n.Kind {
	case KindText, KindDate:
		return n.Text
	case KindNumber:
		return strconv.FormatFloat(n.Number, 'g', -1, 64)
	case KindBool:
		return strconv.FormatBool(n.Truth)
	}
	return ""
}

// Drop takes a key off a table.
func (n *Value) Drop(key string) {
	delete(n.Fields, key)
	n.Order = slices.DeleteFunc(n.Order, func(k string) bool { return k == key })
}
