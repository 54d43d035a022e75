package report

import (
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// remark is what the maker is told about the draft of a part.
type remark struct {
	text  string
	parts []string // that it is about, by name
	cloth string   // that it is about; "" for all that they are cut in
}

// concerns says whether a remark is about what is cut from a cloth.
func (r remark) concerns(s plan.Spread) bool {
	return (r.cloth == "" || r.cloth == s.Cloth.ID) && slices.ContainsFunc(s.Cuts, func(c plan.Cut) bool {
		return slices.Contains(r.parts, c.Part.Name)
	})
}

// texts returns what some remarks say.
func texts(remarks []remark) []string {
	var list []string
	for _, r := range remarks {
		list = append(list, r.text)
	}
	return list
}

// RemarksOn returns those of the remarks that are about the pieces of a cloth.
func (l CutList) RemarksOn(s plan.Spread) []string {
	var list []remark
	for _, r := range l.remarks {
		if r.concerns(s) {
			list = append(list, r)
		}
	}
	return texts(list)
}

// remarks returns what the maker is told about the drafts: where one is drawn
// otherwise than asked for, and how, and what mind says. Lengths are shown in a unit. Layers of a part
// are drawn alike, so the outer one speaks for all.
func remarks(j *job.Job, unit measure.Unit) ([]remark, error) {
	var list []remark
	for _, part := range j.Parts {
		if len(part.Layers) == 0 {
			continue
		}
		made, err := part.Layers[0].Drafted()
		if err != nil {
			return nil, j.ErrorAt(part.At, say.Errorf("part `%s`: %w", part.Name, err))
		}
		if text := placeWords(j, part, unit); text != "" {
			list = append(list, remark{text: text, parts: []string{part.Name}})
		}
		for _, n := range made.Notes {
			list = append(list, remark{text: part.Name + ": " + n.In(unit.Size), parts: []string{part.Name}})
		}
	}
	more, err := mind(j, unit)
	return slices.Concat(list, unmeasured(j, unit), more), err
}
