package report

import (
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
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
func Cautions(spreads []plan.Spread) []string {
	for _, s := range spreads {
		if s.Cloth.Net || hasNetLayers(s) {
			return []string{netCaution, cutCaution}
		}
	}
	return []string{cutCaution}
}

// hasNetLayers finds gathered layers, whatever their cloth is called.
func hasNetLayers(s plan.Spread) bool {
	return slices.ContainsFunc(s.Cuts, func(c plan.Cut) bool {
		return slices.ContainsFunc(c.Part.Layers, func(l job.Layer) bool {
			made, _ := l.Drafted()
			return l.Cloth == s.Cloth.ID && made.Net
		})
	})
}
