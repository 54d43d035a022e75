package say

import (
	"errors"
	"fmt"
)

// Error says what is wrong and what would mend it.
type Error struct {
	what, hint Text
	from       error // which knows what the verbs %w wrap
}

// Errorf is fmt.Errorf with lengths (MM) and texts that stay values, in the errors that
// it wraps too.
func Errorf(format string, args ...any) *Error {
	return &Error{what: Text{format, args}, from: fmt.Errorf(format, args...)}
}

// Hint adds what would mend it, in place of a hint of the errors that e wraps.
func (e *Error) Hint(format string, args ...any) *Error {
	if false {
		_ = fmt.Sprintf(format, args...) // lets vet check the verbs
	}
	e.hint = Text{format, args}
	return e
}

// Error writes both, with lengths in mm.
func (e *Error) Error() string { return Join(e.Parts(nil)) }

// Unwrap returns what e was made from.
func (e *Error) Unwrap() error { return e.from }

// Parts writes what is wrong and what would mend it, "" where nobody says, with lengths
// as shown.
func (e *Error) Parts(show Show) (what, hint string) {
	what, hint = e.what.In(show), e.hint.In(show)
	for _, arg := range e.what.args {
		if err, ok := arg.(error); ok && hint == "" {
			_, hint = Parts(err, show)
		}
	}
	return what, hint
}

// Parts writes what is wrong and what would mend it of any error. One that only gives
// another a type has the parts of that; one without parts is all the one, as it prints.
func Parts(err error, show Show) (what, hint string) {
	if e, ok := err.(interface {
		Parts(Show) (what, hint string)
	}); ok {
		return e.Parts(show)
	}
	if from := errors.Unwrap(err); from != nil && from.Error() == err.Error() {
		return Parts(from, show)
	}
	return err.Error(), ""
}

// Join sets what would mend a thing on a line below what is wrong; "" adds nothing.
func Join(what, hint string) string {
	if hint == "" {
		return what
	}
	return what + "\n  hint: " + hint
}
