// Package say keeps what is said to people in parts: a message keeps its lengths as
// values, so that each is shown in the unit of whoever reads it; an error keeps besides
// what would mend it, apart from what is wrong, and the error that it came from.
package say

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// MM is a length, mm, within a message. It takes the verbs of a float64 and brings its
// unit along: "%.1f" makes "12.5 mm" of it. In another unit it is shown to the
// digits that the verb gives it in mm.
type MM float64

// Format writes the number as the verb asks, and the unit.
func (l MM) Format(s fmt.State, verb rune) {
	fmt.Fprintf(s, fmt.FormatString(s, verb)+" mm", float64(l))
}

// Show writes a length, mm, in some unit; nil stands for mm.
type Show func(mm float64) string

// shown is a length as a reader's unit shows it.
type shown struct {
	length MM
	show   Show
}

func (l shown) Format(s fmt.State, verb rune) {
	mm, err := strconv.ParseFloat(fmt.Sprintf(fmt.FormatString(s, verb), float64(l.length)), 64)
	if err != nil {
		mm = float64(l.length)
	}
	io.WriteString(s, l.show(mm))
}

// Text is a sentence, or some words of one. Its zero value says nothing.
type Text struct {
	format string
	args   []any
}

// Textf makes a text of a format and what stands in it: lengths as MM, other texts,
// errors, and what fmt prints.
func Textf(format string, args ...any) Text {
	if false {
		_ = fmt.Sprintf(format, args...) // lets vet check the verbs
	}
	return Text{format, args}
}

// String writes the text with its lengths in mm.
func (t Text) String() string { return t.In(nil) }

// In writes the text with its lengths, those of texts and errors in it too, as shown.
func (t Text) In(show Show) string {
	args := slices.Clone(t.args)
	for i, arg := range args {
		switch arg := arg.(type) {
		case MM:
			if show != nil {
				args[i] = shown{arg, show}
			}
		case Text:
			args[i] = arg.In(show)
		case error:
			what, _ := Parts(arg, show)
			args[i] = said(what)
		}
	}
	return fmt.Errorf(t.format, args...).Error() // knows %w
}

// List sets texts one after the other, commas between them.
func List(texts []Text) Text {
	args := make([]any, len(texts))
	for i, t := range texts {
		args[i] = t
	}
	return Text{strings.TrimSuffix(strings.Repeat("%v, ", len(texts)), ", "), args}
}

// said is an error of which the words alone are left.
type said string

func (s said) Error() string { return string(s) }
