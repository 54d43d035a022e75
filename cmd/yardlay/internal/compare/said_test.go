package compare

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// A row that cuts a part otherwise says how much more or less is sewn, cut and paid for it, from 5 mm on;
// one that changes its cloth alone says nothing.
func TestHowMuchMoreIsSewn(t *testing.T) {
	usd := func(minor int64) cost.Money { return cost.Money{Minor: minor, Currency: "USD"} }
	j := &job.Job{Parts: []job.Part{{Called: "full skirt"}, {Called: "satin"}}, Cloths: []job.Cloth{{ID: "satin"}}}
	was := &Priced{Seam: 5 * measure.Yards, Pieces: 10, Labour: usd(4000), Rated: true}
	for _, c := range []struct {
		key string
		now *Priced
		was *Priced
		job *job.Job
		say string
	}{
		{"part.full-skirt.gores", &Priced{Seam: 8.125 * measure.Yards, Pieces: 20, Labour: usd(4900), Rated: true}, was, j,
			"3 1/8 yd more of seam to sew, 10 pieces more to cut; labour 9.00 USD more"},
		{"full-skirt.gores", &Priced{Seam: 4 * measure.Yards, Pieces: 9, Labour: usd(3100), Rated: true}, was, j,
			"1 yd less of seam to sew, 1 piece fewer to cut; labour 9.00 USD less"},
		{"FULL-SKIRT.gores", &Priced{Seam: 4 * measure.Yards, Pieces: 10, Labour: usd(4000), Rated: true}, was, j,
			"1 yd less of seam to sew; labour is the same, in quarters of an hour"},
		{"full-skirt.gores", &Priced{Seam: 6 * measure.Yards, Pieces: 10, Labour: usd(1)}, was, j,
			"1 yd more of seam to sew"},
		{"full-skirt.gores", &Priced{Seam: 6 * measure.Yards, Pieces: 10, Labour: cost.Money{Minor: 1, Currency: "EUR"},
			Rated: true}, was, j, "1 yd more of seam to sew"},
		{"full-skirt.gores", &Priced{Seam: 5*measure.Yards + 4.9, Pieces: 12}, was, j, ""},
		{"full-skirt.gores", &Priced{Seam: 5*measure.Yards - 2*measure.Inches, Pieces: 10}, was, j,
			"2 in less of seam to sew"},
		{"full-skirt.gores", &Priced{Seam: 5*measure.Yards + 5, Pieces: 10}, was, j, "3/16 in more of seam to sew"},
		{"full-skirt.gores", nil, was, j, ""}, {"full-skirt.gores", &Priced{Seam: 1}, nil, j, ""},
		{"satin.width", &Priced{Seam: 8 * measure.Yards}, was, j, ""}, {"gap", &Priced{Seam: 8 * measure.Yards}, was, j, ""},
		{"full-skirt.gores", &Priced{Seam: 8 * measure.Yards}, was, nil, ""},
	} {
		row := Row{Changes: []job.Change{{Key: c.key}}, Job: c.job, priced: c.now, Difference: &Difference{}}
		row.sewnMore(&Row{priced: c.was}, row.Difference)
		if got := row.Sewn(measure.Inch, "USD"); got != c.say {
			t.Errorf("%s: %q, want %q", c.key, got, c.say)
		}
	}
	if got := (Row{}).Sewn(measure.Inch, "USD"); got != "" {
		t.Errorf("the job as written: %q", got)
	}
}

// laidRow is a row of cloths that ended so.
func laidRow(name string, all ...nest.Status) Row {
	w := Row{Name: name, Report: &report.Report{}, Job: &job.Job{}}
	for _, s := range all {
		w.Report.Cloths = append(w.Report.Cloths, report.Cloth{Ended: s})
	}
	return w
}

// A run that was cut short says which rows it did not lay, and which it searched less, unless that is all of them.
func TestWhichRowsAreUnfinished(t *testing.T) {
	const late = "Out of time: the best layouts so far are kept. They hold, but more time may save cloth."
	const broken = "Interrupted: the best layouts so far are kept. They hold, but a full run may take less cloth."
	skipped := func(name string) Row { return Row{Name: name, Skipped: true} }
	cancelled, cancel := context.WithCancel(t.Context())
	cancel()
	for _, c := range []struct {
		ctx  context.Context
		rows []Row
		want []string
	}{
		{t.Context(), []Row{laidRow("a", nest.Finished), laidRow("b", nest.Proved)}, nil},
		{t.Context(), []Row{laidRow("a", nest.OutOfTime), laidRow("b", nest.Finished)},
			[]string{late + " Not searched to the end: a."}},
		{t.Context(), []Row{laidRow("a", nest.OutOfTime), laidRow("b", nest.Finished, nest.Stopped)}, []string{late}},
		{cancelled, []Row{laidRow("a", nest.Finished), laidRow("b", nest.Stopped), skipped("c"), skipped("d")},
			[]string{broken + " Not searched to the end: b. Not laid at all: c; d."}},
		{cancelled, []Row{laidRow("a", nest.Stopped), skipped("b")}, []string{broken + " Not laid at all: b."}},
	} {
		if diff := cmp.Diff(c.want, (&Result{Rows: c.rows}).unfinished(c.ctx)); diff != "" {
			t.Error(diff)
		}
	}
}

// Of the steps of one choice the best that is laid is shown, the first where none is, and it says what it is better
// than.
func TestTheBestOfSomeStepsIsShown(t *testing.T) {
	step := func(value string, minor int64) Row {
		w := *rowOf(minor, nest.Open, 1)
		w.Name, w.Changes[0] = value, job.Change{Key: "skirt.pieced.within", Value: value}
		if minor == 0 {
			w.Report = nil
		}
		return w
	}
	key := stepped(step("1", 1).Changes)
	if key == "" {
		t.Fatal("a place for the cut is no step")
	}
	for _, c := range []struct {
		steps []Row
		shown string
		notes []string
	}{
		{[]Row{step("1", 300), step("2", 200), step("3", 200)}, "2",
			[]string{"the best of 3 places for the cut; within 1 and 3 it costs as much or more."}},
		{[]Row{step("1", 0), step("2", 0)}, "1", nil}, {[]Row{step("1", 0), step("2", 200)}, "2", nil},
		{[]Row{step("1", 100), step("2", 0), step("3", 200)}, "1",
			[]string{"the best of 2 places for the cut; within 3 it costs as much or more."}},
		{[]Row{step("1", 100)}, "1", nil},
	} {
		written := *rowOf(1, nest.Open, 0)
		written.Name = "as written"
		r := &Result{Rows: append([]Row{written}, c.steps...)}
		r.pick([]string{key, "other"})
		shown := r.Shown()
		if len(shown) != 2 || shown[0].Name != "as written" || shown[1].Name != c.shown ||
			!slices.Equal(shown[1].Notes, c.notes) {
			t.Errorf("shown are %+v", shown)
		}
	}
}

// Below the rows stands what the marks mean: what makes the best one so, what is saved, and what gaps are of where a
// shelf or a fold leaves more to try.
func TestLegendsOfTheMarks(t *testing.T) {
	const marks = " Lengths are as bought; +/- is the difference from the job as written. Gap: how much longer than its " +
		"bound the loosest marker of the row is"
	const proved = ". Proved: no less can be bought of any cloth."
	best := func(price, clothCost string, d *Difference, c report.Cloth) Row {
		return Row{Name: "best", Best: true, Price: price, Cost: clothCost, Difference: d, Job: &job.Job{},
			Report: &report.Report{Cloths: []report.Cloth{c}, Remarks: []string{"mind"}, Cautions: []string{"care"}}}
	}
	folded := report.Cloth{Stretches: []report.Stretch{{}}}
	shelved := report.Cloth{Shelf: &report.Shelf{}, Stretches: []report.Stretch{{}}}
	for _, c := range []struct {
		row       Row
		why, gaps string
	}{
		{best("12.00", "9.00", &Difference{Price: "-3.00", Cost: "1.00"}, report.Cloth{}),
			"the gown costs least: 12.00 USD, 3.00 less than as written, with all that its quote counts.", ""},
		{best("12.00", "9.00", nil, folded), "the gown costs least: 12.00 USD, with all that its quote counts.",
			", on a fold with what is cut double as it is; cutting others double may save more"},
		{best("", "9.00", &Difference{Cost: "-1.50"}, shelved),
			"the cloth costs least: 9.00 USD, 1.50 less than as written. Cloth alone is counted.",
			", with leftovers used as they are; another use of them may save more"},
		{best("", "9.00", &Difference{Cost: "1.50"}, report.Cloth{Stretches: []report.Stretch{{}}, Proved: true}),
			"the cloth costs least: 9.00 USD. Cloth alone is counted.", ""},
		{best("", "", nil, report.Cloth{Proved: true}), "takes the least cloth.", ""},
	} {
		c.row.Notes = []string{"so"}
		r := &Result{Currency: "USD", Rows: []Row{c.row, {Name: "gone", PassedOver: true, Notes: []string{"never"}}},
			Notes: []string{"all"}}
		want := []string{"* " + c.why + marks + c.gaps + proved, "best: so", "all", "mind", "care"}
		if diff := cmp.Diff(want, r.Said()); diff != "" {
			t.Error(diff)
		}
	}
	none := &Result{Rows: []Row{{Name: "as written"}}, Notes: []string{"all"}}
	if diff := cmp.Diff([]string{"No row can be laid. `yardlay quote` says why not, and what would help.", "all"},
		none.Said()); diff != "" {
		t.Error(diff)
	}
}

// What is asked for amiss says what, and how it is asked for.
func TestAskedAmissInWords(t *testing.T) {
	for text, want := range map[string][2]string{
		"satin.width": {"it has no =", "name a key and its values, for example satin.width=45in,60in"},
		"=45in": {"there is no key before the =",
			"name a key and its values, for example satin.width=45in,60in"},
		"satin.width=45in,,60in": {"a value is empty", "values are parted by commas: satin.width=45in,60in"},
		"a.width+a.width=1+2":    {"`a.width` is named twice", ""},
		"a.width+a.price=1": {`2 keys change together and "1" has 1 of their values`,
			"one value for each key, joined by +: satin.width+satin.price=45in+9.80/yd,60in+14/yd"},
	} {
		_, err := Ask(text)
		if what, hint := say.Parts(err, nil); err == nil || what != want[0] || hint != want[1] {
			t.Errorf("%q: %q, %q", text, what, hint)
		}
	}
	values := make([][]string, MostRows)
	for i := range values {
		values[i] = []string{fmt.Sprint(i)}
	}
	most := Asked{Keys: []string{"a.width"}, Values: values}
	if rows, err := Combine([]Asked{most, {Keys: []string{"b.width"}, Values: values[:1]}}); err != nil ||
		len(rows) != MostRows || len(rows[7]) != 2 {
		t.Errorf("%d rows of %d, %v", len(rows), MostRows, err)
	}
	if _, err := Combine([]Asked{most, {Keys: []string{"b.width"}, Values: values[:2]}}); err == nil {
		t.Error("twice as many rows as there may be")
	}
}

// What a hand has laid and a row lays anew is named by cloth.
func TestWhatIsLaidAnewIsNamed(t *testing.T) {
	if got := (Row{Anew: []string{"satin", "net"}}).LaidAnew(); got != "satin and net laid anew, not by hand" {
		t.Error(got)
	}
	if got := (Row{}).LaidAnew(); got != "" {
		t.Error(got)
	}
}
