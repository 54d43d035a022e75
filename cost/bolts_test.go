package cost

import (
	"errors"
	"fmt"
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
	net := Offer{Price: usd(300), Per: measure.Yard, Bolt: &Bolt{Length: 50 * measure.Yards, Price: usd(8000)}}
	bought := func(mm float64, bolts int, cost int64, left float64) Purchase {
		return Purchase{Used: used, Bought: mm, Bolts: bolts, Cost: usd(cost), Leftover: left}
	}
	tests := []struct {
		name   string
		change func(*Offer)
		want   Purchase
		why    string
	}{
		{"the bolt is cheaper", func(*Offer) {}, bought(45720, 1, 8000, 18288),
			"1 bolt of 50 yd costs less than 30 yd cut (80.00 against 90.00 USD)"},
		{"the cut is cheaper", func(o *Offer) { o.Price = usd(250) }, bought(27432, 0, 7500, 0), ""},
		{"they cost the same", func(o *Offer) { o.Bolt.Price = usd(9000) }, bought(27432, 0, 9000, 0), ""},
		{"a bolt too short, however cheap", func(o *Offer) { o.Bolt.Length, o.Bolt.Price = 25*measure.Yards, usd(100) },
			bought(27432, 0, 9000, 0), ""},
		{"a bolt just long enough", func(o *Offer) { o.Bolt = &Bolt{Length: 30 * measure.Yards, Price: usd(4000)} },
			bought(27432, 1, 4000, 0),
			"1 bolt of 30 yd costs less than 30 yd cut (40.00 against 90.00 USD)"},
		{"sold by the bolt only", func(o *Offer) { o.Price = Money{} }, bought(45720, 1, 8000, 18288), ""},
		{"the longer bolt is cheaper",
			func(o *Offer) { o.Price, o.More = Money{}, []Bolt{{Length: 40 * measure.Yards, Price: usd(8500)}} },
			bought(45720, 1, 8000, 18288), "1 bolt of 50 yd costs less than 1 bolt of 40 yd (80.00 against 85.00 USD)"},
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
	net.Price = Money{}
	if p, err := net.Buy(51 * measure.Yards); !errors.Is(err, ErrTooShort) ||
		!strings.Contains(err.Error(), "the longest bolt is 50 yd") {
		t.Errorf("51 yd in one piece of bolts of 50 yd: %+v, %v", p, err)
	}
}

// Bolts and a cut bought together: what each costs, and what they save against one
// length for everything.
func TestTogether(t *testing.T) {
	o := Offer{
		Price: usd(300), Per: measure.Yard, Bolt: &Bolt{Length: 10 * measure.Yards, Price: usd(2000)},
		More: []Bolt{{Length: 25 * measure.Yards, Price: usd(4500)}},
	}
	set := Set{Counts: []int{1, 1}, Bolts: 2, Cost: usd(6500)}
	got, err := o.Together(set, 2*measure.Yards, 36*measure.Yards, 34*measure.Yards)
	want := Purchase{
		Used: 36 * measure.Yards, Bought: 37 * measure.Yards, Bolts: 2, Cost: usd(7100), Leftover: measure.Yards,
		Saved: usd(3100),
		Parts: []Part{
			{Count: 1, Length: 25 * measure.Yards, Bolt: true, Price: usd(4500), Cost: usd(4500)},
			{Count: 1, Length: 10 * measure.Yards, Bolt: true, Price: usd(2000), Cost: usd(2000)},
			{Count: 1, Length: 2 * measure.Yards, Price: usd(300), Cost: usd(600)},
		},
		Reason: "1 bolt of 25 yd and 1 bolt of 10 yd and 2 yd cut cost less than 34 yd cut (71.00 against 102.00 USD)",
	}
	if diff := cmp.Diff(want, got, approx); err != nil || diff != "" || got.Lengths() != 3 {
		t.Errorf("%v\n%s", err, diff)
	}
	// Without a length that would do alone there is nothing to compare with.
	if got, err = o.Together(set, 0, 30*measure.Yards, 0); err != nil || got.Reason != "" || got.Cost != usd(6500) {
		t.Errorf("%+v, %v", got, err)
	}
	o.Price = Money{}
	if _, err = o.Together(set, 1, 30*measure.Yards, 0); err == nil ||
		!strings.Contains(err.Error(), "no length is cut") {
		t.Error(err)
	}
	if minor, ok := o.CutCost(1); ok {
		t.Errorf("a cut where none is sold costs %d", minor)
	}
}

// A length longer than any bolt counts as whole bolts again.
func TestAgain(t *testing.T) {
	o := Offer{Per: measure.Yard, Bolt: &Bolt{Length: 10 * measure.Yards, Price: usd(2000)},
		More: []Bolt{{Length: 4 * measure.Yards, Price: usd(700)}}}
	for yards, cost := range map[float64]int64{3: 700, 9: 2000, 11: 2100, 25: 4900} {
		if v, err := o.Value(yards*measure.Yards, Replacement); err != nil || v != usd(cost) {
			t.Errorf("%v yd: %v, %v; want %v", yards, v, err, usd(cost))
		}
	}
}

// More money than there is is an error, whichever way it is come to.
func TestTooMuchForBolts(t *testing.T) {
	o := Offer{Per: measure.Yard, Bolt: &Bolt{Length: 100, Price: usd(math.MaxInt64)}}
	if v, err := o.Value(150, Replacement); !errors.Is(err, ErrTooMuch) {
		t.Errorf("%v, %v", v, err)
	}
	next := o.Sets([]bool{true}, 3)
	if _, ok := next(); !ok {
		t.Error("one bolt is a set")
	}
	if s, ok := next(); ok {
		t.Errorf("two of them cost %v", s.Cost)
	}
}

// Purchases are weighed by money, then by how many lengths they take.
func TestPrecedes(t *testing.T) {
	one, two := []Part{{Count: 1}}, []Part{{Count: 2}}
	order := []Purchase{
		{Cost: usd(1), Bought: 9, Parts: two}, {Cost: usd(2), Bought: 5, Parts: one}, {Cost: usd(2),
			Bought: 6, Parts: one},
		{Cost: usd(2), Bought: 4, Parts: two}, {Cost: usd(2), Bought: 4, Parts: []Part{{Count: 3}}},
	}
	for i, p := range order {
		for k, q := range order {
			if p.Precedes(q) != (i < k) {
				t.Errorf("%d before %d: %v", i, k, p.Precedes(q))
			}
		}
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
		{14500, 15000, 12000, "15.00 m at the price from 15.00 m costs less than 14.50 m cut (120.00 against 123.25 " +
			"EUR)"},
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
		{"no price by length", func(o *Offer) {
			*o = Offer{More: []Bolt{{Length: 1000, Price: eur(1)}}, Breaks: []Break{{5000, eur(1)}}}
		}},
		{"17 price breaks", func(o *Offer) { o.Breaks = make([]Break, 17) }},
		{"9 sizes of bolt", func(o *Offer) { o.More = make([]Bolt, 9) }},
		{"that of the bolt in USD", func(o *Offer) { o.More = []Bolt{{Length: 1000, Price: usd(1)}} }},
		{"that of the bolt in USD",
			func(o *Offer) { *o = Offer{More: []Bolt{{Length: 1000, Price: eur(1)}, {Length: 2000, Price: usd(1)}}} }},
		{"fewer than none", func(o *Offer) { o.More = []Bolt{{Length: 1000, Price: eur(1), InStock: -1}} }},
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
		if price = rapid.Int64Range(20, price).Draw(t, "lower"); len(o.Breaks) > 0 &&
			price >= o.Breaks[len(o.Breaks)-1].Price.Minor || price >= o.Price.Minor {
			break
		}
		o.Breaks = append(o.Breaks, Break{from, usd(price)})
	}
	for range rapid.IntRange(0, 3).Draw(t, "sizes") {
		o.More = append(o.More, Bolt{
			Length: 250 * float64(rapid.IntRange(3, 40).Draw(t, "bolt")), Price: usd(rapid.Int64Range(0,
				6000).Draw(t, "bolt price")),
		})
	}
	if len(o.More) > 0 && rapid.Bool().Draw(t, "bolts only") {
		o.Price, o.Breaks = Money{}, nil
	}
	return o
}

// bruteForce walks over every bolt and every cut of whole steps, in plain integers
// of quarter metres, and returns the least cost and the least length at that cost;
// -1 when nothing is long enough.
func bruteForce(o Offer, used float64) (cost int64, quarters int) {
	need := int(math.Ceil((used - measure.Guard) / 250))
	cost = -1
	try := func(c int64, n int) {
		if n >= need && (cost < 0 || c < cost || c == cost && n < quarters) {
			cost, quarters = c, n
		}
	}
	for _, b := range o.More {
		try(b.Price.Minor, int(b.Length/250))
	}
	for n := max(1, int(o.MinCut/250)); o.Price.Currency != "" && n < 400; n++ {
		price := o.Price.Minor
		for _, b := range o.Breaks {
			if float64(n)*250 >= b.From {
				price = b.Price.Minor
			}
		}
		try((price*int64(n)+2)/4, n) // quarters, half a cent up
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
		cost, quarters := bruteForce(o, used)
		if cost < 0 {
			if !errors.Is(err, ErrTooShort) {
				t.Fatalf("%+v, %v", p, err)
			}
			return
		}
		if err != nil || p.Cost.Minor != cost || int(p.Bought/250) != quarters || p.Lengths() != 1 {
			t.Fatalf("%+v for %v mm buys %+v, %v, brute force %d for %d quarters", o, used, p, err, cost, quarters)
		}
		checkParts(t, p)
	})
}

// checkParts holds a purchase to its parts.
func checkParts(t *rapid.T, p Purchase) {
	sum, length, bolts := int64(0), 0.0, 0
	for _, part := range p.Parts {
		sum += part.Cost.Minor
		length += float64(part.Count) * part.Length
		if part.Bolt {
			bolts += part.Count
		}
	}
	if sum != p.Cost.Minor || math.Abs(length-p.Bought) > 1e-6 || bolts != p.Bolts ||
		p.Bought < p.Used-measure.Guard || (p.Saved.Minor > 0) != (p.Reason != "") || p.Saved.Minor < 0 {
		t.Fatalf("the parts do not make up %+v", p)
	}
}

// Neither cost nor bought length falls when more is used, nor what a cut costs.
func TestCostIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := drawOffer(t)
		used := rapid.Float64Range(0, 20000).Draw(t, "used")
		more := used + rapid.Float64Range(0, 3000).Draw(t, "more")
		a, err := o.Buy(used)
		b, err2 := o.Buy(more)
		if err2 == nil && (err != nil || b.Cost.Minor < a.Cost.Minor || b.Bought < a.Bought) {
			t.Fatalf("%+v\n%v mm: %+v, %v\n%v mm: %+v, %v", o, used, a, err, more, b, err2)
		}
		less, _ := o.CutCost(used)
		greater, ok := o.CutCost(more)
		if ok && greater < less {
			t.Fatalf("a cut of %v mm costs %d, one of %v mm %d", used, less, more, greater)
		}
	})
}

// Sets come the cheapest first, each once, and all of them: those that counting
// through all numbers of bolts gives.
func TestSets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var o Offer
		useful, most := []bool{}, rapid.IntRange(1, 4).Draw(t, "most")
		for range rapid.IntRange(1, 4).Draw(t, "sizes") {
			o.More = append(o.More, Bolt{Length: 1000, Price: usd(rapid.Int64Range(0, 9).Draw(t, "price")),
				InStock: rapid.IntRange(0, 2).Draw(t, "stock")})
			useful = append(useful, rapid.IntRange(0, 4).Draw(t, "useful") > 0)
		}
		want := map[string]int64{}
		for n := range 625 { // 5 to the 4
			counts, bolts, cost, ok := make([]int, len(o.More)), 0, int64(0), true
			for i := range counts {
				counts[i] = n % 5
				n /= 5
				bolts += counts[i]
				cost += int64(counts[i]) * o.More[i].Price.Minor
				ok = ok && (counts[i] == 0 || useful[i]) && (o.More[i].InStock == 0 || counts[i] <= o.More[i].InStock)
			}
			if ok && bolts > 0 && bolts <= most {
				want[fmt.Sprint(counts)] = cost
			}
		}
		last, next := int64(0), o.Sets(useful, most)
		for {
			s, ok := next()
			if !ok {
				break
			}
			cost, left := want[fmt.Sprint(s.Counts)]
			if !left || cost != s.Cost.Minor || cost < last {
				t.Fatalf("%+v after one of %d; left are %v", s, last, want)
			}
			last = cost
			delete(want, fmt.Sprint(s.Counts))
		}
		if len(want) > 0 {
			t.Fatalf("these are left out: %v", want)
		}
	})
}
