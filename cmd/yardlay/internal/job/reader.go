package job

import (
	"fmt"
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"yardlay/shapes/measure"
)

// reader collects everything that is wrong with one file.
type reader struct {
	file   string
	unit   measure.Unit // what a bare number means
	money  string       // currency of all amounts
	errors Errors
	seen   map[said]bool
	unsaid []string // ids of cloths that were refused: what names them is no further mistake
	noRate bool     // the rates file cannot be read: what it might say is not missed
	untold int      // errors beyond mostErrors

	outlinedBytes int64 // of files of outlines, so far
}

// said is an error as it is told once, however many bodies it is found for.
type said struct {
	at   Position
	what string
}

// full says that more errors would not be told.
func (r *reader) full() bool { return len(r.errors) >= mostErrors }

// told returns the errors in the order of the file, and at the end how many more
// there are.
func (r *reader) told() Errors {
	r.errors.Sort()
	if r.untold > 0 {
		last := r.errors[len(r.errors)-1]
		r.errors = append(r.errors, &Error{File: last.File, At: last.At, What: "and more is wrong than these " + strconv.Itoa(mostErrors),
			Hint: "mend these first"})
	}
	return r.errors
}

// mostErrors is how many errors are told at once: more than anybody mends before
// trying again.
const mostErrors = 100

func (r *reader) fail(at Position, hint, what string, args ...any) {
	one := said{at, fmt.Sprintf(what, args...)}
	switch {
	case r.seen[one]:
		return
	case r.full():
		r.untold++
		return
	case r.seen == nil:
		r.seen = map[said]bool{}
	}
	r.seen[one] = true
	r.errors = append(r.errors, &Error{File: r.file, At: at, What: one.what, Hint: hint})
}

// table reads the fields of one table of the file and remembers which keys it
// was asked for, so that finish can name the rest.
type table struct {
	*reader
	node *node
	name string // how messages call it: "cloth `satin`", "[body]"
	asks []string
}

func (r *reader) table(n *node, name string) *table { return &table{reader: r, node: n, name: name} }

// field returns the value of a key, or nil when the file does not give it.
func (t *table) field(key string) *field {
	if !slices.Contains(t.asks, key) {
		t.asks = append(t.asks, key)
	}
	return t.node.fields[key]
}

// finish reports every key that nobody asked for.
func (t *table) finish() {
	for _, key := range t.node.order {
		if t.full() {
			t.untold++
			return
		}
		if !slices.Contains(t.asks, key) {
			t.fail(t.node.fields[key].at, oneOf(key, t.asks), "%s has no key `%s`", t.name, key)
		}
	}
}

// need reports that a key is missing, at the head of the table.
func (t *table) need(key, hint string) {
	t.fail(t.node.at, hint, "%s lacks `%s`", t.name, key)
}

// wrong reports a value of another kind than the key takes.
func (t *table) wrong(key string, value *node, want, example string) {
	t.fail(value.at, "for example "+key+" = "+example, "`%s` must be %s, not %s", key, want, value.kind)
}

// text reads a text that is not empty; ok is false when it is missing or wrong.
func (t *table) text(key, example string) (text string, at Position, ok bool) {
	f := t.field(key)
	if f == nil {
		return "", Position{}, false
	}
	if f.value.kind != kindText {
		t.wrong(key, f.value, "text in quotes", example)
		return "", f.value.at, false
	}
	if strings.TrimSpace(f.value.text) == "" {
		t.fail(f.value.at, "for example "+key+" = "+example, "`%s` is empty", key)
		return "", f.value.at, false
	}
	return f.value.text, f.value.at, true
}

// has says whether the file gives the key at all, right or wrong.
func (t *table) has(key string) bool { return t.field(key) != nil }

// choice reads one of the allowed words; the first is the default.
func (t *table) choice(key string, allowed ...string) string {
	word, at, ok := t.text(key, strconv.Quote(allowed[0]))
	if !ok {
		return allowed[0]
	}
	if !slices.Contains(allowed, word) {
		t.fail(at, oneOf(word, allowed), "`%s` cannot be %q", key, word)
		return allowed[0]
	}
	return word
}

// truth reads true or false.
func (t *table) truth(key string, otherwise bool) bool {
	f := t.field(key)
	if f == nil {
		return otherwise
	}
	if f.value.kind != kindBool {
		t.wrong(key, f.value, "true or false", strconv.FormatBool(!otherwise))
		return otherwise
	}
	return f.value.truth
}

// count reads a whole number between least and most.
func (t *table) count(key string, otherwise, least, most int) int {
	f := t.field(key)
	if f == nil {
		return otherwise
	}
	example := strconv.Itoa(max(otherwise, least))
	switch v := f.value; {
	case v.kind != kindNumber:
		t.wrong(key, v, "a whole number", example)
	case !v.integer:
		t.fail(v.at, "for example "+key+" = "+example, "`%s` must be a whole number", key)
	case v.number < float64(least) || v.number > float64(most):
		t.fail(v.at, fmt.Sprintf("from %d to %d", least, most), "`%s` cannot be %.0f", key, v.number)
	default:
		return int(v.number)
	}
	return max(otherwise, least)
}

// sign says which lengths a key takes.
type sign func(text string, bare measure.Unit) (float64, error)

// length reads a length in mm: text with or without a unit, or a number in the
// job's unit.
func (t *table) length(key string, read sign) (mm float64, ok bool) {
	f := t.field(key)
	if f == nil {
		return 0, false
	}
	return t.lengthOf(key, f.value, read)
}

func (t *table) lengthOf(key string, v *node, read sign) (mm float64, ok bool) {
	text := v.text
	switch v.kind {
	case kindNumber:
		text = strconv.FormatFloat(v.number, 'g', -1, 64)
	case kindText:
	default:
		t.wrong(key, v, "a length", `"27 1/2"`)
		return 0, false
	}
	mm, err := read(text, t.unit)
	if err != nil {
		t.fail(v.at, fmt.Sprintf("a length reads like 35, %q, %q or %q; a bare number takes the job's unit, %s",
			"35 1/2", "90 cm", "2 3/8 yd", t.unit), "`%s`: %v", key, err)
		return 0, false
	}
	return mm, true
}

// lengthOr reads a length that has a default.
func (t *table) lengthOr(key string, otherwise float64, read sign) float64 {
	if mm, ok := t.length(key, read); ok {
		return mm
	}
	return otherwise
}

// mustLength reads a length that has to be given and is positive.
func (t *table) mustLength(key, example string) float64 {
	if !t.has(key) {
		t.need(key, fmt.Sprintf("for example %s = %q", key, example))
	}
	mm, _ := t.length(key, measure.ParsePositive)
	return mm
}

// ratio reads a plain number: 2.5, "2 1/2", "3/8". It lies between least and
// most; ok is false when it is missing or wrong.
func (t *table) ratio(key string, least, most float64) (value float64, ok bool) {
	f := t.field(key)
	if f == nil {
		return 0, false
	}
	return t.ratioOf(key, f.value, least, most)
}

func (t *table) ratioOf(key string, v *node, least, most float64) (value float64, ok bool) {
	switch v.kind {
	case kindNumber:
		value = v.number
	case kindText:
		if value, ok = fraction(v.text); !ok {
			t.fail(v.at, "a number or a fraction, for example 2.5 or \"2 1/2\"", "`%s`: cannot read %q", key, v.text)
			return 0, false
		}
	default:
		t.wrong(key, v, "a number", "2.5")
		return 0, false
	}
	if math.IsNaN(value) || value < least || value > most {
		t.fail(v.at, fmt.Sprintf("from %g to %g", least, most), "`%s` cannot be %g", key, value)
		return 0, false
	}
	return value, true
}

// fraction reads "3/8", "1 1/4" or "2.5".
func fraction(text string) (float64, bool) {
	sum := new(big.Rat)
	parts := strings.Fields(text)
	if len(parts) == 0 || len(parts) > 2 || len(text) > 24 || strings.ContainsAny(text, "eEpPxX_-+") {
		return 0, false
	}
	if len(parts) == 2 && (strings.Contains(parts[0], "/") || !strings.Contains(parts[1], "/")) {
		return 0, false
	}
	for _, part := range parts {
		r, ok := new(big.Rat).SetString(part)
		if !ok {
			return 0, false
		}
		sum.Add(sum, r)
	}
	value, _ := sum.Float64()
	return value, true
}

// sub reads a table within this one; nil when it is missing or no table.
func (t *table) sub(key, name, example string) *table {
	f := t.field(key)
	if f == nil {
		return nil
	}
	if f.value.kind != kindTable {
		t.wrong(key, f.value, "a table", example)
		return nil
	}
	return t.table(f.value, name)
}

// list reads the [[key]] tables, and refuses more of them than most.
func (t *table) list(key string, most int, hint string) []*node {
	f := t.field(key)
	if f == nil {
		return nil
	}
	v := f.value
	if v.kind != kindList {
		t.fail(f.at, fmt.Sprintf("start each with its own line [[%s]]", key), "`%s` must be written as [[%s]]", key, key)
		return nil
	}
	items := v.items
	if len(items) > most {
		t.fail(f.at, hint, "%d tables [[%s]], a job takes at most %d", len(items), key, most)
		items = items[:most]
	}
	var tables []*node
	for _, item := range items {
		if item.kind != kindTable {
			t.fail(item.at, fmt.Sprintf("start each with its own line [[%s]]", key), "`%s` must be tables, not %s", key, item.kind)
			continue
		}
		tables = append(tables, item)
	}
	return tables
}
