package compare

import (
	"context"
	"errors"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/report"
	"yardlay/nest"
)

// unfinished says which rows a run that ended early did not lay, and which it laid
// with less search than was asked for; nothing for a run that came to its end.
func (r *Result) unfinished(ctx context.Context) []string {
	var missing, early []string
	for _, row := range r.Rows {
		switch {
		case row.Skipped:
			missing = append(missing, row.Name)
		case row.early():
			early = append(early, row.Name)
		}
	}
	if len(missing)+len(early) == 0 {
		return nil
	}
	note := "Out of time: the best layouts so far are kept. They hold, but more time may save cloth."
	if errors.Is(ctx.Err(), context.Canceled) {
		note = "Interrupted: the best layouts so far are kept. They hold, but a full run may take less cloth."
	}
	if len(early) > 0 && len(missing)+len(early) < len(r.Rows) {
		note += " Not searched to the end: " + strings.Join(early, "; ") + "."
	}
	if len(missing) > 0 {
		note += " Not laid at all: " + strings.Join(missing, "; ") + "."
	}
	return []string{note}
}

// early says whether the search on a cloth of the row was cut short.
func (w *Row) early() bool {
	return w.Report != nil && slices.ContainsFunc(w.Report.Cloths, func(c report.Cloth) bool {
		return c.Ended == nest.OutOfTime || c.Ended == nest.Stopped
	})
}

// mayShorten says whether a longer search might let less be bought for the row.
func (w *Row) mayShorten() bool {
	return w.Report != nil && slices.ContainsFunc(w.lots, func(one *lot) bool { return !one.laid.Proved() })
}
