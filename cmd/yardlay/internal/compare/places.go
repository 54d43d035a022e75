package compare

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/report"
	"yardlay/shapes/measure"
)

// placed notes where parts are pieced in a row for which that was chosen, and which of them are elsewhere than in the
// job as written.
func (w *Row) placed(written *Row, unit measure.Unit) {
	var elsewhere []string
	for _, p := range w.Job.Parts {
		text := report.PlaceOf(p, unit)
		if _, known := w.Places[p.Called]; known || text == "" {
			continue
		}
		if w.Places == nil {
			w.Places = map[string]string{}
		}
		w.Places[p.Called] = text
		if was, ok := written.Places[p.Called]; ok && was != text {
			elsewhere = append(elsewhere, p.Called+" "+text)
		}
	}
	w.elsewhere = strings.Join(elsewhere, ", ")
}

// Elsewhere says where parts are pieced in a row for which another place was chosen than for the job as written: "skirt
// pieced within 22 1/2 in"; "" where none are.
func (w Row) Elsewhere() string { return w.elsewhere }

// places says of each part for which rows have chosen different places which of them has which.
func (r *Result) places() (said []string) {
	all := map[string]map[string][]string{} // the names of rows by part and place
	for _, row := range r.Shown() {
		if row.Report == nil {
			continue
		}
		for part, at := range row.Places {
			if all[part] == nil {
				all[part] = map[string][]string{}
			}
			all[part][at] = append(all[part][at], row.Name)
		}
	}
	for _, part := range slices.Sorted(maps.Keys(all)) {
		if len(all[part]) < 2 {
			continue
		}
		var words []string
		for _, row := range r.Shown() { // in their order
			at := row.Places[part]
			if names := all[part][at]; len(names) > 0 && names[0] == row.Name && row.Report != nil {
				words = append(words, fmt.Sprintf("%s%s: %s.", strings.ToUpper(at[:1]), at[1:], strings.Join(names, "; ")))
			}
		}
		said = append(said, fmt.Sprintf("%s is cut where that costs least in each row. %s", part, strings.Join(words, " ")))
	}
	return said
}
