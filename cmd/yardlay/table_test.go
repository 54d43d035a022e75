package main

import (
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cost"
	"yardlay/shapes/measure"
)

// What is bought fits its column, bolts with a cut beside them too.
func TestToBuyTellsBoltsFromCuts(t *testing.T) {
	yd := func(n float64) float64 { return n * measure.Yards }
	cut, bolt := cost.Part{Count: 1, Length: yd(9)}, cost.Part{Count: 1, Length: yd(25), Bolt: true}
	for want, c := range map[string]report.Cloth{
		"nothing":         {},
		"9 yd (8.23 m)":   {Bought: yd(9), Buy: cost.Purchase{Parts: []cost.Part{cut}}},
		"1 bolt, 25 yd":   {Bought: yd(25), Bolts: 1, Buy: cost.Purchase{Parts: []cost.Part{bolt}}},
		"2 bolts, 50 yd":  {Bought: yd(50), Bolts: 2, Buy: cost.Purchase{Parts: []cost.Part{bolt}}},
		"1 bolt + 9 yd":   {Bought: yd(34), Bolts: 1, Buy: cost.Purchase{Parts: []cost.Part{bolt, cut}}},
		"12 bolts + 9 yd": {Bought: yd(309), Bolts: 12, Buy: cost.Purchase{Parts: []cost.Part{bolt, cut}}},
	} {
		c.Spread.Cloth = job.Cloth{Offer: cost.Offer{Per: measure.Yard}}
		if got := toBuy(c); got != want || len(got) > 20 {
			t.Errorf("%q, want %q in 20 letters", got, want)
		}
	}
}

// What is bought in several parts, or longer than needed because that is cheaper,
// is said in words.
func TestPurchasesAreToldInWords(t *testing.T) {
	money := func(minor int64) cost.Money { return cost.Money{Minor: minor, Currency: "USD"} }
	plain := cost.Offer{Price: money(1000), Per: measure.Yard}
	breaks, bolts, both := plain, plain, plain
	breaks.Breaks = []cost.Break{{From: 10 * measure.Yards, Price: money(800)}}
	bolts.Bolt = &cost.Bolt{Length: 10 * measure.Yards, Price: money(5000)}
	both.Price = cost.Money{}
	both.Bolt, both.More = &cost.Bolt{Length: 10 * measure.Yards,
		Price: money(5000)}, []cost.Bolt{{Length: 5 * measure.Yards, Price: money(3000)}}
	one := func(o cost.Offer, yards float64) cost.Purchase {
		buy, err := o.Buy(yards * measure.Yards)
		if err != nil {
			t.Fatal(err)
		}
		return buy
	}
	several := func(o cost.Offer, counts []int, minor int64, cut, used, alone float64) cost.Purchase {
		set := cost.Set{Counts: counts, Cost: money(minor)}
		buy, err := o.Together(set, cut*measure.Yards, used*measure.Yards, alone*measure.Yards)
		if err != nil {
			t.Fatal(err)
		}
		return buy
	}
	for _, c := range []struct {
		offer cost.Offer
		buy   cost.Purchase
		want  string
	}{
		{plain, one(plain, 9), ""},
		{breaks, one(breaks, 9),
			"10 yd at the price from 10 yd costs less than 9 yd cut (80.00 against 90.00 USD). It leaves 1 yd."},
		// a rest of under a step is not told
		{bolts, one(bolts, 9.95), "1 bolt of 10 yd costs less than 10 yd cut (50.00 against 100.00 USD)."},
		{bolts, several(bolts, []int{1}, 5000, 1, 10.5, 11),
			"1 bolt of 10 yd and 1 yd cut cost less than 11 yd cut (60.00 against 110.00 USD). It leaves 1/2 yd. Ask " +
				"for one dye lot."},
		{both, several(both, []int{1, 1}, 8000, 0, 15, 0),
			"Buy 1 bolt of 10 yd and 1 bolt of 5 yd. Ask for one dye lot."},
	} {
		if got := report.PurchaseWords(c.offer, c.buy); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

// A shelf's steps are told apart: those of the marker, and those that another use
// of the shelf might save.
func TestStepsOfAShelfAreToldApart(t *testing.T) {
	c := report.Cloth{ID: "velvet", Steps: 13, Shelf: &report.Shelf{}, ProvedAsShared: true}
	if got := couldSave(c); got != "nothing, as the shelf is used" {
		t.Error(got)
	}
	c.StepsAsShared, c.ProvedAsShared = 1, false
	if got := couldSave(c); got != "1 step of the counter" {
		t.Error(got)
	}
	var out strings.Builder
	layPrinter{&report.Report{Cloths: []report.Cloth{c}}, &out, usualColumns, false}.bounds()
	if got := strings.Join(strings.Fields(out.String()), " "); !strings.Contains(got,
		"Another use of the shelf could save 13 steps of the counter at most") {
		t.Error(got)
	}
}

// On a fold what is proved of its stretches is told apart from what is proved of
// the purchase.
func TestStepsOfAFoldAreToldApart(t *testing.T) {
	c := report.Cloth{ID: "wool", Steps: 1, ProvedAsShared: true, Stretches: make([]report.Stretch, 2)}
	if got := couldSave(c); got != "nothing on these stretches" {
		t.Error(got)
	}
	var out strings.Builder
	layPrinter{&report.Report{Cloths: []report.Cloth{c}}, &out, usualColumns, false}.bounds()
	if got := strings.Join(strings.Fields(out.String()), " "); !strings.Contains(got,
		"With fewer pieces cut double 1 step of the counter could be saved at most; that was not tried.") {
		t.Error(got)
	}
	c.Proved = true
	if got := couldSave(c); got != "nothing: proved minimal" {
		t.Error(got)
	}
	out.Reset()
	layPrinter{&report.Report{Cloths: []report.Cloth{c}}, &out, usualColumns, false}.bounds()
	if strings.Contains(out.String(), "cut double") {
		t.Error(out.String())
	}
}
