package compare

import (
	"context"
	"strings"
	"testing"
	"time"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
)

// A row whose cloth comes in bolts is told to be cut short as any other is, though nothing
// of it is cut by the length.
func TestRowsOfBoltsAreToldToBeCutShort(t *testing.T) {
	const bolts = "price = \"9/yd\"\nwhole_bolts = true\nbolt = [ { length = \"3 yd\", price = \"20\" }, " +
		"{ length = \"2 yd\", price = \"15\" } ]"
	for _, offer := range []string{`price = "9/yd"`, bolts} {
		file := testjobs.File(t, "job.toml", testjobs.Panels(9, "11", "37", offer))
		ctx, cancel := context.WithDeadline(t.Context(), time.Now().Add(-time.Second))
		r, err := Run(ctx, file, nil, [][]job.Change{}, Options{Options: plan.Options{Effort: nest.Quick, Workers: 1}})
		cancel()
		if err != nil {
			t.Fatal(err)
		}
		if notes := strings.Join(r.Notes, "\n"); r.Rows[0].Report == nil || !strings.Contains(notes, "Out of time") {
			t.Errorf("%s: the notes are %q", offer, notes)
		}
	}
}
