package plan

import (
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/measure"
)

// Cautions. Cutting is common practice; the one on net follows 16 CFR 1610, EN
// 71-2 and NFPA 701 only in saying that no plan of cloth stands in for them.
const (
	netCaution = "Layered net and tulle catch fire easily. This plans cloth, it is no fire test: keep the gown " +
		"from flame and hot lamps; check the cloth's certificate, the venue's rules and local fire codes; " +
		"leave treatment and testing to qualified people."
	cutCaution = "Cutting: guard the rotary blade, cut away from yourself, no pins under the blade; " +
		"a hot knife only on synthetics, with fresh air, and never left alone."
)

// Cautions returns what to mind with these cloths.
func Cautions(spreads []Spread) []string {
	for _, s := range spreads {
		if s.Cloth.Net || s.hasNetLayers() {
			return []string{netCaution, cutCaution}
		}
	}
	return []string{cutCaution}
}

// hasNetLayers finds gathered layers, whatever their cloth is called.
func (s Spread) hasNetLayers() bool {
	return slices.ContainsFunc(s.Parts, func(p job.Part) bool {
		return slices.ContainsFunc(p.Layers, func(l job.Layer) bool {
			made, _ := l.Drafted()
			return l.Cloth == s.Cloth.ID && made.Net
		})
	})
}

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

// inUnit shows each length in mm of a text in the unit of sizes.
func inUnit(text string, unit measure.Unit) string {
	return job.Rewrite(text, func(mm float64) string { return measure.Format(mm, SizeUnit(unit)) })
}

// longUnit is what lengths of markers are shown in where a job is written in unit.
func longUnit(unit measure.Unit) measure.Unit {
	if unit.Metric() {
		return measure.Metre
	}
	return measure.Yard
}
