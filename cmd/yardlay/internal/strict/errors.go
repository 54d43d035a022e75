// Package strict reads TOML whose every value knows its place, and collects all that
// is wrong with a file: each error has its place and, where there is one, a hint. It
// reads lengths, ratios, percentages, amounts and choices, and refuses keys that
// nobody asks for.
package strict

import (
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"yardlay/shapes/say"
)

// Position is a place in a file; lines and columns count from 1, columns
// in characters.
type Position struct {
	Line, Column int
	Put          Put
	File         string // where it is not the one that is read, such as one that this refers to
}

// Put numbers, from 1, what was put into the table of a line without having a place
// there; it is 0 for all that is written in the file.
type Put int

// Error is one thing wrong with a file, and where.
type Error struct {
	File string
	At   Position
	What string // what is wrong, lower case, naming the thing
	Hint string // what would mend it; may be empty

	// Lacks is the key that is missing from the table at the place; "" where it is
	// something else that is wrong.
	Lacks string

	// Brief is what is wrong in a few words, for a table; "" where What is.
	Brief string

	// Cause is the error from elsewhere that is placed here; nil where there is none.
	Cause error
}

// Where says the place to who has the file at hand: "line 12", or "workroom.toml, line 3" of
// another one.
func (e *Error) Where() string {
	line := fmt.Sprintf("line %d", e.At.Line)
	if e.At.File == "" {
		return line
	}
	return filepath.Base(e.At.File) + ", " + line
}

// Error prints `file:line:column: what` and the hint on the next line.
func (e *Error) Error() string { return say.Join(e.Parts(nil)) }

// Parts returns what is wrong after its place, and what would mend it.
func (e *Error) Parts(say.Show) (what, hint string) {
	return fmt.Sprintf("%s:%d:%d: %s", e.File, e.At.Line, e.At.Column, e.What), e.Hint
}

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Cause }

// Errors is everything wrong with one file, in the order of the file. As an error
// it is never empty.
type Errors []*Error

// Error prints one error after another, each on its own lines.
func (e Errors) Error() string {
	lines := make([]string, len(e))
	for i, one := range e {
		lines[i] = one.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns them one by one.
func (e Errors) Unwrap() []error {
	list := make([]error, len(e))
	for i, one := range e {
		list[i] = one
	}
	return list
}

// Sort brings the errors into the order of the file.
func (e Errors) Sort() {
	slices.SortStableFunc(e, func(a, b *Error) int {
		return cmp.Or(cmp.Compare(a.At.Line, b.At.Line), cmp.Compare(a.At.Column, b.At.Column),
			cmp.Compare(a.At.Put, b.At.Put))
	})
}
