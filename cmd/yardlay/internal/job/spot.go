package job

import (
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

// Spots finds where changes go, to write them into the file for good. The error is a
// *ChangeError, as that of With.
func (f *File) Spots(changes []Change) ([]Spot, error) { return spots(jobFile(f.root), changes) }

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
