package compare

import (
	"testing"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// Who watches a comparison sees every row that is drawn, laid one after the other and never
// taken back, refused ones from the start; in the end no row costs more than it was shown to.
func TestStandsRowByRow(t *testing.T) {
	file := testjobs.File(t, "job.toml", testjobs.Small)
	ways := Defaults(file.Job())
	ways = append(ways[:often.Full(len(ways)/2, len(ways))], []job.Change{{Key: "wool.width", Value: "3 in"}})
	effort := often.Full(nest.Trial, nest.Quick)
	laid, told := -1, 0
	shown := map[string]int64{}
	r, err := Run(t.Context(), file, nil, ways, Options{Options: plan.Options{Effort: effort, Workers: 2,
		Unit: measure.Inch}, Stands: func(now *Result) {
		told++
		n := 0
		for i, row := range now.Rows {
			switch last := now.Rows[0].Report != nil; {
			case row.Report != nil:
				n++
				shown[row.Name] = row.Report.Bill.Total.Minor
				if (row.Difference != nil) != (last && i > 0) {
					t.Errorf("%s is not set against the job as written", row.Name)
				}
			case len(row.Changes) == 1 && row.Changes[0].Value == "3 in" && row.Why == "":
				t.Errorf("%s is refused, and waits", row.Name)
			}
		}
		if told == 1 && n != 0 || n < laid || told > 1 && n == laid {
			t.Errorf("%d rows laid after %d", n, laid)
		}
		laid = n
	}})
	if err != nil {
		t.Fatal(err)
	}
	final := 0
	for _, row := range r.Rows {
		if row.Report == nil {
			continue
		}
		final++
		was, ok := shown[row.Name]
		if !ok {
			t.Errorf("%s was never shown", row.Name)
		}
		if now := row.Report.Bill.Total.Minor; now > was {
			t.Errorf("%s costs %v, shown was %v", row.Name, now, was)
		}
	}
	if laid != final || final < 3 {
		t.Errorf("%d rows were shown, %d are laid", laid, final)
	}
}
