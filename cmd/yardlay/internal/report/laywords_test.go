package report

import (
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// What is bought fits its column, bolts with a cut beside them too.
func TestToBuyTellsBoltsFromCuts(t *testing.T) {
	yd := func(n float64) float64 { return n * measure.Yards }
	cut, bolt := cost.Part{Count: 1, Length: yd(9)}, cost.Part{Count: 1, Length: yd(25), Bolt: true}
	for want, c := range map[string]Cloth{
		"nothing":         {},
		"9 yd (8.23 m)":   {Bought: yd(9), Buy: cost.Purchase{Parts: []cost.Part{cut}}},
		"1 bolt, 25 yd":   {Bought: yd(25), Bolts: 1, Buy: cost.Purchase{Parts: []cost.Part{bolt}}},
		"2 bolts, 50 yd":  {Bought: yd(50), Bolts: 2, Buy: cost.Purchase{Parts: []cost.Part{bolt}}},
		"1 bolt + 9 yd":   {Bought: yd(34), Bolts: 1, Buy: cost.Purchase{Parts: []cost.Part{bolt, cut}}},
		"12 bolts + 9 yd": {Bought: yd(309), Bolts: 12, Buy: cost.Purchase{Parts: []cost.Part{bolt, cut}}},
	} {
		c.Spread.Cloth = job.Cloth{Offer: cost.Offer{Per: measure.Yard}}
		if got := c.ToBuy(); got != want || len(got) > 20 {
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
		if got := PurchaseWords(c.offer, c.buy); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

func TestNotesSayWhatIsOutOfTheOrdinary(t *testing.T) {
	r := &Report{Cloths: []Cloth{
		{ID: "a", Cost: "1.00", Ended: nest.Stopped}, {ID: "b", Cost: "1.00", Ended: nest.OutOfTime},
		{ID: "c", Cost: "1.00"}, {ID: "d"},
	}}
	all := strings.Join(r.Notes(), "\n")
	for _, want := range []string{"Interrupted: the best layout so far is kept for a.", "Out of time", "for b.",
		"d has no price"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not among the notes:\n%s", want, all)
		}
	}
}

// A share is never rounded up to a full cloth.
func TestPercentRoundsDown(t *testing.T) {
	for share, want := range map[float64]string{1: "100.0 %", 0.99999: "99.9 %", 0.7267: "72.6 %", 0.5: "50.0 %"} {
		if got := Percent(share); got != want {
			t.Errorf("Percent(%v) = %s, want %s", share, got, want)
		}
	}
}

// What is said of a bound on a repeat: whether it counts the repeat, and how far it may be
// too low; nothing where it is met.
func TestRepeatWordsSayHowLooseTheBoundIs(t *testing.T) {
	const in = 25.4
	for _, c := range []struct {
		repeat Repeat
		want   string
	}{
		{Repeat{}, "the repeat takes no more."},
		{Repeat{Counted: true}, "the repeat takes no more."},
		{Repeat{Loose: 12 * in},
			"The bound leaves the repeat out: on plain cloth it is met, here it may be up to 12 in too low."},
		{Repeat{Loose: 12 * in, PlainLoose: 2 * in},
			"The bound leaves the repeat out: on plain cloth it is 2 in under the marker, here it may be up to 12 in " +
				"too low."},
		{Repeat{Loose: 2 * in, PlainLoose: in, Counted: true},
			"The bound counts whole repeats only where pieces must follow each other: it may be up to 2 in too low."},
	} {
		got := (&Report{Unit: measure.Inch}).repeatWords(Cloth{Repeat: &c.repeat})
		if !strings.HasSuffix(got, c.want) {
			t.Errorf("%+v: %q, want %q at its end", c.repeat, got, c.want)
		}
	}
}
