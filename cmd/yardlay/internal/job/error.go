package job

import (
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/say"
)

// ErrorAt places an error from elsewhere in the job file, its lengths as the job
// measures.
func (j *Job) ErrorAt(at strict.Position, err error) *strict.Error {
	what, hint := say.Parts(err, j.Show())
	return &strict.Error{File: j.File, At: at, What: what, Hint: hint, Cause: err}
}

// Show is how errors say lengths to who wrote the job.
func (j *Job) Show() say.Show { return strict.Show(j.Unit) }
