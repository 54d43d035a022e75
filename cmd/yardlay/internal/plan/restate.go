package plan

import (
	"regexp"
	"strconv"

	"yardlay/shapes/measure"
)

// inMillimetres finds lengths in the errors of drafts, which speak millimetres alone.
var inMillimetres = regexp.MustCompile(`(-?\d+(?:\.\d+)?(?:e[+-]\d+)?) mm\b`)

// restate puts behind each length in mm what it is in inches, when the job is
// written in feet, yards or inches: "150.9 mm (6 in)".
func restate(text string, unit measure.Unit) string {
	if unit.Metric() {
		return text
	}
	return inMillimetres.ReplaceAllStringFunc(text, func(length string) string {
		mm, err := strconv.ParseFloat(length[:len(length)-len(" mm")], 64)
		if err != nil {
			return length
		}
		return length + " (" + measure.Format(mm, measure.Inch) + ")"
	})
}
