package compare

import (
	"fmt"
	"slices"
	"strings"

	"yardlay/shapes/say"
)

// pick keeps the best of the rows that are steps of one choice, and passes the others over.
func (r *Result) pick(keys []string) {
	for _, key := range keys {
		var kept *Row
		var steps []*Row
		laid := 0
		for i := range r.Rows {
			row := &r.Rows[i]
			if i == 0 || stepped(row.Changes) != key {
				continue
			}
			steps = append(steps, row)
			if row.Report != nil {
				laid++
			}
			if kept == nil || row.Report != nil && (kept.Report == nil || precedes(row, kept)) {
				kept = row
			}
		}
		var others []string
		for _, row := range steps {
			if row.PassedOver = row != kept; row.PassedOver && row.Report != nil {
				others = append(others, row.Changes[0].Value)
			}
		}
		if len(others) > 0 {
			where := "within"
			if strings.HasSuffix(key, acrossKey) {
				where = "at"
			}
			kept.Notes = append(kept.Notes, fmt.Sprintf("the best of %d places for the cut; %s %s it costs as much or more.",
				laid, where, say.InWords(others, "and")))
		}
	}
}

// Shown are the rows but those that are passed over.
func (r *Result) Shown() []Row {
	return slices.DeleteFunc(slices.Clone(r.Rows), func(w Row) bool { return w.PassedOver })
}
