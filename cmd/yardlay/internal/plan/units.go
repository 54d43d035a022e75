package plan

import (
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/measure"
)

// InUnit shows each length in mm of a text in the unit of sizes.
func InUnit(text string, unit measure.Unit) string {
	return job.Rewrite(text, func(mm float64) string { return measure.Format(mm, measure.SizeUnit(unit)) })
}
