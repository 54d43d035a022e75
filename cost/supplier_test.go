package cost

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// Two mills for a gown's satin and net: prices and shipping are our own.
func TestCheapestOrders(t *testing.T) {
	mills := []Supplier{
		{Name: "Lantern Mill", Shipping: usd(900), FreeFrom: usd(10000)},
		{Name: "Court Drapers", Shipping: usd(500), Tax: Whole(10)},
	}
	goods := func(satinA, satinB, netA, netB int64) []Goods {
		return []Goods{
			{"satin", KindCloth, []Choice{{0, usd(satinA)}, {1, usd(satinB)}}},
			{"net", KindCloth, []Choice{{1, usd(netB)}, {0, usd(netA)}}},
		}
	}
	for _, tt := range []struct {
		name  string
		goods []Goods
		want  Orders
	}{
		{"each where it is cheaper", goods(5000, 7000, 8000, 4000), Orders{
			Choice: []int{0, 0}, Total: usd(10800),
			Orders: []Order{
				{0, []int{0}, usd(5000), usd(0), usd(900), usd(5900)},
				{1, []int{1}, usd(4000), usd(400), usd(500), usd(4900)},
			},
		}},
		{"one order saves a shipping", goods(5000, 4800, 4000, 4000), Orders{
			// 90.00 + 9.00 at the first; at the second 88.00 + 8.80 + 5.00
			Choice: []int{0, 1}, Total: usd(9900),
			Orders: []Order{{0, []int{0, 1}, usd(9000), usd(0), usd(900), usd(9900)}},
		}},
		{"a dearer net brings free shipping", goods(7000, 7500, 3000, 2300), Orders{
			// apart 70.00 + 9.00 + 25.30 + 5.00 = 109.30, both at the second 112.80
			Choice: []int{0, 1}, Total: usd(10000),
			Orders: []Order{{0, []int{0, 1}, usd(10000), usd(0), usd(0), usd(10000)}},
		}},
		{"one supplier only", []Goods{{"silk", KindCloth, []Choice{{1, usd(1005)}}}}, Orders{
			Choice: []int{0}, Total: usd(1606), // tax 1.005 is 1.01: the half goes up
			Orders: []Order{{1, []int{0}, usd(1005), usd(101), usd(500), usd(1606)}},
		}},
		{"nothing", nil, Orders{Choice: []int{}, Total: usd(0)}},
	} {
		got, err := Cheapest("USD", mills, tt.goods)
		if diff := cmp.Diff(tt.want, got); err != nil || diff != "" {
			t.Errorf("%s: %v\n%s", tt.name, err, diff)
		}
	}
}

func TestCheapestRefuses(t *testing.T) {
	mills := []Supplier{{Name: "Lantern Mill"}}
	one := func(c ...Choice) []Goods { return []Goods{{"satin", KindCloth, c}} }
	for _, tt := range []struct {
		why       string
		currency  string
		suppliers []Supplier
		goods     []Goods
	}{
		{"no currency code", "usd", mills, nil},
		{"satin: no supplier sells it", "USD", mills, one()},
		{"satin: there is no supplier 1", "USD", mills, one(Choice{1, usd(1)})},
		{"satin: 0.01 EUR is not in USD", "USD", mills, one(Choice{0, Money{1, "EUR"}})},
		{"satin: the price -0.01 USD is negative", "USD", mills, one(Choice{0, usd(-1)})},
		{"Far: shipping: 0.05 EUR", "USD", []Supplier{{Name: "Far", Shipping: Money{5, "EUR"}}}, nil},
		{"Far: free shipping from: the price", "USD", []Supplier{{Name: "Far", FreeFrom: usd(-5)}}, nil},
		{"Far: tax: -1 is negative", "USD", []Supplier{{Name: "Far", Tax: Whole(-1)}}, nil},
		{"11 suppliers", "USD", make([]Supplier, 11), nil},
		{"201 goods", "USD", mills, make([]Goods, 201)},
		{"too large", "USD", mills, one(Choice{0, usd(math.MaxInt64)})},
	} {
		if o, err := Cheapest(tt.currency, tt.suppliers, tt.goods); err == nil ||
			!strings.Contains(err.Error(), tt.why) {
			t.Errorf("%+v, %v; want an error with %q", o, err, tt.why)
		}
	}
}

// drawSourcing draws suppliers and goods in which free shipping matters often.
func drawSourcing(t *rapid.T) ([]Supplier, []Goods) {
	var suppliers []Supplier
	for range rapid.IntRange(1, 4).Draw(t, "suppliers") {
		s := Supplier{Name: "s", Shipping: usd(rapid.Int64Range(0, 60).Draw(t, "shipping")),
			Tax: Decimal(rapid.Int64Range(0, 250000).Draw(t, "tax"))}
		if rapid.Bool().Draw(t, "may be free") {
			s.FreeFrom = usd(rapid.Int64Range(0, 200).Draw(t, "free from"))
		}
		suppliers = append(suppliers, s)
	}
	var goods []Goods
	for range rapid.IntRange(1, 5).Draw(t, "goods") {
		g := Goods{Name: "g", Kind: KindCloth}
		for s := range suppliers {
			for n := rapid.IntRange(0, 3).Draw(t, "sells"); n > 0 || s == 0 && len(g.Choices) == 0; n-- {
				g.Choices = append(g.Choices, Choice{s, usd(rapid.Int64Range(0, 100).Draw(t, "cost"))})
			}
		}
		goods = append(goods, g)
	}
	return suppliers, goods
}

// bruteOrders prices every assignment of goods to suppliers.
func bruteOrders(suppliers []Supplier, goods []Goods) int64 {
	best := int64(math.MaxInt64)
	spent, used := make([]int64, len(suppliers)), make([]int, len(suppliers))
	var from func(i int, total int64)
	from = func(i int, total int64) {
		if i == len(goods) {
			for s, n := range used {
				if n > 0 && (suppliers[s].FreeFrom.Currency == "" || spent[s] < suppliers[s].FreeFrom.Minor) {
					total += suppliers[s].Shipping.Minor
				}
			}
			best = min(best, total)
			return
		}
		for _, c := range goods[i].Choices {
			tax := (c.Cost.Minor*int64(suppliers[c.Supplier].Tax)*2 + 1_000_000) / 2_000_000 // half a cent up
			spent[c.Supplier] += c.Cost.Minor
			used[c.Supplier]++
			from(i+1, total+c.Cost.Minor+tax)
			spent[c.Supplier] -= c.Cost.Minor
			used[c.Supplier]--
		}
	}
	from(0, 0)
	return best
}

func TestCheapestAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		suppliers, goods := drawSourcing(t)
		got, err := Cheapest("USD", suppliers, goods)
		if want := bruteOrders(suppliers, goods); err != nil || got.Total != usd(want) {
			t.Fatalf("%+v %+v\ncost %+v, %v; every way tried: %v", suppliers, goods, got, err, usd(want))
		}
		var bill Bill
		for _, l := range got.Lines(suppliers, goods) {
			if err := bill.AddLine(l); err != nil {
				t.Fatal(err)
			}
		}
		if bill.Total.Minor != got.Total.Minor {
			t.Fatalf("lines sum to %v, orders cost %v", bill.Total, got.Total)
		}
	})
}

// Thirty goods from three suppliers, with free shipping within reach of all:
// more ways than could be tried one by one.
func TestCheapestOfManyGoods(t *testing.T) {
	for _, from := range [][2]int64{{25000, 30000}, {12000, 15000}, {17000, 16000}} {
		manyGoods(t, []Supplier{
			{Name: "a", Shipping: usd(1500), FreeFrom: usd(from[0])},
			{Name: "b", Shipping: usd(1200), FreeFrom: usd(from[1])},
			{Name: "c", Shipping: usd(900)},
		})
	}
}

func manyGoods(t *testing.T, suppliers []Supplier) {
	t.Helper()
	var goods []Goods
	for i := range int64(30) {
		goods = append(goods, Goods{"g", KindNotion,
			[]Choice{{0, usd(1000 + i*37%210)}, {1, usd(1000 + i*53%190)}, {2, usd(1000 + i*71%230)}}})
	}
	got, err := Cheapest("USD", suppliers, goods)
	if err != nil {
		t.Fatal(err)
	}
	for s := range suppliers { // all from one supplier is one of the ways
		total := int64(0)
		for _, g := range goods {
			total += g.Choices[s].Cost.Minor
		}
		if !suppliers[s].free(total) {
			total += suppliers[s].Shipping.Minor
		}
		if got.Total.Minor > total {
			t.Errorf("%v, but all from %s cost %v", got.Total, suppliers[s].Name, usd(total))
		}
	}
}
