package compare

import (
	"context"
	"testing"

	"pgregory.net/rapid"

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

// A row whose gown takes nothing but cloth is weighed by that against rows that take more,
// as it is printed, and not as if it were for nothing.
func TestClothAloneIsWeighedAgainstWholeGowns(t *testing.T) {
	for _, c := range []struct{ cloth, gown, best int64 }{{1000, 900, 1}, {900, 1000, 0}, {1000, 1001, 0}} {
		r := Result{Rows: []Row{*rowOf(c.cloth, nest.Open, 0), *rowOf(800, nest.Open, 1)}}
		r.Rows[0].Cost = "9.00"
		o := Options{Price: func(_ context.Context, _ *job.Job, of *report.Report) (Priced, error) {
			return Priced{Price: cost.Money{Minor: c.gown, Currency: "USD"}, More: of == r.Rows[1].Report}, nil
		}}
		r.price(t.Context(), o)
		if r.Rows[0].Price != r.Rows[0].Cost {
			t.Errorf("the gown of cloth alone is priced %q, its cloth %q", r.Rows[0].Price, r.Rows[0].Cost)
		}
		if r.weigh(); !r.Rows[c.best].Best {
			t.Errorf("cloth of %d beside a gown of %d: row %d is not the best", c.cloth, c.gown, c.best+1)
		}
	}
}

// One of two rows comes before the other or they are equal, and what comes before what
// comes before a third comes before that; the best row comes behind none.
func TestRowsAreOrdered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var r Result
		for range rapid.IntRange(3, 6).Draw(t, "rows") {
			row := rowOf(int64(rapid.IntRange(1, 3).Draw(t, "cost")), nest.Lay(rapid.IntRange(0, 1).Draw(t, "lay")),
				rapid.IntRange(0, 2).Draw(t, "changes"))
			row.thin = rapid.Bool().Draw(t, "thin")
			row.price.Minor = int64(rapid.IntRange(1, 2).Draw(t, "price"))
			if rapid.Bool().Draw(t, "unpriced") {
				row.Report.Cloths[0].Cost, row.Report.Cloths[0].Bought = "", float64(rapid.IntRange(1, 2).Draw(t, "bought"))
			}
			r.Rows = append(r.Rows, *row)
		}
		r.weigh()
		bests := 0
		for i := range r.Rows {
			a := &r.Rows[i]
			if a.Best {
				bests++
			}
			for k := range r.Rows {
				b := &r.Rows[k]
				if precedes(a, b) && (precedes(b, a) || b.Best) {
					t.Fatalf("row %d comes before row %d, which does before it or is the best", i, k)
				}
				for m := range r.Rows {
					if c := &r.Rows[m]; precedes(a, b) && precedes(b, c) && !precedes(a, c) {
						t.Fatalf("rows %d, %d, %d follow each other, and the last not the first", i, k, m)
					}
				}
			}
		}
		if bests != 1 {
			t.Fatalf("%d rows are the best", bests)
		}
	})
}
