package compare

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/nest"
)

// What is pinned stays where it is, on every lay, in the job as written and in rows that lay the same; other rows are
// laid without and say so, though they may begin with its layout like with that of any other row. None of them takes
// a piece of it away, however much less they buy.
func TestRowsThatBegin(t *testing.T) {
	for _, lay := range []string{"open", "lengthwise-fold", "crosswise-fold"} {
		src := strings.Replace(wedges, `price = "12.00/yd"`, `price = "12.00/yd"`+"\nnap = \"two-way\"\nlay = \""+lay+`"`, 1)
		f, err := job.Read("gored.toml", []byte(src))
		if err != nil {
			t.Fatal(err)
		}
		o := plan.Options{Effort: nest.Trial}
		first, err := plan.Lay(t.Context(), f.Job(), o)
		if err != nil {
			t.Fatal(err)
		}
		pins := make([][]nest.Placed, len(first[0].Results))
		for i, r := range first[0].Results {
			pins[i] = slices.Clone(r.Layout.Placed)
			for k := range pins[i] { // a yard behind where the search has them
				pins[i][k].At[0] += 1024
			}
		}
		o.Begin = func(task plan.Task) plan.Task {
			if task.Stretches[0].Lay == first[0].Task.Stretches[0].Lay {
				return task.WithPins(pins)
			}
			return task
		}
		r := run(t, src, o, "satin.price=9/yd,8/yd", "satin.nap=two-way,all-way,one-way")
		same := 0
		for _, row := range r.Rows {
			if row.Report == nil { // a fold takes no such nap
				continue
			}
			l := row.Report.Cloths[0].Laid
			if !reflect.DeepEqual(l.Task.Problem, r.Rows[0].Report.Cloths[0].Laid.Task.Problem) {
				if !slices.Equal(row.Anew, []string{"satin"}) || l.Task.Pinned() > 0 {
					t.Errorf("%s, %s: anew %v, %d pinned", lay, row.Name, row.Anew, l.Task.Pinned())
				}
				continue
			}
			same++
			for i, one := range l.Results {
				for _, pin := range pins[i] {
					if !slices.Contains(one.Layout.Placed, pin) {
						t.Errorf("%s, %s: %v is not where it was pinned", lay, row.Name, pin)
					}
				}
			}
			if row.LaidAnew() != "" {
				t.Errorf("%s, %s: %s", lay, row.Name, row.LaidAnew())
			}
		}
		if same < 3 {
			t.Errorf("%s: %d rows lay the same", lay, same)
		}
	}
}
