package cost

import (
	"math"
	"math/big"
	"strings"
	"testing"

	"yardlay/shapes/measure"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

// figures leaves the words and parts out of a comparison of purchases.
var figures = cmpopts.IgnoreFields(Purchase{}, "Parts", "Saved", "Reason")

// Net whose layers take four full widths of 3 m net, ten layers cut 18, 20 ...
// 36 in deep: 4 x 270 in = 1080 in = 27.432 m = 30 yd, and makers report 28 to
// 30 m for such a skirt (common practice, no published source). Tulle bolts
// hold 25 to 50 yd (common practice). Prices are our own.
func TestBolts(t *testing.T) {
	const used = 1080 * measure.Inches
	net := Offer{Price: usd(300), Per: measure.Yard, Bolt: &Bolt{50 * measure.Yards, usd(8000)}}
	bought := func(mm float64, bolts int, cost int64, left float64, split bool) Purchase {
		return Purchase{Used: used, Bought: mm, Bolts: bolts, Cost: usd(cost), Leftover: left, Split: split}
	}
	tests := []struct {
		name   string
		change func(*Offer)
		want   Purchase
		why    string
	}{
		{"the bolt is cheaper", func(*Offer) {}, bought(45720, 1, 8000, 18288, false),
			"1 bolt of 50 yd costs less than 30 yd cut (80.00 against 90.00 USD)"},
		{"the cut is cheaper", func(o *Offer) { o.Price = usd(250) }, bought(27432, 0, 7500, 0, false), ""},
		{"they cost the same", func(o *Offer) { o.Bolt.Price = usd(9000) }, bought(27432, 0, 9000, 0, false), ""},
		{"a short bolt and a cut", func(o *Offer) { o.Bolt = &Bolt{25 * measure.Yards, usd(4000)} }, bought(27432, 1, 5500, 0, true),
			"1 bolt of 25 yd and 5 yd cut cost less than 30 yd cut (55.00 against 90.00 USD)"},
		{"two short bolts, nothing cut", func(o *Offer) { o.Price, o.Bolt = Money{}, &Bolt{25 * measure.Yards, usd(4000)} },
			bought(45720, 2, 8000, 18288, true), ""},
		{"a bolt just long enough", func(o *Offer) { o.Bolt = &Bolt{30 * measure.Yards, usd(4000)} }, bought(27432, 1, 4000, 0, false),
			"1 bolt of 30 yd costs less than 30 yd cut (40.00 against 90.00 USD)"},
		{"sold by the bolt only", func(o *Offer) { o.Price = Money{} }, bought(45720, 1, 8000, 18288, false), ""},
		{"a half bolt and a cut", func(o *Offer) { o.More = []Bolt{{25 * measure.Yards, usd(4500)}} }, bought(27432, 1, 6000, 0, true),
			"1 bolt of 25 yd and 5 yd cut cost less than 30 yd cut (60.00 against 90.00 USD)"},
		{"two half bolts for a bolt", func(o *Offer) { o.Price, o.More = Money{}, []Bolt{{25 * measure.Yards, usd(3500)}} },
			bought(45720, 2, 7000, 18288, true), "2 bolts of 25 yd cost less than 1 bolt of 50 yd (70.00 against 80.00 USD)"},
	}
	for _, tt := range tests {
		o := net
		bolt := *net.Bolt
		o.Bolt = &bolt
		tt.change(&o)
		got, err := o.Buy(used)
		if diff := cmp.Diff(tt.want, got, approx, figures); err != nil || diff != "" || got.Reason != tt.why {
			t.Errorf("%s: %v %q\n%s", tt.name, err, got.Reason, diff)
		}
	}
}

// One lay that cannot be parted needs one piece, though two are cheaper.
func TestBuyWhole(t *testing.T) {
	o := Offer{
		Price: usd(300), Per: measure.Yard,
		Bolt: &Bolt{50 * measure.Yards, usd(8500)}, More: []Bolt{{25 * measure.Yards, usd(4000)}},
	}
	for _, tt := range []struct {
		yards      float64
		cost, most int64 // of one piece, and of any
	}{{30, 8500, 5500}, {20, 4000, 4000}, {50, 8500, 8000}, {60, 18000, 11000}, {5, 1500, 1500}} {
		whole, err := o.BuyWhole(tt.yards * measure.Yards)
		parts, err2 := o.Buy(tt.yards * measure.Yards)
		if err != nil || err2 != nil || whole.Cost != usd(tt.cost) || whole.Split || parts.Cost != usd(tt.most) {
			t.Errorf("%v yd: in one piece %+v, %v; any way %+v, %v", tt.yards, whole, err, parts, err2)
		}
	}
	o.Price = Money{}
	if p, err := o.BuyWhole(51 * measure.Yards); err == nil || !strings.Contains(err.Error(), "the longest bolt is 50 yd") {
		t.Errorf("51 yd in one piece of bolts of 50 yd: %+v, %v", p, err)
	}
}

// Breaks hold for the whole cut, as at a counter (common practice): 14.5 m at
// 9.00 are 130.50, but 15 m at 8.00 are 120.00.
func TestPriceBreaks(t *testing.T) {
	eur := func(minor int64) Money { return Money{minor, "EUR"} }
	o := Offer{
		Price: eur(900), Per: measure.Metre, Step: big.NewRat(500, 1),
		Breaks: []Break{{5000, eur(850)}, {15000, eur(800)}},
	}
	tests := []struct {
		used, bought float64
		cost         int64
		why          string
	}{
		{2000, 2000, 1800, ""},
		{4500, 4500, 4050, ""}, // 5 m at 8.50 would be 42.50
		{4501, 5000, 4250, ""},
		{14000, 14000, 11900, ""}, // 15 m at 8.00 would be 120.00
		{14500, 15000, 12000, "15.00 m at the price from 15.00 m costs less than 14.50 m cut (120.00 against 123.25 EUR)"},
		{15000, 15000, 12000, ""},
		{16800, 17000, 13600, ""},
	}
	for _, tt := range tests {
		p, err := o.Buy(tt.used)
		if err != nil || p.Bought != tt.bought || p.Cost != eur(tt.cost) || p.Reason != tt.why {
			t.Errorf("%v mm: %+v, %v; want %v mm for %v: %q", tt.used, p, err, tt.bought, tt.cost, tt.why)
		}
	}
	// A break off the counter's step begins at the step above it.
	o.Breaks = []Break{{14800, eur(100)}}
	if p, err := o.Buy(14100); err != nil || p.Bought != 15000 || p.Cost != eur(1500) {
		t.Errorf("a break at 14.8 m by 0.5 m: %+v, %v", p, err)
	}
}

func TestBreaksAndSizesRefused(t *testing.T) {
	eur := func(minor int64) Money { return Money{minor, "EUR"} }
	ok := Offer{Price: eur(900), Per: measure.Metre}
	for _, tt := range []struct {
		why    string
		change func(*Offer)
	}{
		{"8.00 USD is not in EUR", func(o *Offer) { o.Breaks = []Break{{5000, usd(800)}} }},
		{"price break of NaN mm", func(o *Offer) { o.Breaks = []Break{{math.NaN(), eur(800)}} }},
		{"must be longer than", func(o *Offer) { o.Breaks = []Break{{5000, eur(800)}, {5000, eur(700)}} }},
		{"must be longer than", func(o *Offer) { o.Breaks = []Break{{0, eur(800)}} }},
		{"not below the price", func(o *Offer) { o.Breaks = []Break{{5000, eur(900)}} }},
		{"is negative", func(o *Offer) { o.Breaks = []Break{{5000, eur(-1)}} }},
		{"no price by length", func(o *Offer) { *o = Offer{More: []Bolt{{1000, eur(1)}}, Breaks: []Break{{5000, eur(1)}}} }},
		{"17 price breaks", func(o *Offer) { o.Breaks = make([]Break, 17) }},
		{"9 sizes of bolt", func(o *Offer) { o.More = make([]Bolt, 9) }},
		{"that of the bolt in USD", func(o *Offer) { o.More = []Bolt{{1000, usd(1)}} }},
		{"that of the bolt in USD", func(o *Offer) { *o = Offer{More: []Bolt{{1000, eur(1)}, {2000, usd(1)}}} }},
		{"too many ways", func(o *Offer) {
			for i := range 4 { // all the same value to the length, so that no way is hopeless
				o.More = append(o.More, Bolt{float64(7 + i), eur(int64(7 + i))})
			}
			o.Price = Money{}
		}},
	} {
		o := ok
		tt.change(&o)
		if p, err := o.Buy(999_983); err == nil || !strings.Contains(err.Error(), tt.why) {
			t.Errorf("bought %+v, %v; want an error with %q", p, err, tt.why)
		}
	}
}

// drawOffer draws an offer in quarter metres whose combinations can be counted.
func drawOffer(t *rapid.T) Offer {
	o := Offer{Price: usd(rapid.Int64Range(50, 1000).Draw(t, "price")), Per: measure.Metre, Step: big.NewRat(250, 1)}
	o.MinCut = 250 * float64(rapid.IntRange(0, 6).Draw(t, "least cut"))
	from, price := 0.0, o.Price.Minor
	for range rapid.IntRange(0, 3).Draw(t, "breaks") {
		from += 250 * float64(rapid.IntRange(1, 20).Draw(t, "from"))
		if price = rapid.Int64Range(20, price).Draw(t, "lower"); len(o.Breaks) > 0 && price >= o.Breaks[len(o.Breaks)-1].Price.Minor || price >= o.Price.Minor {
			break
		}
		o.Breaks = append(o.Breaks, Break{from, usd(price)})
	}
	for range rapid.IntRange(0, 3).Draw(t, "sizes") {
		o.More = append(o.More, Bolt{
			250 * float64(rapid.IntRange(3, 40).Draw(t, "bolt")), usd(rapid.Int64Range(0, 6000).Draw(t, "bolt price")),
		})
	}
	if len(o.More) > 0 && rapid.Bool().Draw(t, "bolts only") {
		o.Price, o.Breaks = Money{}, nil
	}
	return o
}

// bruteForce walks over every multiset of bolts up to a length and every cut of
// whole steps, in plain integers of quarter metres, and returns the least cost
// and the least length at that cost.
func bruteForce(o Offer, used float64) (cost int64, quarters int) {
	need := int(math.Ceil((used - measure.Guard) / 250))
	cutCost := func(n int) int64 {
		price := o.Price.Minor
		for _, b := range o.Breaks {
			if float64(n)*250 >= b.From {
				price = b.Price.Minor
			}
		}
		return (price*int64(n) + 2) / 4 // quarters, half a cent up
	}
	const top = 400
	bolts := make([]int64, top) // least cost of bolts of just that length; -1: none
	for i := 1; i < top; i++ {
		bolts[i] = -1
		for _, b := range o.More {
			if j := i - int(b.Length/250); j >= 0 && bolts[j] >= 0 && (bolts[i] < 0 || bolts[j]+b.Price.Minor < bolts[i]) {
				bolts[i] = bolts[j] + b.Price.Minor
			}
		}
	}
	cost = -1
	try := func(c int64, n int) {
		if n >= need && (cost < 0 || c < cost || c == cost && n < quarters) {
			cost, quarters = c, n
		}
	}
	for i, c := range bolts {
		if c < 0 {
			continue
		}
		try(c, i)
		for n := max(1, int(o.MinCut/250)); o.Price.Currency != "" && n < top; n++ {
			try(c+cutCost(n), i+n)
		}
	}
	return cost, quarters
}

func TestBuyAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := drawOffer(t)
		used := rapid.Float64Range(1, 20000).Draw(t, "used")
		if rapid.Bool().Draw(t, "whole quarters") {
			used = math.Ceil(used/250) * 250
		}
		p, err := o.Buy(used)
		if err != nil {
			t.Fatal(err)
		}
		cost, quarters := bruteForce(o, used)
		// A purchase with one piece long enough goes before a shorter one.
		if p.Cost.Minor != cost || p.Split && int(p.Bought/250) != quarters {
			t.Fatalf("%+v for %v mm buys %+v, brute force %d for %d quarters", o, used, p, cost, quarters)
		}
		checkParts(t, p)
	})
}

// checkParts holds a purchase to its parts.
func checkParts(t *rapid.T, p Purchase) {
	sum, length, bolts, longest := int64(0), 0.0, 0, 0.0
	for _, part := range p.Parts {
		sum += part.Cost.Minor
		length += float64(part.Count) * part.Length
		longest = max(longest, part.Length)
		if part.Bolt {
			bolts += part.Count
		}
	}
	if sum != p.Cost.Minor || math.Abs(length-p.Bought) > 1e-6 || bolts != p.Bolts || p.Split != (longest < p.Used-measure.Guard) ||
		p.Bought < p.Used-measure.Guard || (p.Saved.Minor > 0) != (p.Reason != "") || p.Saved.Minor < 0 {
		t.Fatalf("the parts do not make up %+v", p)
	}
}

// Neither cost nor bought length falls when more is used; one piece never costs
// less than any way, and its cost does not fall either.
func TestCostIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := drawOffer(t)
		used := rapid.Float64Range(0, 20000).Draw(t, "used")
		more := used + rapid.Float64Range(0, 3000).Draw(t, "more")
		a, err := o.Buy(used)
		b, err2 := o.Buy(more)
		if err != nil || err2 != nil || b.Cost.Minor < a.Cost.Minor || b.Bought < a.Bought {
			t.Fatalf("%+v\n%v mm: %+v, %v\n%v mm: %+v, %v", o, used, a, err, more, b, err2)
		}
		whole, err := o.BuyWhole(used)
		wholeMore, err2 := o.BuyWhole(more)
		if err == nil && (whole.Cost.Minor < a.Cost.Minor || whole.Split) ||
			err2 == nil && (err != nil || wholeMore.Cost.Minor < whole.Cost.Minor || wholeMore.Bought < whole.Bought) {
			t.Fatalf("%+v in one piece\n%+v, %v\n%+v, %v", o, whole, err, wholeMore, err2)
		}
	})
}
