package compare

import (
	"context"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// Searches that can hardly let less be bought any more are left off, but not those of
// the job as written and of the best row: these come out as the same job laid by itself.
func TestBestRowIsSearchedToItsEnd(t *testing.T) {
	o := plan.Options{Effort: often.Full(nest.Trial, nest.Quick), Unit: measure.Inch, Workers: 2}
	r := run(t, wedges, o, "satin.width=26,31,33")
	off := 0
	for i, row := range r.Rows {
		if row.Report == nil {
			continue
		}
		if row.lots[0].unfinished() {
			off++
		}
		if i > 0 && !row.Best {
			continue
		}
		if row.lots[0].unfinished() {
			t.Errorf("%s was left off", row.Name)
		}
		j, err := testjobs.File(t, "flags.toml", wedges).With(row.Changes)
		if err != nil {
			t.Fatal(err)
		}
		alone, err := report.Run(t.Context(), j, plan.Options{Effort: o.Effort, Unit: o.Unit, Workers: 1})
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(alone.Cloths[0].Laid.Opened, row.lots[0].laid.Opened); diff != "" &&
			row.lots[0].other == nil {
			t.Errorf("%s: -by itself +compared\n%s", row.Name, diff)
		}
	}
	if off == 0 {
		t.Error("no search was left off")
	}
	t.Logf("%d of %d left off", off, len(r.Rows))
}

// Rows are searched alike, so that none looks better for being searched longer; a quote
// asks for the job as written as it comes out by itself.
func TestRowsAreSearchedAlike(t *testing.T) {
	for _, whole := range []bool{false, true} {
		l := layer{options: Options{Options: plan.Options{Workers: 1}, Whole: whole}}
		steady := map[int]bool{}
		l.each(t.Context(), []*lot{{row: 0}, {row: 1}, {row: 2}}, func(_ context.Context, one *lot, o plan.Options) {
			steady[one.row] = o.Steady
		})
		if want := map[int]bool{0: !whole, 1: true, 2: true}; !cmp.Equal(steady, want) {
			t.Errorf("whole %v: steady rows %v, want %v", whole, steady, want)
		}
	}
}
