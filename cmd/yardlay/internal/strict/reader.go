package strict

import (
	"cmp"
	"fmt"
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Reader collects everything that is wrong with one file.
type Reader struct {
	File   string
	Unit   measure.Unit // what a bare number means
	Called string       // how messages call such a file: "job"
	Errors Errors

	seen   map[said]bool
	untold int // errors beyond MostErrors
}

// said is an error as it is told once, however many bodies it is found for.
type said struct {
	at   Position
	what string
}

// Full says that more errors would not be told.
func (r *Reader) Full() bool { return len(r.Errors) >= MostErrors }

// Told returns the errors in the order of the file, and at the end how many more
// there are.
func (r *Reader) Told() Errors {
	r.Errors.Sort()
	if r.untold > 0 {
		last := r.Errors[len(r.Errors)-1]
		r.Errors = append(r.Errors, &Error{
			File: last.File, At: last.At,
			What: "and more is wrong than these " + strconv.Itoa(MostErrors), Hint: "mend these first",
		})
	}
	return r.Errors
}

// MostErrors is how many errors are told at once: more than anybody mends before
// trying again.
const MostErrors = 100

// Fail notes what is wrong at a place, once, with what would mend it; the hint may be
// empty. Lengths (say.MM) are said in the unit of the file.
func (r *Reader) Fail(at Position, hint, what string, args ...any) {
	one := said{at, say.Textf(what, args...).In(Show(r.Unit))}
	switch {
	case r.seen[one]:
		return
	case r.Full():
		r.untold++
		return
	case r.seen == nil:
		r.seen = map[said]bool{}
	}
	r.seen[one] = true
	r.Errors = append(r.Errors, &Error{File: cmp.Or(at.File, r.File), At: at, What: one.what, Hint: hint})
}

// Table reads the fields of one table of the file and remembers which keys it
// was asked for, so that Finish can name the rest.
type Table struct {
	*Reader
	Value *Value
	Name  string   // how messages call it: "cloth `satin`", "[body]"
	Asked []string // the keys asked for so far
}

// Table reads a value that is a table.
func (r *Reader) Table(n *Value, name string) *Table { return &Table{Reader: r, Value: n, Name: name} }

// Field returns the value of a key, or nil when the file does not give it.
func (t *Table) Field(key string) *Field {
	if !slices.Contains(t.Asked, key) {
		t.Asked = append(t.Asked, key)
	}
	return t.Value.Fields[key]
}

// Finish reports every key that nobody asked for.
func (t *Table) Finish() {
	for _, key := range t.Value.Order {
		if t.Full() {
			t.untold++
			return
		}
		if !slices.Contains(t.Asked, key) {
			t.Fail(t.Value.Fields[key].At, OneOf(key, t.Asked), "%s has no key `%s`", t.Name, key)
		}
	}
}

// Need reports that a key is missing, at the head of the table.
func (t *Table) Need(key, hint string) {
	told := len(t.Errors)
	if t.Fail(t.Value.At, hint, "%s lacks `%s`", t.Name, key); len(t.Errors) > told {
		t.Errors[told].Lacks = key
	}
}

// Wrong reports a value of another kind than the key takes.
func (t *Table) Wrong(key string, value *Value, want, example string) {
	t.Fail(value.At, "for example "+key+" = "+example, "`%s` must be %s, not %s", key, want, value.Kind)
}

// Text reads a text that is not empty; ok is false when it is missing or wrong.
func (t *Table) Text(key, example string) (text string, at Position, ok bool) {
	f := t.Field(key)
	if f == nil {
		return "", Position{}, false
	}
	if f.Value.Kind != KindText {
		t.Wrong(key, f.Value, "text in quotes", example)
		return "", f.Value.At, false
	}
	if strings.TrimSpace(f.Value.Text) == "" {
		t.Fail(f.Value.At, "for example "+key+" = "+example, "`%s` is empty", key)
		return "", f.Value.At, false
	}
	return f.Value.Text, f.Value.At, true
}

// Has says whether the file gives the key at all, right or wrong.
func (t *Table) Has(key string) bool { return t.Field(key) != nil }

// Choice reads one of the allowed words; the first is the default.
func (t *Table) Choice(key string, allowed ...string) string {
	word, at, ok := t.Text(key, strconv.Quote(allowed[0]))
	if !ok {
		return allowed[0]
	}
	if !slices.Contains(allowed, word) {
		t.Fail(at, OneOf(word, allowed), "`%s` cannot be %q", key, word)
		return allowed[0]
	}
	return word
}

// Truth reads true or false.
func (t *Table) Truth(key string, otherwise bool) bool {
	f := t.Field(key)
	if f == nil {
		return otherwise
	}
	if f.Value.Kind != KindBool {
		t.Wrong(key, f.Value, "true or false", strconv.FormatBool(!otherwise))
		return otherwise
	}
	return f.Value.Truth
}

// Count reads a whole number between least and most.
func (t *Table) Count(key string, otherwise, least, most int) int {
	f := t.Field(key)
	if f == nil {
		return otherwise
	}
	example := strconv.Itoa(max(otherwise, least))
	switch v := f.Value; {
	case v.Kind != KindNumber:
		t.Wrong(key, v, "a whole number", example)
	case !v.Integer:
		t.Fail(v.At, "for example "+key+" = "+example, "`%s` must be a whole number", key)
	case v.Number < float64(least) || v.Number > float64(most):
		t.Fail(v.At, fmt.Sprintf("from %d to %d", least, most), "`%s` cannot be %.0f", key, v.Number)
	default:
		return int(v.Number)
	}
	return max(otherwise, least)
}

// ParseLength says which lengths a key takes.
type ParseLength func(text string, bare measure.Unit) (float64, error)

// Length reads a length in mm: text with or without a unit, or a number in the
// file's unit.
func (t *Table) Length(key string, read ParseLength) (mm float64, ok bool) {
	f := t.Field(key)
	if f == nil {
		return 0, false
	}
	return t.LengthOf(key, f.Value, read)
}

// LengthOf reads a length from a value of its own, as one of a list.
func (t *Table) LengthOf(key string, v *Value, read ParseLength) (mm float64, ok bool) {
	text := v.Text
	switch v.Kind {
	case KindNumber:
		text = strconv.FormatFloat(v.Number, 'g', -1, 64)
	case KindText:
	default:
		t.Wrong(key, v, "a length", `"27 1/2"`)
		return 0, false
	}
	unit := t.Unit
	if v.Unit != nil {
		unit = *v.Unit
	}
	mm, err := read(text, unit)
	if err != nil {
		t.Fail(v.At, fmt.Sprintf("a length reads like 35, %q, %q or %q; a bare number takes the %s's unit, %s",
			"35 1/2", "90 cm", "2 3/8 yd", t.Called, unit), "`%s`: %v", key, err)
		return 0, false
	}
	return mm, true
}

// LengthOr reads a length that has a default.
func (t *Table) LengthOr(key string, otherwise float64, read ParseLength) float64 {
	if mm, ok := t.Length(key, read); ok {
		return mm
	}
	return otherwise
}

// MustLength reads a length that has to be given and is positive.
func (t *Table) MustLength(key, example string) float64 {
	if !t.Has(key) {
		t.Need(key, fmt.Sprintf("for example %s = %q", key, example))
	}
	mm, _ := t.Length(key, measure.ParsePositive)
	return mm
}

// Ratio reads a plain number: 2.5, "2 1/2", "3/8". It lies between least and
// most; ok is false when it is missing or wrong.
func (t *Table) Ratio(key string, least, most float64) (value float64, ok bool) {
	f := t.Field(key)
	if f == nil {
		return 0, false
	}
	return t.RatioOf(key, f.Value, least, most)
}

// RatioOf reads a plain number from a value of its own.
func (t *Table) RatioOf(key string, v *Value, least, most float64) (value float64, ok bool) {
	switch v.Kind {
	case KindNumber:
		value = v.Number
	case KindText:
		if value, ok = Fraction(v.Text); !ok {
			t.Fail(v.At, "a number or a fraction, for example 2.5 or \"2 1/2\"", "`%s`: cannot read %q", key, v.Text)
			return 0, false
		}
	default:
		t.Wrong(key, v, "a number", "2.5")
		return 0, false
	}
	if math.IsNaN(value) || value < least || value > most {
		t.Fail(v.At, fmt.Sprintf("from %g to %g", least, most), "`%s` cannot be %g", key, value)
		return 0, false
	}
	return value, true
}

// Fraction reads "3/8", "1 1/4" or "2.5", in decimal digits.
func Fraction(text string) (float64, bool) {
	sum := new(big.Rat)
	parts := strings.Fields(text)
	if len(parts) == 0 || len(parts) > 2 || len(text) > 24 || strings.Trim(text, "0123456789./ \t") != "" {
		return 0, false
	}
	if len(parts) == 2 && (strings.ContainsAny(parts[0], "/.") || !strings.Contains(parts[1], "/")) {
		return 0, false
	}
	for _, part := range parts {
		above, below, is := strings.Cut(part, "/")
		if is { // zeros in front would make other digits of them
			part = leading(above) + "/" + leading(below)
		}
		r, ok := new(big.Rat).SetString(part)
		if !ok {
			return 0, false
		}
		sum.Add(sum, r)
	}
	value, _ := sum.Float64()
	return value, true
}

// leading takes the zeros off the front of digits, but the last.
func leading(digits string) string {
	if bare := strings.TrimLeft(digits, "0"); bare != "" || digits == "" {
		return bare
	}
	return "0"
}

// Sub reads a table within this one; nil when it is missing or no table.
func (t *Table) Sub(key, name, example string) *Table {
	f := t.Field(key)
	if f == nil {
		return nil
	}
	if f.Value.Kind != KindTable {
		t.Wrong(key, f.Value, "a table", example)
		return nil
	}
	return t.Table(f.Value, name)
}

// List reads the [[key]] tables, and refuses more of them than most.
func (t *Table) List(key string, most int, hint string) []*Value {
	f := t.Field(key)
	if f == nil {
		return nil
	}
	v := f.Value
	if v.Kind != KindList {
		t.Fail(f.At, fmt.Sprintf("start each with its own line [[%s]]", key),
			"`%s` must be written as [[%s]]", key, key)
		return nil
	}
	items := v.Items
	if len(items) > most {
		t.Fail(f.At, hint, "%d tables [[%s]], a %s takes at most %d", len(items), key, t.Called, most)
		items = items[:most]
	}
	var tables []*Value
	for _, item := range items {
		if item.Kind != KindTable {
			t.Fail(item.At, fmt.Sprintf("start each with its own line [[%s]]", key),
				"`%s` must be tables, not %s", key, item.Kind)
			continue
		}
		tables = append(tables, item)
	}
	return tables
}

// InlineTables reads a list of tables in brackets, or [[key]] tables.
func (t *Table) InlineTables(key, example string, most int) []*Value {
	f := t.Field(key)
	if f == nil {
		return nil
	}
	if f.Value.Kind != KindList {
		t.Wrong(key, f.Value, "a list of tables in brackets", "[ "+example+" ]")
		return nil
	}
	items := f.Value.Items
	if len(items) > most {
		t.Fail(f.Value.At, fmt.Sprintf("at most %d", most), "`%s` lists %d", key, len(items))
		return nil
	}
	var tables []*Value
	for _, item := range items {
		if item.Kind != KindTable {
			t.Fail(item.At, "for example "+key+" = [ "+example+" ]", "`%s` lists tables, not %s", key, item.Kind)
			continue
		}
		tables = append(tables, item)
	}
	return tables
}

// Show prints a length in the file's unit, of a file in inches one of cloth in yards too.
func (r *Reader) Show(mm float64) string {
	if r.Unit == measure.Inch && math.Abs(mm) >= byTheYard {
		return yards(mm)
	}
	return measure.Format(mm, r.Unit)
}
