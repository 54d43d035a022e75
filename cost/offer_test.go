package cost

import (
	"math"
	"math/big"
	"strings"
	"testing"

	"yardlay/shapes/measure"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func step(t rapid.TB, text string) *big.Rat {
	t.Helper()
	s, err := ParseStep(text, measure.Yard)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestParsePrice(t *testing.T) {
	for text, want := range map[string]struct {
		minor int64
		per   measure.Unit
	}{
		"13.50/yd": {1350, measure.Yard}, "13.5 / yard": {1350, measure.Yard},
		"11/m": {1100, measure.Metre}, "0/metre": {0, measure.Metre},
	} {
		m, per, err := ParsePrice(text, "USD")
		if err != nil || m != usd(want.minor) || per != want.per {
			t.Errorf("ParsePrice(%q) = %v by %v, %v", text, m, per, err)
		}
	}
	for text, why := range map[string]string{
		"13.50": "a length it is for", "13.50/ft": "by the yard or the metre", "13.50/bolt": "by the yard or the metre",
		"/yd": "digits are missing", "-1/yd": "not be negative", "1/2/yd": "by the yard or the metre",
		"9 EUR/yd": "not the currency",
	} {
		if m, per, err := ParsePrice(text, "USD"); err == nil || !strings.Contains(err.Error(), why) {
			t.Errorf("ParsePrice(%q) = %v by %v, %v; want an error with %q", text, m, per, err, why)
		}
	}
}

// Used lengths and what the counter sells for them. Counters cut to 1/8 or
// 1/4 yd, 0.1, 0.25 or 0.5 m (common practice, no published source).
func TestBoughtLengths(t *testing.T) {
	const in = measure.Inches
	tests := []struct {
		why  string
		used float64
		step string
		want string
	}{
		{"exact 180 in stays 5 yd", 180 * in, "1/8 yd", "5 yd"},
		{"exact 180 in with float noise", 4572.0000000001, "1/8 yd", "5 yd"},
		{"exact 180 in after snapping of coordinates", 4572 + 8.0/1024, "1/8 yd", "5 yd"},
		{"a fiftieth of a millimetre over is over", 4572.02, "1/8 yd", "5 1/8 yd"},
		// 120 in at 2.5 to 1 is 300 in flat; 54 in cloth joined by 1/2 in gives
		// ceil(300/53) = 6 strips of 10 in = 60 in = 1.667 yd. Strips by the
		// method of L. Baldt, Clothing for Women (1916), chestofbooks.com.
		{"ruffle of six strips", 60 * in, "1/8 yd", "1 3/4 yd"},
		// 279.327 in at 3 to 1 on 108 in tulle: ceil(837.981/107) = 8 strips of
		// 8 in = 64 in = 1.778 yd, by the same method.
		{"tulle of eight strips", 64 * in, "1/8 yd", "1 7/8 yd"},
		// Twelve gores (5, 12, 40 in on 55 in), plain geometry: two rows head to
		// tail are 80 in = 2.222 yd, three rows one way 120 in = 3.333 yd.
		{"twelve gores, two rows", 80 * in, "1/8 yd", "2 1/4 yd"},
		{"twelve gores, one way", 120 * in, "1/8 yd", "3 3/8 yd"},
		// Full circle cut in one, waist 28 in, length 24 in, plain geometry:
		// diameter 2 (28/(2 pi) + 24) = 56.913 in = 1.581 yd.
		{"full circle in one", 2 * (28/(2*math.Pi) + 24) * in, "1/8 yd", "1 5/8 yd"},
		// Repeats: cut length = ceil(length / repeat) x repeat; 48 in at 12.6 in
		// is 50.4 in, six of them 302.4 in = 8.400 yd or 7.681 m. Rule and the
		// next row: curtain leaflet, et-wholesale.com.au.
		{"six drops of 50.4 in", 302.4 * in, "1/8 yd", "8 1/2 yd"},
		{"six drops of 50.4 in, metric", 302.4 * in, "0.1 m", "7.70 m"},
		{"240 cm sold by a repeat of 37 cm", 2400, "37 cm", "2.59 m"},
		{"48 in sold by a repeat of 12.6 in", 48 * in, "12.6 in", "50 3/8 in"}, // 50.4 in to the nearest eighth
		{"quarter yards", 80 * in, "1/4 yd", "2 1/4 yd"},
		{"half metres", 2001, "0.5 m", "2.50 m"},
		{"quarter metres", 2000, "0.25 m", "2.00 m"},
		{"tenths that float64 cannot hold", 300, "0.1 m", "0.30 m"},
		{"less than the guard still takes a step", 0.001, "0.1 m", "0.10 m"},
	}
	for _, tt := range tests {
		o := Offer{Price: usd(100), Per: measure.Yard, Step: step(t, tt.step)}
		p, err := o.Buy(tt.used)
		unit := measure.Yard
		switch {
		case strings.HasSuffix(tt.want, "m"):
			unit = measure.Metre
		case strings.HasSuffix(tt.want, "in"):
			unit = measure.Inch
		}
		if got := measure.Format(p.Bought, unit); err != nil || got != tt.want {
			t.Errorf("%s: %v mm by %s buys %s, %v; want %s", tt.why, tt.used, tt.step, got, err, tt.want)
		}
	}
}

func TestBuyPrices(t *testing.T) {
	satin := Offer{Price: usd(1350), Per: measure.Yard}
	got, err := satin.Buy(80 * measure.Inches)
	// 2 1/4 yd at 13.50 is 30.375: the half goes up.
	want := Purchase{
		Used: 2032, Bought: 2057.4, Cost: usd(3038), Leftover: 25.4, Saved: usd(0),
		Parts: []Part{{Count: 1, Length: 2057.4, Price: usd(1350), Cost: usd(3038)}},
	}
	if diff := cmp.Diff(want, got, approx); err != nil || diff != "" {
		t.Errorf("satin: %v\n%s", err, diff)
	}
	metric := Offer{Price: Money{1100, "EUR"}, Per: measure.Metre}
	got, err = metric.Buy(302.4 * measure.Inches)
	want = Purchase{
		Used: 7680.96, Bought: 7700, Cost: Money{8470, "EUR"}, Leftover: 19.04, Saved: Money{0, "EUR"},
		Parts: []Part{{Count: 1, Length: 7700, Price: Money{1100, "EUR"}, Cost: Money{8470, "EUR"}}},
	}
	if diff := cmp.Diff(want, got, approx); err != nil || diff != "" {
		t.Errorf("by the metre: %v\n%s", err, diff)
	}
	// A yard's price with a metric step: 0.1 m is 0.109361 yd.
	mixed := Offer{Price: usd(914400), Per: measure.Yard, Step: big.NewRat(100, 1)}
	if got, err = mixed.Buy(100); err != nil || got.Cost != usd(100000) {
		t.Errorf("0.1 m at 9144.00 the yard: %v, %v", got.Cost, err)
	}
	satin.MinCut = measure.Yards
	if got, err = satin.Buy(10); err != nil || got.Bought != measure.Yards || got.Cost != usd(1350) {
		t.Errorf("a least cut of a yard: %+v, %v", got, err)
	}
	if got, err = satin.Buy(0); err != nil || !cmp.Equal(got, Purchase{Cost: usd(0)}) {
		t.Errorf("nothing used: %+v, %v", got, err)
	}
}

var approx = cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) < 1e-9 })

func TestOfferRefuses(t *testing.T) {
	ok := Offer{Price: usd(100), Per: measure.Yard}
	tests := []struct {
		why    string
		used   float64
		change func(*Offer)
	}{
		{"no price", 1, func(o *Offer) { *o = Offer{} }},
		{"is negative", 1, func(o *Offer) { o.Price = usd(-1) }},
		{"no currency code", 1, func(o *Offer) { o.Price.Currency = "dollars" }},
		{"yard or the metre", 1, func(o *Offer) { o.Per = measure.Inch }},
		{"less than 1 mm", 1, func(o *Offer) { o.Step = new(big.Rat) }},
		{"less than 1 mm", 1, func(o *Offer) { o.Step = big.NewRat(-5, 1) }},
		{"least cut of NaN", 1, func(o *Offer) { o.MinCut = math.NaN() }},
		{"bolt of 0 mm", 1, func(o *Offer) { o.Bolt = &Bolt{Length: 0, Price: usd(1)} }},
		{"bolt of NaN mm", 1, func(o *Offer) { o.Bolt = &Bolt{Length: math.NaN(), Price: usd(1)} }},
		{"bolt: the price", 1, func(o *Offer) { o.Bolt = &Bolt{Length: 100, Price: usd(-1)} }},
		{"the bolt in EUR", 1, func(o *Offer) { o.Bolt = &Bolt{Length: 100, Price: Money{1, "EUR"}} }},
		{"used length of -1", -1, func(*Offer) {}},
		{"used length of NaN", math.NaN(), func(*Offer) {}},
		{"used length of +Inf", math.Inf(1), func(*Offer) {}},
		{"too large", 1e6, func(o *Offer) { o.Price = usd(math.MaxInt64) }},
		{"nothing sold is as long", 1e6,
			func(o *Offer) { o.Price, o.Bolt = Money{}, &Bolt{Length: 100, Price: usd(math.MaxInt64)} }},
	}
	for _, tt := range tests {
		o := ok
		tt.change(&o)
		if p, err := o.Buy(tt.used); err == nil || !strings.Contains(err.Error(), tt.why) {
			t.Errorf("%+v bought, %v; want an error with %q", p, err, tt.why)
		}
	}
	if _, err := ParseStep("0.9 mm", measure.Yard); err == nil || !strings.Contains(err.Error(), `"0.9 mm"`) {
		t.Errorf("a step of 0.9 mm: %v", err)
	}
}

// What is bought holds what is used but for the guard, is a whole number of
// steps, wastes less than a step, and never costs less for more.
func TestBuyProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := Offer{
			Price: usd(rapid.Int64Range(0, 1e6).Draw(t, "price")),
			Per:   rapid.SampledFrom([]measure.Unit{measure.Yard, measure.Metre}).Draw(t, "per"),
			Step: step(t, rapid.SampledFrom([]string{"1/8 yd", "1/4 yd", "0.1 m", "0.25 m", "0.5 m", "1 in",
				"1/3 yd"}).Draw(t, "step")),
		}
		used := rapid.Float64Range(0.001, 1e5).Draw(t, "used")
		p, err := o.Buy(used)
		if err != nil {
			t.Fatal(err)
		}
		mm, _ := o.Step.Float64()
		steps := p.Bought / mm
		if p.Bought < used-measure.Guard-1e-6 || p.Bought >= math.Max(used, mm)+mm ||
			math.Abs(steps-math.Round(steps)) > 1e-6 || p.Leftover < 0 {
			t.Fatalf("used %v mm by %v mm buys %+v", used, mm, p)
		}
		more, err := o.Buy(used + rapid.Float64Range(0, 1000).Draw(t, "more"))
		if err != nil || more.Bought < p.Bought || more.Cost.Minor < p.Cost.Minor {
			t.Fatalf("%+v, then for more %+v, %v", p, more, err)
		}
		again, err := o.Buy(p.Bought)
		if err != nil || again.Bought != p.Bought {
			t.Fatalf("buying the bought %v mm buys %v mm, %v", p.Bought, again.Bought, err)
		}
	})
}
