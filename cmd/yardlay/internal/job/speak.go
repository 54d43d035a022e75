package job

import (
	"regexp"
	"strconv"
	"strings"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/say"
)

// inMillimetres finds lengths in the errors of drafts, which speak millimetres alone.
var inMillimetres = regexp.MustCompile(`(-?\d+(?:\.\d+)?(?:e[+-]\d+)?) mm\b`)

// ErrorAt places an error from elsewhere in the job file, its lengths as the job
// measures.
func (j *Job) ErrorAt(at strict.Position, err error) *strict.Error {
	what, hint := j.parts(err)
	return &strict.Error{File: j.File, At: at, What: what, Hint: hint, Cause: err}
}

// parts writes what is wrong and what would mend it as the job measures.
func (j *Job) parts(err error) (what, hint string) {
	what, hint = say.Parts(err, j.Show())
	if hint == "" {
		what, hint, _ = strings.Cut(j.Speak(what), "\n  hint: ")
	}
	return what, hint
}

// Show is how errors say lengths to who wrote the job.
func (j *Job) Show() say.Show { return strict.Show(j.Unit) }

// Speak gives each length in mm of a text in inches, when the job is written in
// feet, yards or inches: "5.94 in".
func (j *Job) Speak(text string) string {
	if j.Unit.Metric() {
		return text
	}
	return Rewrite(text, j.Show())
}

// Rewrite shows each length in mm of a text in another way.
func Rewrite(text string, show func(mm float64) string) string {
	return inMillimetres.ReplaceAllStringFunc(text, func(length string) string {
		mm, err := strconv.ParseFloat(length[:len(length)-len(" mm")], 64)
		if err != nil {
			return length
		}
		return show(mm)
	})
}
