package job

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Position is a place in the job file; lines and columns count from 1, columns
// in characters.
type Position struct{ Line, Column int }

// Error is one thing wrong with a job file, and where.
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
	text := fmt.Sprintf("%s:%d:%d: %s", e.File, e.At.Line, e.At.Column, e.What)
	if e.Hint != "" {
		text += hintMark + e.Hint
	}
	return text
}

// Errors is everything wrong with one job file, in the order of the file. It
// is the only error type that Parse returns, and it is never empty.
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

// ErrorAt places an error from elsewhere in the job file. A hint at the end of
// its text stays the hint. Lengths are spoken as the job speaks.
func (j *Job) ErrorAt(at Position, err error) *Error {
	what, hint, _ := strings.Cut(j.Speak(err.Error()), hintMark)
	return &Error{File: j.File, At: at, What: what, Hint: hint}
}
