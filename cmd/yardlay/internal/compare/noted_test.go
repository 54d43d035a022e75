package compare

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// What is out of the ordinary with the whole is noted: prices that stay while the width varies, in the unit of who
// asks, rows that are less full, cloths without a price, a freer nap or a leaning grain of the best row alone.
func TestNotesOnTheWhole(t *testing.T) {
	usd := cost.Money{Minor: 900, Currency: "USD"}
	cloth := func(width float64, price cost.Money, nap job.Nap) job.Cloth {
		c := job.Cloth{ID: "satin", Width: width, Nap: nap}
		c.Offer.Price, c.Priced = price, price.Minor > 0
		return c
	}
	rows := func(now job.Cloth, tilt float64, best bool) []Row {
		w := laidRow("as written", nest.Proved)
		w.Job = &job.Job{Cloths: []job.Cloth{cloth(1000, usd, job.OneWay)},
			Parts: []job.Part{{Name: "a skirt", Called: "skirt"}}}
		v := laidRow("other", nest.Proved)
		v.Best, v.thin = best, !best
		v.Job = &job.Job{Cloths: []job.Cloth{now}, Parts: []job.Part{{Name: "a skirt", Called: "skirt", Tilt: tilt},
			{Name: "a skirt", Called: "skirt", Tilt: tilt}}}
		return []Row{w, v}
	}
	kept := func(asked string) string {
		return "Prices stay as in the job when the width varies. To give each width its price: satin.width+satin.price is " +
			asked + "."
	}
	const thin = "A row that narrower cloth makes less full is another gown, and is not marked as the best."
	const nap = "The best row takes a freer nap than the job. Only the cloth can allow that: with a pile, a sheen or a " +
		"print that shows, all pieces point one way."
	const lean = "The best row lets pieces of skirt lean off the grain, which the job does not. They may twist or hang " +
		"unevenly: only where the cloth bears it, and never where stripes or a sheen show it."
	dearer := cost.Money{Minor: 901, Currency: "USD"}
	for _, c := range []struct {
		rows []Row
		unit measure.Unit
		want []string
	}{
		{rows(cloth(1000, usd, job.OneWay), 0, true), measure.Inch, []string{}},
		{rows(cloth(1200, usd, job.OneWay), 0, true), measure.Inch, []string{kept("45in+9.80/yd,60in+14/yd")}},
		{rows(cloth(1200, usd, job.OneWay), 0, true), measure.Centimetre, []string{kept("114cm+9.80/m,150cm+14/m")}},
		{rows(cloth(1200, dearer, job.OneWay), 0, false), measure.Inch, []string{thin}},
		{rows(cloth(1200, cost.Money{}, job.TwoWay), 0, true), measure.Inch, []string{nap}},
		{rows(cloth(1000, usd, job.TwoWay), 4, false), measure.Inch, []string{thin}},
		{rows(cloth(1000, usd, job.OneWay), 4, true), measure.Inch, []string{lean}},
	} {
		r := &Result{Rows: c.rows, Unit: c.unit, Notes: []string{}, asking: func(keys, values string) string {
			return keys + " is " + values
		}}
		r.note(t.Context())
		if diff := cmp.Diff(c.want, r.Notes); diff != "" {
			t.Error(diff)
		}
	}
}

// A picture of lengths names what every row buys alike, what the figures below are, and rows that are not there.
func TestNotesOnAPictureOfLengths(t *testing.T) {
	nan := math.NaN()
	varying := series{id: "satin", per: measure.Yard, bought: []float64{nan, 914.4}, least: []float64{nan, 900}}
	same := series{id: "net", per: measure.Metre, bought: []float64{nan, 1200, 1200}, least: []float64{nan, 1200, 1200}}
	const dashes = "Dashes: no layout could undercut this. Where there is none the purchase is proved minimal."
	for _, c := range []struct {
		rows []Row
		all  []series
		same []series
		even bool
		want []string
	}{
		{[]Row{{Report: &report.Report{}}}, []series{same}, nil, false, nil},
		{[]Row{{Report: &report.Report{}, Cost: "1.00"}}, []series{varying}, []series{same}, true,
			[]string{"The same everywhere: net 1.20 m.", "Below each value: what all cloth costs, USD.", dashes,
				"The values stand evenly, not to scale."}},
		{[]Row{{Name: "wide", Brief: "too wide"}, {Report: &report.Report{}, Cost: "1.00", Price: "2.00"},
			{Name: "odd", Brief: "it has no price", Unpriced: true}}, []series{same}, nil, false,
			[]string{"Below each value: what the gown costs, USD.", "wide was not laid: too wide.",
				"odd was not priced: it has no price."}},
	} {
		if diff := cmp.Diff(c.want, (&Result{Rows: c.rows, Currency: "USD"}).pointNotes(c.all, c.same, c.even)); diff != "" {
			t.Error(diff)
		}
	}
	in := varying.in(measure.Metre)
	if in.Name != "satin" || !math.IsNaN(in.Values[0]) || in.Values[1] != 0.9144 || in.Least[1] != 0.9 ||
		!slices.Equal(in.Labels, []string{"", "1"}) {
		t.Errorf("%+v", in)
	}
	for _, c := range []struct {
		row  *Row
		want []string
	}{
		{&Row{}, []string{"45", "not laid"}}, {&Row{Report: &report.Report{}}, []string{"45"}},
		{&Row{Report: &report.Report{}, Cost: "1.00"}, []string{"45", "1.00"}},
		{&Row{Report: &report.Report{}, Cost: "1.00", Price: "2.00"}, []string{"45", "2.00"}},
	} {
		if got := (valued{name: "45", row: c.row}).lines(); !slices.Equal(got, c.want) {
			t.Errorf("below a value stands %q, want %q", got, c.want)
		}
	}
}
