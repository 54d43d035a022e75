// Package compare lays a job in several ways and sets the purchases side by
// side: other widths, naps, lays, or any other values of the job file.
package compare

import (
	"fmt"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/say"
)

// MostRows is the most rows of one comparison: some minutes of searching at
// quick effort.
const MostRows = 500

// Asked is what one --vary asks for: keys that change together, and the values
// they take, one choice after the other.
type Asked struct {
	Keys   []string
	Values [][]string // of each choice, a value for each key
}

// Ask reads KEY=V1,V2 or, for keys that change together, KEY+KEY=V1+W1,V2+W2.
// A comma, a plus or an equals sign within brackets or quotes belongs to its
// value. Choices given twice are taken once.
func Ask(text string) (Asked, error) {
	names, values, ok := cut(text, '=')
	if !ok {
		return Asked{}, say.Errorf("it has no =").Hint("name a key and its values, for example satin.width=45in,60in")
	}
	var a Asked
	for _, key := range split(names, '+') {
		if key == "" {
			return Asked{}, say.Errorf("there is no key before the =").
				Hint("name a key and its values, for example satin.width=45in,60in")
		}
		if slices.Contains(a.Keys, key) {
			return Asked{}, fmt.Errorf("`%s` is named twice", key)
		}
		a.Keys = append(a.Keys, key)
	}
	for _, choice := range split(values, ',') {
		together := []string{choice}
		if len(a.Keys) > 1 {
			together = split(choice, '+')
		}
		if len(together) != len(a.Keys) {
			return Asked{}, say.Errorf("%d keys change together and %q has %d of their values", len(a.Keys), choice,
				len(together)).
				Hint("one value for each key, joined by +: satin.width+satin.price=45in+9.80/yd,60in+14/yd")
		}
		if slices.Contains(together, "") {
			return Asked{}, say.Errorf("a value is empty").Hint("values are parted by commas: satin.width=45in,60in")
		}
		if !slices.ContainsFunc(a.Values, func(v []string) bool { return slices.Equal(v, together) }) {
			a.Values = append(a.Values, together)
		}
	}
	return a, nil
}

// Combine multiplies what is asked for: every choice of the first with every
// choice of the second and so on, the last running fastest.
func Combine(asked []Asked) ([][]job.Change, error) {
	seen := map[string]bool{}
	count := 1
	for _, a := range asked {
		for _, key := range a.Keys {
			if seen[key] {
				return nil, say.Errorf("`%s` is varied twice", key).Hint("give all its values at once: %s=V1,V2", key)
			}
			seen[key] = true
		}
		if count *= len(a.Values); count > MostRows {
			return nil, say.Errorf("the values multiply to more than %d rows", MostRows).
				Hint("vary fewer things at a time: what does best in one comparison can be written into the job " +
					"for the next")
		}
	}
	rows := [][]job.Change{nil}
	for _, a := range asked {
		var more [][]job.Change
		for _, row := range rows {
			for _, values := range a.Values {
				next := slices.Clone(row)
				for i, key := range a.Keys {
					next = append(next, job.Change{Key: key, Value: values[i]})
				}
				more = append(more, next)
			}
		}
		rows = more
	}
	return rows, nil
}

// cut parts a text at the first mark that is not within brackets or quotes. A quote
// begins where a value does: behind a number it stands for inches or feet.
func cut(text string, mark byte) (before, after string, found bool) {
	depth, quote, last := 0, byte(0), byte(0) // last but spaces
	for i := range len(text) {
		c := text[i]
		begins := last == 0 || strings.IndexByte("=,+[{", last) >= 0
		if c != ' ' && c != '\t' {
			last = c
		}
		switch {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case (c == '"' || c == '\'') && begins:
			quote = c
		case c == '[' || c == '{':
			depth++
		case c == ']' || c == '}':
			depth--
		case c == mark && depth <= 0:
			return strings.TrimSpace(text[:i]), strings.TrimSpace(text[i+1:]), true
		}
	}
	return strings.TrimSpace(text), "", false
}

// split parts a text at every such mark.
func split(text string, mark byte) []string {
	var parts []string
	for {
		part, rest, more := cut(text, mark)
		parts = append(parts, part)
		if !more {
			return parts
		}
		text = rest
	}
}

// Text writes a way as Ask reads it, as the only choice.
func Text(way []job.Change) string {
	var keys, values []string
	for _, c := range way {
		keys, values = append(keys, c.Key), append(values, c.Value)
	}
	return strings.Join(keys, "+") + "=" + strings.Join(values, "+")
}
