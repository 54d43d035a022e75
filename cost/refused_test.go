package cost

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/shapes/measure"
)

// Own hours are planned hours by a factor, up to the quarter hour once; what exceeds a quarter by a second or less is
// none. By hand: 8.25 x 6/5 = 9.9; 7201/7200 of 2 h are one second more.
func TestQuartersOfPlannedHours(t *testing.T) {
	for _, tt := range []struct {
		hours  Decimal
		factor *big.Rat
		want   string
	}{
		{82_500, big.NewRat(6, 5), "10"}, {82_500, big.NewRat(1, 1), "8.25"}, {Whole(2), big.NewRat(7201, 7200), "2"},
		{Whole(2), big.NewRat(7202, 7200), "2.25"}, {Whole(20), big.NewRat(1, 2), "10"}, {0, big.NewRat(9, 1), "0"},
		{Whole(1), big.NewRat(1, 100), "0.25"}, {Whole(7), big.NewRat(1, 3), "2.5"},
	} {
		if got, err := QuartersOf(tt.hours, tt.factor); err != nil || got.String() != tt.want {
			t.Errorf("%v h by %v: %v, %v; want %s", tt.hours, tt.factor, got, err, tt.want)
		}
	}
	if _, err := QuartersOf(-one, big.NewRat(1, 1)); err == nil || err.Error() != "hours: -1 is negative" {
		t.Error(err)
	}
}

// What is wanted has the spare: 26 and 10 % are 28.6, so 29, and 2 more; 7.1 m and 5 % are 7.455 m, not rounded up.
func TestWantedWithTheSpare(t *testing.T) {
	for _, tt := range []struct {
		notion Notion
		want   float64
	}{
		{Notion{Count: 26, Spare: Whole(10), SpareCount: 2}, 31}, {Notion{Count: 26}, 26},
		{Notion{Length: 7100, Spare: Whole(5)}, 7455}, {Notion{}, 0},
	} {
		if got := tt.notion.Wanted(); got != tt.want {
			t.Errorf("%+v: %v, want %v", tt.notion, got, tt.want)
		}
	}
}

// Bones lie inside their channels: 20 cm takes the longest that is sold, exactly as long or shorter, and 9.9 cm none.
func TestBonesInTheirChannels(t *testing.T) {
	n := Notion{Name: "bones", Inside: true, Sizes: []Size{{150, usd(150)}, {100, usd(100)}, {200, usd(200)}}}
	for _, tt := range []struct {
		channel float64
		want    int64 // cents, as many as its length
	}{{900, 200}, {200, 200}, {199.9, 150}, {150.005, 150}, {149.995, 150}, {100, 100}} {
		n.Lengths = []float64{tt.channel}
		if item, err := n.Buy(); err != nil || item.Cost != usd(tt.want) {
			t.Errorf("a channel of %v mm: %v, %v; want %v", tt.channel, item.Cost, err, usd(tt.want))
		}
	}
	n.Lengths = []float64{99}
	if _, err := n.Buy(); err == nil || err.Error() != "bones: 99 mm is too short for any that is sold: the shortest "+
		"is 100 mm" {
		t.Error(err)
	}
}

// Sums that do not fit are refused by what they are of, wherever they arise, and never wrap round.
func TestSumsTooLargeForMoney(t *testing.T) {
	const most = math.MaxInt64
	line := func(minor int64) []Line { return []Line{{"net", usd(minor), KindCloth, ""}} }
	half := most/2 + 1
	bolt := Bolt{Length: 10 * measure.Yards, Price: usd(int64(half))}
	quoted := func(terms Terms, materials []Line, labour Labour) error {
		terms.Currency = "USD"
		_, err := terms.Quote(materials, labour)
		return err
	}
	bought := func(n Notion) error {
		n.Name = "zip"
		_, err := n.Buy()
		return err
	}
	sizes := []Size{{100, usd(int64(half))}, {200, usd(int64(half))}}
	for why, err := range map[string]error{
		"overhead: ":    quoted(Terms{Overhead: Whole(200)}, line(most-1), Labour{}),
		"making: ":      quoted(Terms{}, line(most-1), Labour{Hours: one, Rate: usd(2)}),
		"overhead: two": quoted(Terms{Overhead: Whole(100)}, line(most/2+2), Labour{}),
		"tax": quoted(Terms{Tax: Whole(100)}, line(int64(half)),
			Labour{}),
		"taxed total":       quoted(Terms{Tax: Whole(300), RoundTaxed: true}, line(int64(half)), Labour{}),
		"markup":            quoted(Terms{Pricing: Markup, Percent: Whole(200)}, line(int64(half)), Labour{}),
		"steps":             quoted(Terms{RoundTo: usd(1000), RoundUp: true}, line(most), Labour{}),
		"taxed steps":       quoted(Terms{RoundTo: usd(1000), RoundUp: true, RoundTaxed: true}, line(most), Labour{}),
		"two of one size":   bought(Notion{Lengths: []float64{90, 90}, Sizes: sizes}),
		"one of two sizes":  bought(Notion{Lengths: []float64{90, 190}, Sizes: sizes}),
		"bolts of one size": func() error { _, err := (Offer{Bolt: &bolt}).Again(25 * measure.Yards); return err }(),
		"orders of suppliers": func() error {
			_, err := Cheapest("USD", []Supplier{{Shipping: usd(most)}}, nil)
			return err
		}(),
		"goods of suppliers": func() error {
			_, err := Cheapest("USD", []Supplier{{Tax: Whole(100)}}, []Goods{{"net", KindCloth, []Choice{{0, usd(most)}}}})
			return err
		}(),
	} {
		if !errors.Is(err, ErrTooMuch) {
			t.Errorf("%s: %v", why, err)
		} else if at, _, named := strings.Cut(why, ": "); named && !strings.HasPrefix(err.Error(), at+": ") {
			t.Errorf("%s is not told to be of the %s", err, at)
		}
	}
}

// Without a step a price of several gowns stays as it is, to the cent: only their shares differ.
func TestNoStepRoundsNothing(t *testing.T) {
	materials, labour := gown()
	for _, taxed := range []bool{false, true} {
		q, err := Terms{Currency: "USD", Gowns: 3, Overhead: Whole(15), RoundTaxed: taxed}.Quote(materials, labour)
		// 835.36 are 278.46 once and twice 278.45
		if diff := cmp.Diff([]Portion{{1, usd(27846)}, {2, usd(27845)}}, q.PerGown); err != nil || q.Price != usd(83536) ||
			diff != "" {
			t.Errorf("%v, %v %s", q.Price, err, diff)
		}
	}
}

// A price that its step rounds to nothing is refused; one of nothing stays one.
func TestPricesRoundedAway(t *testing.T) {
	for _, tt := range []struct {
		cost, step int64
		away       bool
	}{{249, 500, true}, {250, 500, false}, {0, 500, false}, {1, 0, false}} {
		_, err := Terms{Currency: "USD", RoundTo: Money{tt.step, "USD"}}.Quote([]Line{{"net", usd(tt.cost), KindCloth, ""}},
			Labour{})
		if errors.Is(err, ErrRoundedAway) != tt.away || !tt.away && err != nil {
			t.Errorf("%d in steps of %d: %v", tt.cost, tt.step, err)
		}
	}
}

// Of ways that cost the same the one of fewest orders is taken: 60.00 + 40.00 from two without shipping are 100.00, as
// from a third one alone.
func TestEquallyCheapOrders(t *testing.T) {
	mills := []Supplier{{Name: "Lantern Mill"}, {Name: "Court Drapers"}, {Name: "Harbour Cloth"}}
	goods := []Goods{{"satin", KindCloth, []Choice{{0, usd(6000)}, {2, usd(6000)}}},
		{"net", KindCloth, []Choice{{1, usd(4000)}, {2, usd(4000)}}}}
	o, err := Cheapest("USD", mills, goods)
	if err != nil || len(o.Orders) != 1 || o.Orders[0].Supplier != 2 || o.Total != usd(10000) {
		t.Errorf("%+v, %v", o, err)
	}
	found, told, err := CheapestFound("USD", mills, goods)
	if diff := cmp.Diff(o, found); err != nil || !told || diff != "" {
		t.Errorf("%v, %v %s", told, err, diff)
	}
	if _, _, err := CheapestFound("USD", nil, goods); err == nil || err.Error() != "satin: there is no supplier 0" {
		t.Error(err)
	}
}

// Needs and prices that do not go together are refused whatever else is given.
func TestNotionsOfTwoNeeds(t *testing.T) {
	length := &Offer{Price: usd(120), Per: measure.Metre}
	for _, n := range []Notion{
		{Count: 1, Length: 100, ByLength: length}, {Length: 100, Lengths: []float64{1}, ByLength: length},
		{Count: 1, Length: 100, Reel: &Bolt{Length: 1000, Price: usd(1)}}, {Count: 1, Length: 1, Each: &Each{Price: usd(1)}},
		{Count: 1, Lengths: []float64{1}, Each: &Each{Price: usd(1)}},
	} {
		if item, err := n.Buy(); err == nil || !strings.Contains(err.Error(), "the price does not fit what is needed") {
			t.Errorf("%+v bought %+v, %v", n, item, err)
		}
	}
	for _, n := range []Notion{{OwnedCount: -1}, {OwnedCount: mostCount + 1}, {OwnedLength: -1}, {OwnedLength: math.NaN()},
		{OwnedLength: 2 * longestSum}} {
		n.Count, n.Each = 1, &Each{Price: usd(1)}
		if _, err := n.Buy(); err == nil || !strings.Contains(err.Error(), "on the shelf, must be 0 or more") {
			t.Errorf("%+v: %v", n, err)
		}
	}
	if reel, err := (Notion{Length: 3, Reel: &Bolt{Length: 1, Price: usd(2)}}).Buy(); err != nil || reel.Packs != 3 {
		t.Errorf("the shortest reel: %+v, %v", reel, err)
	}
}

// What is bought tells where its price begins: nothing for the plain one, and 5 yd for that of 5 yd.
func TestWhereAPriceBegins(t *testing.T) {
	yd := measure.Yards
	o := Offer{Price: usd(1000), Per: measure.Yard, Breaks: []Break{{From: 5 * yd, Price: usd(700)}},
		Bolt: &Bolt{Length: 40 * yd, Price: usd(20000)}}
	for _, tt := range []struct {
		used, from float64
		words      string
	}{{2 * yd, 0, "2 yd cut"}, {4.5 * yd, 5 * yd, "5 yd at the price from 5 yd"}, {39 * yd, 0, "1 bolt of 40 yd"}} {
		p, err := o.Buy(tt.used)
		if err != nil || len(p.Parts) != 1 || p.Parts[0].From != tt.from || o.InWords(p) != tt.words {
			t.Errorf("%v mm: %+v, %v; %s", tt.used, p.Parts, err, o.InWords(p))
		}
	}
	p, err := o.Together(Set{Counts: []int{2}, Bolts: 2, Cost: usd(40000)}, 1.2*yd, 80*yd, 0)
	if err != nil || o.InWords(p) != "2 bolts of 40 yd and 1 1/4 yd cut" || p.Lengths() != 3 || p.Cost != usd(41250) {
		t.Errorf("%s, %v, %v", o.InWords(p), p.Cost, err)
	}
	for _, mm := range []float64{math.NaN(), -1, 2 * measure.Longest} {
		for i := range 3 {
			args := [3]float64{yd, yd, yd}
			args[i] = mm
			if _, err := o.Together(Set{Counts: []int{1}}, args[0], args[1], args[2]); err == nil {
				t.Errorf("%v mm are bought", args)
			}
		}
	}
}

// An error shows no more of a long text than tells which it is, and cuts no letter in two.
func TestLongTextsInErrors(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{strings.Repeat("a", 40), strings.Repeat("a", 40)}, {strings.Repeat("a", 41), strings.Repeat("a", 40) + "..."},
		{strings.Repeat("a", 39) + "éé", strings.Repeat("a", 39) + "..."},
	} {
		_, err := ParseMoney(tt.text, "USD")
		if want := fmt.Sprintf("cannot read %q as an amount: ", tt.want); err == nil || !strings.HasPrefix(err.Error(),
			want) {
			t.Errorf("%v\nwant %s", err, want)
		}
	}
	if got := (Money{Minor: 1350}).String(); got != (Money{Minor: 1350}).Amount() || strings.HasSuffix(got, " ") {
		t.Errorf("money of no currency is %q", got)
	}
}
