package job

import (
	"cmp"
	"errors"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/say"
)

// placed is an error from elsewhere that stands at a key of the job file.
type placed struct {
	at  strict.Position
	err error
}

func (p *placed) Error() string { return p.err.Error() }

// Unwrap returns the error that is placed.
func (p *placed) Unwrap() error { return p.err }

// ErrorAt places an error from elsewhere in the job file, its lengths as the job
// measures: where it says itself, as what is wrong with a file stands at the key that names
// it, or else at a place.
func (j *Job) ErrorAt(at strict.Position, err error) *strict.Error {
	if p := (*placed)(nil); errors.As(err, &p) {
		at = p.at
	}
	what, hint := say.Parts(err, j.Show())
	return &strict.Error{File: cmp.Or(at.File, j.File), At: at, What: what, Hint: hint, Cause: err}
}

// Show is how errors say lengths to who wrote the job.
func (j *Job) Show() say.Show { return strict.Show(j.Unit) }
