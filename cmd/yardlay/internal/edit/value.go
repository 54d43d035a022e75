package edit

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2/unstable"

	"yardlay/shapes/say"
)

// Value is what is written for a key.
type Value struct {
	text string
	how  spelling
}

type spelling int

const (
	quoted spelling = iota // text in quotes
	typed                  // text, or what stood there in bare letters already
	asIs                   // TOML
)

// Text is a text. It is put into the quotes that the file uses there.
func Text(text string) Value { return Value{text, quoted} }

// Quoted is a text as TOML writes it, in double quotes: a part of a value for TOML.
func Quoted(text string) string { return spellText(text, '"') }

// Typed is what somebody types over a value: it stays a number, or true or false, where
// it replaces one and reads as one, and is text otherwise.
func Typed(text string) Value { return Value{text, typed} }

// TOML is a value as it is written: a number, a list, a table in braces.
func TOML(text string) Value { return Value{text, asIs} }

// Item is what is added to a list.
type Item struct {
	Value  Value
	Table  bool // it is a table of these fields, not a value
	Fields []Field
	Headed bool // a list of tables that is missing is made by headers, where its table has one
}

// Field is a key of a new table.
type Field struct {
	Key   string
	Value Value
}

// spell writes a value. was is the text it replaces, "" for none; quote is what the file
// puts text in.
func (v Value) spell(was string, quote byte) (string, error) {
	text := strings.TrimSpace(v.text)
	switch {
	case !utf8.ValidString(v.text):
		return "", say.Errorf("%q is not UTF-8 text", v.text)
	case v.how == asIs:
		return text, oneValue(text)
	case v.how == typed && was != "" && bare(was) != 0 && bare(was) == bare(text):
		return text, nil
	}
	if was != "" && (was[0] == '"' || was[0] == '\'') {
		quote = was[0]
	}
	return spellText(v.text, quote), nil
}

// bare returns the kind of a value that is written without quotes and is no date; 0 for
// all else. Whole numbers and others are one kind.
func bare(text string) unstable.Kind {
	var p unstable.Parser
	p.Reset([]byte("v=" + text))
	if oneValue(text) != nil || !p.NextExpression() {
		return 0
	}
	switch k := p.Expression().Value().Kind; k {
	case unstable.Integer, unstable.Float:
		return unstable.Float
	case unstable.Bool:
		return k
	}
	return 0
}

// oneValue refuses what is not one value of TOML, a comment or a further line behind it.
func oneValue(text string) error {
	src := []byte("v=" + text)
	d, err := scan(src)
	if err != nil || len(d.blocks) > 1 || len(d.blocks[0].entries) != 1 || d.blocks[0].entries[0].end != len(src) {
		return say.Errorf("%q is not a value", text)
	}
	return nil
}

// spellText puts a text in quotes; in single ones where it can stand in them.
func spellText(text string, quote byte) string {
	plain := func(r rune) bool { return r != '\'' && (r >= ' ' || r == '\t') && r != 0x7f }
	if quote == '\'' && strings.IndexFunc(text, func(r rune) bool { return !plain(r) }) < 0 {
		return "'" + text + "'"
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// spellKey writes a key, in quotes where it has to be.
func spellKey(key string) string {
	bare := func(r rune) bool {
		return r == '-' || r == '_' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'
	}
	if key == "" || strings.IndexFunc(key, func(r rune) bool { return !bare(r) }) >= 0 {
		return spellText(key, '"')
	}
	return key
}

// spellFields writes the fields of a new table in braces.
func spellFields(fields []Field, quote byte) (string, error) {
	if len(fields) == 0 {
		return "{}", nil
	}
	parts := make([]string, len(fields))
	for i, f := range fields {
		value, err := f.Value.spell("", quote)
		if err != nil {
			return "", say.Errorf("%s: %w", strconv.Quote(f.Key), err)
		}
		parts[i] = spellKey(f.Key) + " = " + value
	}
	return "{ " + strings.Join(parts, ", ") + " }", nil
}

// IsValue says whether a text is one value of TOML, as TOML takes it.
func IsValue(text string) bool { return oneValue(text) == nil }
