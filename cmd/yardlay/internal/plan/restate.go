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
	return lengthsBy(text, func(length string, mm float64) string {
		return length + " (" + measure.Format(mm, measure.Inch) + ")"
	})
}

// inUnit shows each length in mm in the unit of sizes alone: "6 in".
func inUnit(text string, unit measure.Unit) string {
	return lengthsBy(text, func(_ string, mm float64) string { return measure.Format(mm, SizeUnit(unit)) })
}

// lengthsBy rewrites each length in mm of a text.
func lengthsBy(text string, rewrite func(length string, mm float64) string) string {
	return inMillimetres.ReplaceAllStringFunc(text, func(length string) string {
		mm, err := strconv.ParseFloat(length[:len(length)-len(" mm")], 64)
		if err != nil {
			return length
		}
		return rewrite(length, mm)
	})
}
