package plan

import (
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/measure"
)

// InUnit shows each length in mm of a text in the unit of sizes.
func InUnit(text string, unit measure.Unit) string {
	return job.Rewrite(text, func(mm float64) string { return measure.Format(mm, measure.SizeUnit(unit)) })
}

// longUnit is what lengths of markers are shown in where a job is written in unit.
func longUnit(unit measure.Unit) measure.Unit {
	if unit.Metric() {
		return measure.Metre
	}
	return measure.Yard
}
