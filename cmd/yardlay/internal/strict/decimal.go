package strict

import (
	"fmt"
	"strconv"
	"strings"

	"yardlay/cost"
)

// Decimal reads an exact number that is not negative, written as a number or as
// text: 22.5. A TOML number comes back digit for digit: its shortest decimal form
// is what was written.
func (t *Table) Decimal(key, example string) (cost.Decimal, bool) {
	f := t.Field(key)
	if f == nil {
		return 0, false
	}
	text := f.Value.Text
	switch f.Value.Kind {
	case KindNumber:
		text = strconv.FormatFloat(f.Value.Number, 'f', -1, 64)
	case KindText:
	default:
		t.Wrong(key, f.Value, "a number", example)
		return 0, false
	}
	return t.Positive(key, text, "for example "+key+" = "+example, f.Value.At)
}

// Positive reads the text of an exact number that is not negative.
func (t *Table) Positive(key, text, hint string, at Position) (cost.Decimal, bool) {
	d, err := cost.ParseDecimal(text)
	return t.notNegative(key, d, err, hint, at)
}

// notNegative refuses an exact number that could not be read or is below 0.
func (t *Table) notNegative(key string, d cost.Decimal, err error, hint string, at Position) (cost.Decimal, bool) {
	switch {
	case err != nil:
		t.Fail(at, hint, "`%s`: %v", key, err)
	case d < 0:
		t.Fail(at, hint, "`%s` cannot be %v: it is negative", key, d)
	default:
		return d, true
	}
	return 0, false
}

// Share reads a percentage that is not negative and is written with its mark: "15 %".
func (t *Table) Share(key, example string) (cost.Decimal, bool) {
	f := t.Field(key)
	if f == nil {
		return 0, false
	}
	hint := fmt.Sprintf("write it with its mark, in quotes: %s = %q", key, example)
	if f.Value.Kind != KindText || !strings.HasSuffix(strings.TrimSpace(f.Value.Text), "%") {
		t.Fail(f.Value.At, hint, "`%s` must be text such as %q: a percentage with its mark", key, example)
		return 0, false
	}
	d, err := cost.ParsePercent(f.Value.Text)
	return t.notNegative(key, d, err, hint, f.Value.At)
}

// Only returns which of some keys the file gives, and refuses a second one.
func (t *Table) Only(keys ...string) string {
	first := ""
	for _, key := range keys {
		switch {
		case !t.Has(key):
		case first == "":
			first = key
		default:
			t.Fail(t.Field(key).At, "give one of them", "%s has both `%s` and `%s`", t.Name, first, key)
		}
	}
	return first
}
