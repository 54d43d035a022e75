package plan

import (
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/measure"
)

// SizeUnit is the unit to show sizes of pieces in when lengths are asked for in
// unit: feet and yards are divided too coarsely for them, and so are metres.
func SizeUnit(unit measure.Unit) measure.Unit {
	switch unit {
	case measure.Foot, measure.Yard:
		return measure.Inch
	case measure.Metre:
		return measure.Centimetre
	}
	return unit
}

// InUnit shows each length in mm of a text in the unit of sizes.
func InUnit(text string, unit measure.Unit) string {
	return job.Rewrite(text, func(mm float64) string { return measure.Format(mm, SizeUnit(unit)) })
}

// longUnit is what lengths of markers are shown in where a job is written in unit.
func longUnit(unit measure.Unit) measure.Unit {
	if unit.Metric() {
		return measure.Metre
	}
	return measure.Yard
}
