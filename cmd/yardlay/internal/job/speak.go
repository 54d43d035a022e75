package job

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
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

// Show is how errors say lengths to who wrote the job: in mm, or, where the job is
// written in feet, yards or inches, as "5.94 in".
func (j *Job) Show() say.Show {
	if j.Unit.Metric() {
		return nil
	}
	return Inches
}

// Speak gives each length in mm of a text in inches, when the job is written in
// feet, yards or inches: "5.94 in".
func (j *Job) Speak(text string) string {
	if j.Unit.Metric() {
		return text
	}
	return Rewrite(text, func(mm float64) string { return Inches(mm) })
}

// Inches shows a length in sixteenths where it is so many, else in hundredths of
// an inch, or finer where that would be nothing: a limit is told as it is.
func Inches(mm float64) string {
	if shown := measure.Format(mm, measure.Inch); math.Abs(mm-math.Round(mm/eighth)*eighth) < measure.Guard {
		return shown
	}
	inches := mm / measure.Inches
	if math.Abs(inches) < 0.1 {
		return fmt.Sprintf("%.1g in", inches)
	}
	return strconv.FormatFloat(math.Round(inches*100)/100, 'f', -1, 64) + " in"
}

// eighth is what inches are shown in, mm.
const eighth = measure.Inches / 8

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
