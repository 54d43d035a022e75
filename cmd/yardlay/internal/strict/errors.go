// Package strict reads TOML whose every value knows its place, and collects all that
// is wrong with a file: each error has its place and, where there is one, a hint. It
// reads lengths, ratios, percentages, amounts and choices, and refuses keys that
// nobody asks for.
package strict

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Position is a place in a file; lines and columns count from 1, columns
// in characters.
type Position struct{ Line, Column int }

// Error is one thing wrong with a file, and where.
type Error struct {
	File string
	At   Position
	What string // what is wrong, lower case, naming the thing
	Hint string // what would mend it; may be empty

	// Brief is what is wrong in a few words, for a table; "" where What is.
	Brief string
}

// Error prints `file:line:column: what` and the hint on the next line.
func (e *Error) Error() string {
	return WithHint(fmt.Sprintf("%s:%d:%d: %s", e.File, e.At.Line, e.At.Column, e.What), e.Hint)
}

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

// Sort brings the errors into the order of the file.
func (e Errors) Sort() {
	slices.SortStableFunc(e, func(a, b *Error) int {
		return cmp.Or(cmp.Compare(a.At.Line, b.At.Line), cmp.Compare(a.At.Column, b.At.Column))
	})
}

// hintMark parts what is wrong from what would mend it in an error's text.
const hintMark = "\n  hint: "

// WithHint puts what would mend a thing below what is wrong; "" adds nothing.
func WithHint(what, hint string) string {
	if hint == "" {
		return what
	}
	return what + hintMark + hint
}

// SplitHint parts a text that WithHint may have put together.
func SplitHint(text string) (what, hint string) {
	what, hint, _ = strings.Cut(text, hintMark)
	return what, hint
}
