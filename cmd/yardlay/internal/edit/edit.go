// Package edit changes the text of a TOML file value by value. What it does not change
// stays as it is, byte for byte: comments, order, blank lines, quotes, line ends. What it
// writes follows the spelling that it finds beside it.
//
// All functions take the text and return a changed copy. A text that is no TOML is
// refused, and so is a change that the text has no place for.
package edit

import (
	"errors"

	"yardlay/shapes/say"
)

// ErrNotTOML refuses a text that cannot be read.
var ErrNotTOML = errors.New("the text is not TOML")

// ErrNoPlace refuses a change of what the text does not have.
var ErrNoPlace = errors.New("the file has no such place")

// Set gives the key at a path a value, in place of the one that it has. A key that is
// missing is put behind the others of its table, and tables on the way to it are made:
// one of the whole file with a line of its own, one within another in braces.
func Set(src []byte, at Path, value Value) ([]byte, error) {
	return changed(src, func(d *document) error { return d.set(at, value) })
}

// Given is a value for a path.
type Given struct {
	At    Path
	Value Value
}

// Replace gives several keys other values at once. Each of them has one already.
func Replace(src []byte, all []Given) ([]byte, error) {
	return changed(src, func(d *document) error {
		for _, one := range all {
			if _, steps := d.find(one.At); steps < len(one.At) {
				return say.Errorf("%w: %s", ErrNoPlace, one.At)
			}
			if err := d.set(one.At, one.Value); err != nil {
				return err
			}
		}
		return nil
	})
}

// Remove takes a key or an item of a list away. A comment behind a key stays; a table
// with a line of its own goes with all that stands in it and with the comment right
// above it.
func Remove(src []byte, at Path) ([]byte, error) {
	return changed(src, func(d *document) error { return d.remove(at) })
}

// Append adds an item to a list: a value to one in brackets, else a table with a line
// [[name]] of its own behind the last of its like. A list that is missing is made: of the
// whole file by such lines, within a table in brackets, or headed as the item says. The fields of a table keep their
// order; one without fields is empty.
func Append(src []byte, list Path, item Item) ([]byte, error) {
	return changed(src, func(d *document) error { return d.append(list, item) })
}

// Move takes an item of a list to the place of another one; those between move up.
// What stands between items stays where it is.
func Move(src []byte, list Path, from, to int) ([]byte, error) {
	return changed(src, func(d *document) error { return d.move(list, from, to) })
}

// changed reads a text, lets it be changed, and reads the outcome too, so that no change
// ever leaves a file that cannot be read.
func changed(src []byte, change func(d *document) error) ([]byte, error) {
	d, err := scan(src)
	if err != nil {
		return nil, err
	}
	if err := change(d); err != nil {
		return nil, err
	}
	out := d.written()
	if err := judge(out); err != nil {
		return nil, say.Errorf("the change would leave no TOML: %w", err)
	}
	return out, nil
}

// Written returns what stands for a value in the text; ok is false where it has none of
// its own, or none at all.
func Written(src []byte, at Path) (text string, ok bool) {
	d, err := scan(src)
	if err != nil {
		return "", false
	}
	n, steps := d.find(at)
	if steps < len(at) || n.kind != plain && n.kind != list && n.kind != braces {
		return "", false
	}
	return string(d.src[n.start:n.end]), true
}
