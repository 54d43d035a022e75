package edit

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// Path leads from the file to a value: part[2].lining.cloth. The empty path is the file.
type Path []Step

// Step is a key of a table, or an item of a list.
type Step struct {
	Key    string
	Index  int
	OfList bool // it is an item, by its index
}

// Key returns the path to a key of the table at p.
func (p Path) Key(name string) Path { return p.with(Step{Key: name}) }

// Item returns the path to an item of the list at p; items count from 0.
func (p Path) Item(index int) Path { return p.with(Step{Index: index, OfList: true}) }

// with never shares its steps with another path.
func (p Path) with(s Step) Path { return append(p[:len(p):len(p)], s) }

// Of returns the path to a key of the file, with further keys within it.
func Of(keys ...string) (p Path) {
	for _, key := range keys {
		p = p.Key(key)
	}
	return p
}

// String writes a path as ParsePath reads it.
func (p Path) String() string {
	var b strings.Builder
	for i, s := range p {
		switch {
		case s.OfList:
			fmt.Fprintf(&b, "[%d]", s.Index)
		case i > 0:
			b.WriteString("." + spellKey(s.Key))
		default:
			b.WriteString(spellKey(s.Key))
		}
	}
	return b.String()
}

// ParsePath reads a path: keys as in TOML, indexes in brackets.
func ParsePath(text string) (Path, error) {
	var p Path
	for rest := text; rest != ""; {
		if end := strings.IndexByte(rest, ']'); rest[0] == '[' && end > 0 && p != nil {
			index, err := strconv.Atoi(rest[1:end])
			if err != nil || index < 0 || rest[1:end] != strconv.Itoa(index) {
				return nil, fmt.Errorf("%q is no index of a path", rest[1:end])
			}
			p, rest = p.Item(index), rest[end+1:]
			continue
		}
		if p != nil {
			var dotted bool
			if rest, dotted = strings.CutPrefix(rest, "."); !dotted {
				return nil, fmt.Errorf("%q is no path", text)
			}
		}
		key, length, ok := firstKey(rest)
		if !ok {
			return nil, fmt.Errorf("%q is no path", text)
		}
		p, rest = p.Key(key), rest[length:]
	}
	return p, nil
}

// firstKey reads the key that a text begins with, and how long it is written.
func firstKey(text string) (key string, length int, ok bool) {
	length = len(text)
	if quote := text + " "; quote[0] == '"' || quote[0] == '\'' {
		for length = 1; length < len(text) && text[length] != text[0]; length++ {
			if text[length] == '\\' && text[0] == '"' {
				length++
			}
		}
		length = min(length+1, len(text))
	} else if end := strings.IndexAny(text, ".["); end >= 0 {
		length = end
	}
	var p unstable.Parser
	p.Reset([]byte(text[:length] + "=0"))
	if !p.NextExpression() {
		return "", 0, false
	}
	keys := p.Expression().Key()
	if !keys.Next() || !keys.IsLast() || int(keys.Node().Raw.Length) != length {
		return "", 0, false
	}
	return string(keys.Node().Data), length, true
}
