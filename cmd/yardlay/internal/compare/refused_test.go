package compare

import (
	"context"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/say"
)

// widthsOf are ways of other widths of flags in inches.
func widthsOf(all ...string) [][]job.Change {
	var ways [][]job.Change
	for _, w := range all {
		ways = append(ways, one("flag", "width", w))
	}
	return ways
}

// unlaid holds that a row is not laid, counts for nothing, and says why.
func unlaid(t *testing.T, row Row, why string) {
	t.Helper()
	text, err := json.Marshal(row)
	if row.Report != nil || row.Best || row.Cost != "" || row.Price != "" || row.Proved || row.Gap != 0 ||
		row.Difference != nil || row.Why != why || row.Brief == "" || row.Skipped || row.Err == nil {
		t.Errorf("%s: %q, %q, priced %q, best: %v; want %q", row.Name, row.Why, row.Brief, row.Price, row.Best, why)
	}
	if err != nil || !strings.Contains(string(text), `"cloths":[]`) ||
		!strings.Contains(string(text), `"difference":null`) {
		t.Errorf("in JSON it is %s, %v", text, err)
	}
}

// Prices in another currency are not set beside those of the job.
func TestNothingIsConverted(t *testing.T) {
	r := run(t, flags, plan.Options{}, "currency=EUR,USD", "flag.width=9")
	if len(r.Rows) != 3 || r.Currency != "USD" {
		t.Fatalf("rows are %q in %s", names(r), r.Currency)
	}
	unlaid(t, r.Rows[1], "its prices are in EUR, those of the job in USD: nothing is converted")
	if r.Rows[2].Report == nil {
		t.Errorf("in the currency of the job: %s", r.Rows[2].Why)
	}
}

// What else is checked of a job is refused before anything is laid, a row at a time: at
// its place in the file, which the table leaves out. A lone row ends what searches it as
// by itself.
func TestRowsAreCheckedBeforeTheyAreLaid(t *testing.T) {
	file := testjobs.File(t, "flags.toml", flags)
	checked, searched := 0, false
	o := Options{Options: plan.Options{Effort: nest.Trial, Progress: func(p plan.Progress) {
		searched = searched || p.Phase != "drafting"
	}}}
	o.Check = func(j *job.Job) error {
		if checked++; searched {
			t.Error("checked behind the search")
		}
		if j.Parts[0].Layers[0].Cloth != "satin" {
			t.Error("it is another job")
		}
		if checked == 1 {
			return nil
		}
		return j.ErrorAt(strict.Position{Line: 7, Column: 1}, say.Errorf("no pole for it"))
	}
	r, err := Run(t.Context(), file, nil, widthsOf("9", "10"), o)
	if err != nil || checked != 3 || r.Rows[0].Report == nil || !r.Rows[0].Best {
		t.Fatalf("%d rows checked, %v", checked, err)
	}
	for _, row := range r.Rows[1:] {
		unlaid(t, row, "no pole for it")
	}
	checked, searched, o.Whole = 1, false, true
	var placed *strict.Error
	_, err = Run(t.Context(), file, nil, widthsOf("9"), o)
	if !errors.As(err, &placed) || placed.At.Line != 7 || searched {
		t.Errorf("the job as written is refused: %v, searched: %v", err, searched)
	}
}

// A row that cannot be priced once it is laid counts no more than one that cannot be laid,
// though it would take the least cloth.
func TestUnpricedRowsDoNotCount(t *testing.T) {
	file := testjobs.File(t, "flags.toml", flags)
	o := Options{Options: plan.Options{Effort: nest.Trial}}
	written := int64(0)
	o.Price = func(_ context.Context, _ *job.Job, r *report.Report) (Priced, error) {
		if written == 0 {
			written = r.Bill.Total.Minor
		}
		if r.Bill.Total.Minor < written {
			return Priced{}, say.Errorf("nobody sells so little")
		}
		return Priced{Price: r.Bill.Total, More: true}, nil
	}
	r, err := Run(t.Context(), file, nil, [][]job.Change{one("flag", "length", "4"), one("flag", "length", "40")}, o)
	if err != nil {
		t.Fatal(err)
	}
	totals := map[bool]int{}
	for _, row := range r.Rows {
		if totals[row.Unpriced]++; row.Unpriced {
			unlaid(t, row, "nobody sells so little")
		} else if row.Report == nil || row.Price != row.Cost {
			t.Errorf("%s costs %q, priced %q: %s", row.Name, row.Cost, row.Price, row.Why)
		}
	}
	const why = "not priced: nobody sells so little"
	if r.Rows[1].WhyNot() != why {
		t.Errorf("it says %q", r.Rows[1].WhyNot())
	}
	has(t, svgOf(t, r), why)
	if totals[true] != 1 || !r.Rows[0].Best {
		t.Errorf("%v unpriced; the job as written: %s", totals, r.Rows[0].Why)
	}
}

// Cloths that together cost more than can be counted, each of them less, keep their own row
// from a price, and no other.
func TestSumsTooLargeKeepOnlyTheirRow(t *testing.T) {
	const most = "90000000000000000.00/yd"
	r := run(t, flags, plan.Options{}, "satin.price="+most+",9/yd", "net.price="+most+",9/yd")
	if len(r.Rows) != 5 {
		t.Fatalf("rows are %q", names(r))
	}
	for i, row := range r.Rows {
		if i == 1 {
			continue
		}
		if row.Report == nil || row.Unpriced || row.Cost == "" || row.Best != (i == 0) {
			t.Errorf("%s: %q, best: %v, %s", row.Name, row.Cost, row.Best, row.Why)
		}
	}
	unlaid(t, r.Rows[1], r.Rows[1].Why)
	why := r.Rows[1].WhyNot()
	if !strings.HasPrefix(why, "not priced: ") || !strings.HasSuffix(why, "too large to count") {
		t.Errorf("it says %q", why)
	}
}
