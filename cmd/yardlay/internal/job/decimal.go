package job

import (
	"fmt"
	"strconv"
	"strings"

	"yardlay/cost"
)

// decimal reads an exact number that is not negative, written as a number or as
// text: 22.5. A TOML number comes back digit for digit: its shortest decimal form
// is what was written.
func (t *table) decimal(key, example string) (cost.Decimal, bool) {
	f := t.field(key)
	if f == nil {
		return 0, false
	}
	text := f.value.text
	switch f.value.kind {
	case kindNumber:
		text = strconv.FormatFloat(f.value.number, 'f', -1, 64)
	case kindText:
	default:
		t.wrong(key, f.value, "a number", example)
		return 0, false
	}
	return t.positive(key, text, "for example "+key+" = "+example, f.value.at)
}

// positive reads the text of an exact number that is not negative.
func (t *table) positive(key, text, hint string, at Position) (cost.Decimal, bool) {
	d, err := cost.ParseDecimal(text)
	return t.notNegative(key, d, err, hint, at)
}

// notNegative refuses an exact number that could not be read or is below 0.
func (t *table) notNegative(key string, d cost.Decimal, err error, hint string, at Position) (cost.Decimal, bool) {
	switch {
	case err != nil:
		t.fail(at, hint, "`%s`: %v", key, err)
	case d < 0:
		t.fail(at, hint, "`%s` cannot be %v: it is negative", key, d)
	default:
		return d, true
	}
	return 0, false
}

// share reads a percentage that is not negative and is written with its mark: "15 %".
func (t *table) share(key, example string) (cost.Decimal, bool) {
	f := t.field(key)
	if f == nil {
		return 0, false
	}
	hint := fmt.Sprintf("write it with its mark, in quotes: %s = %q", key, example)
	if f.value.kind != kindText || !strings.HasSuffix(strings.TrimSpace(f.value.text), "%") {
		t.fail(f.value.at, hint, "`%s` must be text such as %q: a percentage with its mark", key, example)
		return 0, false
	}
	d, err := cost.ParsePercent(f.value.text)
	return t.notNegative(key, d, err, hint, f.value.at)
}

// only returns which of some keys the file gives, and refuses a second one.
func (t *table) only(keys ...string) string {
	first := ""
	for _, key := range keys {
		switch {
		case !t.has(key):
		case first == "":
			first = key
		default:
			t.fail(t.field(key).at, "give one of them", "%s has both `%s` and `%s`", t.name, first, key)
		}
	}
	return first
}
