package report

import (
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes/draft"
)

// Cautions. Cutting is common practice; the one on net follows 16 CFR 1610, EN
// 71-2 and NFPA 701 only in saying that no plan of cloth stands in for them.
const (
	netCaution = "Layered net and tulle catch fire easily. This plans cloth, it is no fire test: keep the gown " +
		"from flame and hot lamps; check the cloth's certificate, the venue's rules and local fire codes; " +
		"leave treatment and testing to qualified people."
	cutCaution = "Cutting: guard the rotary blade, cut away from yourself, no pins under the blade; " +
		"a hot knife only on synthetics, with fresh air, and never left alone."
	hoopCaution = "Hoops: steel springs open when its tie is cut, and its ends are sharp. Wear eye protection, cut it " +
		"with cutters made for it, and cap or tape both ends. A wide skirt reaches flames and steps that its wearer " +
		"does not see."
)

// Cautions returns what to mind with these cloths.
func Cautions(spreads []plan.Spread) []string {
	all := []string{cutCaution}
	if slices.ContainsFunc(spreads, func(s plan.Spread) bool {
		return drafts(s, func(made draft.Result) bool { return len(made.Hoops) > 0 })
	}) {
		all = append(all, hoopCaution)
	}
	if slices.ContainsFunc(spreads, func(s plan.Spread) bool {
		return s.Cloth.Net || drafts(s, func(made draft.Result) bool { return made.Net })
	}) {
		all = slices.Insert(all, 0, netCaution)
	}
	return all
}

// drafts finds a draft of a kind in a spread, whatever the cloth is called.
func drafts(s plan.Spread, kind func(draft.Result) bool) bool {
	return slices.ContainsFunc(s.Cuts, func(c plan.Cut) bool {
		return slices.ContainsFunc(c.Part.Layers, func(l job.Layer) bool {
			made, _ := l.Drafted()
			return l.Cloth == s.Cloth.ID && kind(made)
		})
	})
}
