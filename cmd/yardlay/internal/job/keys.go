package job

import (
	"slices"

	"yardlay/cmd/yardlay/internal/strict"
)

// Tree reads the text of a job into what it says, without asking whether it makes sense.
func Tree(src []byte) (*strict.Value, *strict.Error) { return fileFormat.Parse(src) }

// RoomTree reads the text of the book of a workroom into what it says, as Tree does that of
// a job.
func RoomTree(src []byte) (*strict.Value, *strict.Error) { return roomFormat.Parse(src) }

// Keys are those of the whole file, its tables among them.
func Keys() []Key { return slices.Clone(fileKeys) }

// KeysOf returns the keys that one table of the file may have: of a part those of its
// draft too, of one of several bodies its name.
func KeysOf(table Key, one *strict.Value, several bool) []Key {
	switch {
	case table.Name == "body" && several:
		return eachBodyKeys
	case table.Name == "part":
		return slices.Concat(table.Kind.Keys, draftKeys(one.TextOf("draft")))
	}
	return table.Kind.Keys
}
