package job

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"sync"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cost"
)

// kind returns what a key of the table takes.
func (t *table) kind(key string) Kind { return t.keyOf(key).Kind }

// keyOf returns a key of the table as the reference has it.
func (t *table) keyOf(key string) Key {
	i := slices.IndexFunc(t.keys, func(k Key) bool { return k.Name == key })
	if i < 0 {
		panic(fmt.Sprintf("%s: `%s` is read and not in the reference", t.Name, key))
	}
	return t.keys[i]
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

// Text reads a text that is no longer than the key's kind says.
func (t *table) Text(key string) (text string, at strict.Position, ok bool) {
	meant := t.keyOf(key)
	k := meant.Kind
	if text, at, ok = t.Table.Text(key, cmp.Or(k.Example, `"..."`)); ok && k.Most != 0 && len(text) > int(k.Most) {
		t.Fail(at, "a shorter one: "+meant.Meaning, "`%s` is %d bytes long, at most %.0f", key, len(text), k.Most)
	}
	return text, at, ok
}

// Share reads a percentage that is kept as it is written.
func (t *table) Share(key string) (cost.Decimal, bool) {
	return t.Table.Share(key, strings.Trim(t.kind(key).Example, `"`))
}

// amount reads an amount of money that is not negative.
func (t *table) amount(key string) (cost.Money, bool) {
	example := t.kind(key).Example
	text, at, ok := t.Text(key)
	if !ok {
		return cost.Money{}, false
	}
	m, err := cost.ParseMoney(text, t.money)
	switch hint := "for example " + key + " = " + example; {
	case err != nil:
		t.Fail(at, hint, "`%s`: %v", key, err)
	case m.Minor < 0:
		t.Fail(at, hint, "`%s`: %q must not be negative", key, text)
	default:
		return m, true
	}
	return cost.Money{}, false
}

// named reads what a table of a list is called, at its place, and calls it so from now
// on: by its number where it has no name.
func (t *table) named(kind string, index int, at *strict.Position) string {
	name, where, ok := t.Text("name")
	if ok {
		*at, t.Name = where, label(kind, name, index)
	} else if !t.Has("name") {
		k := t.keyOf("name")
		t.Need("name", k.Meaning+", for example name = "+k.Kind.Example)
	}
	return name
}

// fill reads what the table gives into the fields of a struct that are called as its keys
// are, `free_from` into FreeFrom. Fields whose key is missing stay as they are. Keys that
// must be given, and those of tables, are left to who fills, and so are the keys but.
func (t *table) fill(into any, but ...string) {
	v := reflect.ValueOf(into).Elem()
	for _, k := range t.keys {
		f := fieldOf(v, k.Name)
		if !f.IsValid() || k.Default == "" || slices.Contains(but, k.Name) || !t.Has(k.Name) {
			continue
		}
		t.set(f, k)
	}
}

// keyOf is a key for a type of struct; where its field is stands in fieldsFound once it was looked for.
type keyOf struct {
	of  reflect.Type
	key string
}

var fieldsFound sync.Map // keyOf to the index of the field, nil where there is none

// fieldOf returns the field of a struct that is called as a key is.
func fieldOf(v reflect.Value, key string) reflect.Value {
	at := keyOf{v.Type(), key}
	index, found := fieldsFound.Load(at)
	if !found {
		plain := strings.ReplaceAll(key, "_", "")
		f, _ := at.of.FieldByNameFunc(func(name string) bool { return strings.EqualFold(name, plain) })
		index = f.Index
		fieldsFound.Store(at, index)
	}
	if index := index.([]int); index != nil {
		return v.FieldByIndex(index)
	}
	return reflect.Value{}
}

// set reads a key into a field, which stays as it is where the key is missing or wrong.
func (t *table) set(f reflect.Value, k Key) {
	if value, ok := t.value(k, f); ok {
		f.Set(reflect.ValueOf(value).Convert(f.Type()))
	}
}

// value reads what a key gives a field; ok when it is right and of the field's type.
func (t *table) value(k Key, f reflect.Value) (value any, ok bool) {
	_, decimal := f.Interface().(cost.Decimal)
	_, several := f.Interface().([]string)
	switch form := k.Kind.Form; {
	case k.Kind.Listed == SeveralToo && several:
		return t.words(k), true
	case k.Kind.Listed != Single:
		return nil, false
	case form == Truth:
		return t.Truth(k.Name, f.Bool()), true
	case form == Text:
		value, _, ok = t.Text(k.Name)
	case form == OneOf:
		value, ok = t.Choice(k.Name), true
	case form == Count && f.Kind() == reflect.Int:
		value, ok = t.Count(k.Name, int(f.Int())), true
	case form == Length && f.Kind() == reflect.Float64:
		value, ok = t.Length(k.Name)
	case form == Ratio && f.Kind() == reflect.Float64:
		value, ok = t.Ratio(k.Name)
	case form == Percent && decimal:
		value, ok = t.Share(k.Name)
	case form == Percent && f.Kind() == reflect.Float64:
		value, ok = t.Percent(k.Name, strings.Trim(k.Kind.Example, `"`), nil)
	case form == Number && decimal:
		value, ok = t.Decimal(k.Name, k.Kind.Example)
	case form == Amount && k.Kind.Of == "":
		value, ok = t.amount(k.Name)
	}
	return value, ok
}

// words reads one text or a list of texts.
func (t *table) words(k Key) []string {
	key, example := k.Name, k.Kind.Example
	v := t.Field(key).Value
	items := []*strict.Value{v}
	if v.Kind == strict.KindList {
		items = v.Items
	}
	var all []string
	for _, item := range items {
		if item.Kind != strict.KindText || strings.TrimSpace(item.Text) == "" {
			t.Wrong(key, item, "a text or a list of texts", example)
			continue
		}
		all = append(all, item.Text)
	}
	if len(items) == 0 {
		t.Fail(v.At, "for example "+key+" = "+example, "`%s` lists nothing", key)
	}
	return all
}

// Choice reads one of the words of the key's kind, the first where there is none.
func (t *table) Choice(key string) string { return t.Table.Choice(key, t.kind(key).Choices...) }
