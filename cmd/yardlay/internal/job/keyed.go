package job

import (
	"fmt"
	"slices"

	"yardlay/cmd/yardlay/internal/strict"
)

// kind returns what a key of the table takes, as the reference has it.
func (t *table) kind(key string) Kind {
	i := slices.IndexFunc(t.keys, func(k Key) bool { return k.Name == key })
	if i < 0 {
		panic(fmt.Sprintf("%s: `%s` is read and not in the reference", t.Name, key))
	}
	return t.keys[i].Kind
}

// Length reads a length of the key's kind; ok when it is there and right.
func (t *table) Length(key string) (mm float64, ok bool) {
	return t.Table.Length(key, t.kind(key).parse)
}

// LengthOf reads one of several lengths.
func (t *table) LengthOf(key string, v *strict.Value) (mm float64, ok bool) {
	return t.Table.LengthOf(key, v, t.kind(key).parse)
}

// LengthOr reads a length, otherwise where there is none or it is wrong.
func (t *table) LengthOr(key string, otherwise float64) float64 {
	return t.Table.LengthOr(key, otherwise, t.kind(key).parse)
}

// Count reads a whole number within the limits of the key's kind.
func (t *table) Count(key string, otherwise int) int {
	k := t.kind(key)
	n := t.Table.Count(key, otherwise, int(k.Least), int(k.Most))
	if k.Numbers != nil && t.Has(key) && !slices.Contains(k.Numbers, n) {
		t.Fail(t.Field(key).Value.At, k.String(), "`%s` cannot be %d", key, n)
	}
	return n
}

// Ratio reads a ratio within the limits of the key's kind.
func (t *table) Ratio(key string) (value float64, ok bool) {
	k := t.kind(key)
	return t.Table.Ratio(key, k.Least, k.Most)
}

// RatioOf reads one of several ratios.
func (t *table) RatioOf(key string, v *strict.Value) (value float64, ok bool) {
	k := t.kind(key)
	return t.Table.RatioOf(key, v, k.Least, k.Most)
}

// Percent reads a percentage within the limits of the key's kind.
func (t *table) Percent(key, example string, unsigned func(text string) string) (ratio float64, ok bool) {
	k := t.kind(key)
	return t.Table.Percent(key, example, unsigned, k.Least, k.Most)
}

// Choice reads one of the words of the key's kind, the first where there is none.
func (t *table) Choice(key string) string { return t.Table.Choice(key, t.kind(key).Choices...) }
