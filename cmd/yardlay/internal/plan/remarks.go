package plan

import (
	"fmt"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes"
	"yardlay/shapes/measure"
)

// remarks returns what the maker is told about the drafts: where one is drawn
// otherwise than asked for, and how, and what mind says. Lengths are shown in a unit. Layers of a part
// are drawn alike, so the outer one speaks for all.
func remarks(j *job.Job, unit measure.Unit) ([]string, error) {
	var list []string
	for _, part := range j.Parts {
		if len(part.Layers) == 0 {
			continue
		}
		noted, ok := part.Layers[0].Draft.(shapes.Noted)
		if !ok {
			continue
		}
		notes, err := noted.Notes()
		if err != nil {
			return nil, j.ErrorAt(part.At, fmt.Errorf("part `%s`: %w", part.Name, err))
		}
		for _, n := range notes {
			list = append(list, part.Name+": "+inUnit(n, unit))
		}
	}
	more, err := mind(j, unit)
	return append(list, more...), err
}
