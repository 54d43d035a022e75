package compare

import (
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cost"
	"yardlay/nest"
)

// rowOf is a row that costs so much, of one cloth on a lay.
func rowOf(minor int64, lay nest.Lay, changes int) *Row {
	c := report.Cloth{Cost: "1", Laid: plan.Laid{Task: plan.Task{Lay: lay}}}
	return &Row{
		Changes: make([]job.Change, changes),
		Report: &report.Report{Cloths: []report.Cloth{c},
			Bill: cost.Bill{Total: cost.Money{Minor: minor, Currency: "USD"}}},
	}
}

func TestTiesGoByCostThenEase(t *testing.T) {
	unpriced := func(mm float64) *Row {
		r := rowOf(0, nest.Open, 1)
		r.Report.Cloths[0].Cost, r.Report.Cloths[0].Bought = "", mm
		return r
	}
	for _, c := range []struct {
		name   string
		better *Row
		worse  *Row
	}{
		{"cheaper", rowOf(100, nest.LengthwiseFold, 9), rowOf(101, nest.Open, 1)},
		{"open before folded", rowOf(100, nest.Open, 2), rowOf(100, nest.LengthwiseFold, 1)},
		{"fewer changes", rowOf(100, nest.Open, 1), rowOf(100, nest.Open, 2)},
		{"less of what has no price", unpriced(900), unpriced(1000)},
	} {
		if !precedes(c.better, c.worse) || precedes(c.worse, c.better) {
			t.Errorf("%s does not come first", c.name)
		}
	}
	if a, b := rowOf(5, nest.Open, 1), rowOf(5, nest.Open, 1); precedes(a, b) || precedes(b, a) {
		t.Error("equal rows come before each other")
	}
}

func TestDifferenceCountsClothsThatComeAndGo(t *testing.T) {
	written, row := rowOf(1000, nest.Open, 0), rowOf(1250, nest.Open, 1)
	written.Cost, row.Cost, row.Report.Currency = "10.00", "12.50", "USD"
	written.Cloths = []Cloth{{ID: "satin", Bought: 3000}, {ID: "net", Bought: 500}}
	row.Cloths = []Cloth{{ID: "satin", Bought: 2500}, {ID: "lining", Bought: 2000}}
	row.differ(written)
	if d := row.Difference; d.Cost != "2.50" || d.Length != 1000 {
		t.Errorf("the difference is %+v", d)
	}
	if row.Cloths[0].Difference != -500 || row.Cloths[1].Difference != 2000 {
		t.Errorf("by cloth it is %+v", row.Cloths)
	}
}
