package job

import (
	"yardlay/shapes/draft"
)

// Keys of what goes round or has free ends.
var (
	closedKey = Key{"closed", truth, "false", "it goes round, as a ruffle on a hem does: its ends are joined too"}
	endHemKey = Key{"end_hem", lengthOr0, "hem allowance, 1/2 in at the most",
		"hem allowance of each free end; 0 leaves it raw"}
)

// ends reads whether a part goes round, and the hem of its free ends in each layer.
func (p *partTable) ends() (closed bool, hem func(layer) float64) {
	closed = p.Truth("closed", false)
	p.onlyFree("end_hem", closed)
	return closed, p.endHem()
}

// endHem reads the hem of free ends in each layer.
func (p *partTable) endHem() func(layer) float64 {
	asked := p.LengthOr("end_hem", 0)
	if p.Has("end_hem") {
		return func(layer) float64 { return asked }
	}
	return func(l layer) float64 { return min(l.allow.Hem, draft.MostEndHem) }
}

// onlyFree refuses an allowance of free ends where there are none.
func (p *partTable) onlyFree(key string, closed bool) {
	if closed && p.Has(key) {
		p.Fail(p.Field(key).At, "leave out one of them", "%s has `%s` and is `closed`: it has no free ends", p.Name,
			key)
	}
}
