package kept

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"unicode/utf8"

	"yardlay/cmd/yardlay/internal/strict"
)

// Limits of a file: more than the largest layout that is laid takes.
const (
	MaxFile   = 8 << 20
	maxDeep   = 8
	maxValues = 400_000
)

// value is a JSON value with its place.
type value struct {
	at     int // in the text, bytes
	what   kind
	text   string
	number float64
	truth  bool
	keys   []key
	list   []value
}

type kind string

const (
	isObject kind = "an object"
	isList   kind = "a list"
	isText   kind = "a text"
	isNumber kind = "a number"
	isTruth  kind = "true or false"
	isNull   kind = "null"
)

type key struct {
	at    int
	name  string
	value value
}

// parser reads JSON into values.
type parser struct {
	src    []byte
	d      *json.Decoder
	values int
}

// fault is what is wrong with a text as JSON.
type fault struct {
	at         int
	what, hint string
}

func (f *fault) Error() string { return f.what }

const whole = "take the file as it was written by --keep"

// parse reads a text that is one JSON value.
func parse(src []byte) (v value, err error) {
	if len(src) > MaxFile {
		return v, &fault{0, fmt.Sprintf("longer than %d MB, the most of a layout file", MaxFile>>20), whole}
	}
	if !utf8.Valid(src) {
		return v, &fault{firstInvalid(src), "not UTF-8 text", whole}
	}
	p := &parser{src: src, d: json.NewDecoder(bytes.NewReader(src))}
	p.d.UseNumber()
	if v, err = p.value(0); err != nil {
		return v, err
	}
	at := p.next()
	if _, err := p.d.Token(); !errors.Is(err, io.EOF) {
		return v, &fault{at, "more behind the end of the layout", whole}
	}
	return v, nil
}

func firstInvalid(src []byte) int {
	for i := 0; i < len(src); {
		r, n := utf8.DecodeRune(src[i:])
		if r == utf8.RuneError && n == 1 {
			return i
		}
		i += n
	}
	return len(src)
}

// next is where the next token begins.
func (p *parser) next() int { return p.behind(space + ",:") }

const space = " \t\r\n"

// behind is where the first byte that is none of these comes after all that is read.
func (p *parser) behind(these string) int {
	at := int(p.d.InputOffset())
	return len(p.src) - len(bytes.TrimLeft(p.src[at:], these))
}

// token reads one token.
func (p *parser) token() (at int, t json.Token, err error) {
	at = p.next()
	t, err = p.d.Token()
	var syntax *json.SyntaxError
	switch {
	case err == nil:
		return at, t, nil
	case errors.As(err, &syntax): // its own offset leaves out some of what was read
		return at, nil, &fault{p.behind(space), "not JSON from here on", whole}
	}
	return at, nil, &fault{len(p.src), "ends in the middle", whole}
}

func (p *parser) value(deep int) (v value, err error) {
	at, t, err := p.token()
	if err != nil {
		return v, err
	}
	v.at = at
	p.values++
	switch {
	case p.values > maxValues:
		return v, &fault{at, fmt.Sprintf("more than %d values", maxValues), "keep the layouts of fewer cloths in one file"}
	case deep > maxDeep:
		return v, &fault{at, fmt.Sprintf("more than %d lists and objects within each other", maxDeep), whole}
	}
	switch t := t.(type) {
	case json.Delim:
		if t == '{' {
			return p.object(v, deep)
		}
		return p.list(v, deep)
	case string:
		v.what, v.text = isText, t
	case bool:
		v.what, v.truth = isTruth, t
	case json.Number:
		v.what = isNumber
		if v.number, err = t.Float64(); err != nil || math.IsInf(v.number, 0) {
			return v, &fault{at, fmt.Sprintf("%.40s is too large a number", t), whole}
		}
	default:
		v.what = isNull
	}
	return v, nil
}

func (p *parser) object(v value, deep int) (value, error) {
	v.what = isObject
	seen := map[string]bool{}
	for p.d.More() {
		at, t, err := p.token()
		if err != nil {
			return v, err
		}
		k := key{at: at, name: t.(string)} // the decoder takes nothing else here
		if seen[k.name] {
			return v, &fault{at, fmt.Sprintf("%q is there twice", k.name), "leave one of the two out"}
		}
		seen[k.name] = true
		if k.value, err = p.value(deep + 1); err != nil {
			return v, err
		}
		v.keys = append(v.keys, k)
	}
	_, _, err := p.token()
	return v, err
}

func (p *parser) list(v value, deep int) (value, error) {
	v.what = isList
	for p.d.More() {
		one, err := p.value(deep + 1)
		if err != nil {
			return v, err
		}
		v.list = append(v.list, one)
	}
	_, _, err := p.token()
	return v, err
}

// position is the place of a byte of a text.
func position(src []byte, at int) strict.Position {
	before := src[:min(at, len(src))]
	line := bytes.LastIndexByte(before, '\n') + 1
	return strict.Position{Line: bytes.Count(before, []byte("\n")) + 1, Column: utf8.RuneCount(before[line:]) + 1}
}
