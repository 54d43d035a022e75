package job

import (
	"slices"
	"strconv"
	"strings"

	"yardlay/cmd/yardlay/internal/strict"
)

// Spot is where a change goes in the text of a job file, and what is written there.
type Spot struct {
	List string   // the key of the file that its table stands under; "" for a key of the file
	Item int      // of a list of tables, from 0; -1 where there is one table
	Keys []string // from there
	Text string   // of the value
	TOML bool     // it is written as it is; else it is a text to be put in quotes
}

// Spots finds where changes go, to write them into the file for good: where one reaches into
// a table of the workroom, all of that first. The error is a *ChangeError, as that of With.
func (f *File) Spots(changes []Change) ([]Spot, error) {
	all, err := spots(jobFile(f.root), changes)
	var tables []Spot
	for i, c := range changes {
		t, path, bad := tableOf(jobFile(f.root), c)
		if bad != nil || err != nil {
			return nil, err
		}
		of := Spot{List: t.list, Item: t.item, Keys: all[i].Keys[:1], TOML: true}
		whole := f.inheritedBy(t, path)
		if whole == nil || slices.ContainsFunc(tables, of.goesWhere) {
			continue
		}
		of.Text = asTOML(whole.Value, t.takes(of.Keys[0]))
		tables = append(tables, of)
	}
	return append(tables, all...), err
}

// goesWhere says whether another change goes to the same place.
func (s Spot) goesWhere(other Spot) bool {
	return s.List == other.List && s.Item == other.Item && slices.Equal(s.Keys, other.Keys)
}

// asTOML writes a value of the workroom as a job may have it, in whatever that counts.
func asTOML(v *strict.Value, takes Kind) string {
	var parts []string
	switch v.Kind {
	case strict.KindTable:
		for _, key := range v.Order {
			parts = append(parts, key+" = "+asTOML(v.Fields[key].Value, named{keys: takes.Keys}.takes(key)))
		}
		return "{ " + strings.Join(parts, ", ") + " }"
	case strict.KindList:
		for _, item := range v.Items {
			parts = append(parts, asTOML(item, takes))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	text := v.Typed()
	if (takes.Form == Length && takes.Of == "" || takes.Form == Points) && v.Unit != nil {
		return strconv.Quote(withUnit(text, *v.Unit))
	}
	if v.Kind == strict.KindText {
		return strconv.Quote(text)
	}
	return text
}

// RoomSpots finds where changes go in the text of the book of a workroom, which need not
// hold yet.
func RoomSpots(src []byte, changes []Change) ([]Spot, error) {
	root, bad := RoomTree(src)
	if bad != nil {
		return nil, strict.Errors{bad}
	}
	return spots(file{root, roomKeys, "the workroom", "cloth, person, leftover, gown or table"}, changes)
}

func spots(in file, changes []Change) ([]Spot, error) {
	var spots []Spot
	for _, c := range changes {
		t, path, bad := tableOf(in, c)
		if bad != nil {
			return nil, bad
		}
		s := Spot{List: t.list, Item: t.item, Keys: strings.Split(path, "."), Text: strings.TrimSpace(c.Value)}
		_, takes := written(in, c.Key)
		value, err := newValue(c.Value, takes, fieldAt(t.node, s.Keys))
		if err != nil {
			return nil, &ChangeError{c, err.What, err.Hint}
		}
		s.TOML = value.Kind != strict.KindText || strings.ContainsRune(`[{"'`, rune(s.Text[0]))
		spots = append(spots, s)
	}
	return spots, nil
}

// fieldAt is the field at the end of some keys; nil where there is none.
func fieldAt(table *strict.Value, keys []string) *strict.Field {
	for ; len(keys) > 1; keys = keys[1:] {
		f := table.Fields[keys[0]]
		if f == nil {
			return nil
		}
		table = f.Value
	}
	return table.Fields[keys[0]]
}

// Variable lists the keys that a change can give another single value, as Change names
// them: those that the file has first, then those that it may have.
func (f *File) Variable() []string {
	var has, may []string
	for _, t := range jobFile(f.root).tables() {
		for _, k := range t.keys {
			if k.Kind.Form == Table || k.Kind.Listed == List || k.Name == "id" || k.Name == "name" || k.Name == "title" {
				continue
			}
			if name := plain(t.id) + "." + k.Name; t.node.Fields[k.Name] != nil {
				has = append(has, name)
			} else {
				may = append(may, name)
			}
		}
	}
	return append(has, may...)
}
