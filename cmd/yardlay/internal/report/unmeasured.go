package report

import (
	"fmt"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/measure"
)

// unmeasured tells by which measures a body is drafted that nobody took, those of each
// source in one sentence.
func unmeasured(j *job.Job, unit measure.Unit) (all []remark) {
	for _, body := range j.Bodies {
		var sources []string
		said, by := map[string][]string{}, map[string][]string{}
		for _, part := range j.Parts {
			if part.Body != body.Name {
				continue
			}
			for _, u := range part.Unmeasured {
				if !slices.Contains(sources, u.From) {
					sources = append(sources, u.From)
				}
				by[u.From] = append(by[u.From], part.Name)
				one := fmt.Sprintf("`%s` %s", u.Name, unit.Size(u.MM))
				if !slices.Contains(said[u.From], one) {
					said[u.From] = append(said[u.From], one)
				}
			}
		}
		for _, from := range sources {
			begin := "Not measured"
			if body.Name != "" {
				begin = body.Name + ": not measured"
			}
			text := fmt.Sprintf("%s, %s: %s. Measure before you cut.", begin, from, strings.Join(said[from], ", "))
			all = append(all, remark{text: text, parts: slices.Compact(by[from])})
		}
	}
	return all
}
