package report

import (
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes"
	"yardlay/shapes/draft"
)

// slit says of the seams of skirts how far they stay open for godets, which are set into the outer cloth.
func slit(j *job.Job, list []Seam) []Seam {
	for _, p := range j.Parts {
		if p.SlitInto == nil || len(p.Layers) == 0 {
			continue
		}
		godet, ok := p.Layers[0].Draft.(draft.Godet)
		skirt := j.Parts[p.SlitInto.Part]
		slits := p.SlitInto.Slits(j.Parts)
		whole, err := slits.Of.Draft()
		if !ok || err != nil {
			continue
		}
		for i, s := range list {
			known := slices.ContainsFunc(whole.Joins, func(j shapes.Join) bool { return j.Name == s.Name })
			if known && s.Part == skirt.Name && s.Cloth == skirt.Layers[0].Cloth && slits.Take(s.Name, s.Times) {
				list[i].Slit = &Opened{To: godet.Length, From: "hem", For: p.Called}
			}
		}
	}
	return list
}
