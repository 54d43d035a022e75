package cost

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"pgregory.net/rapid"

	"yardlay/benchmarks/processor"
)

// many draws goods that some of several suppliers sell, each free of shipping from some sum on.
func many(t *rapid.T, suppliers, goods int) ([]Supplier, []Goods) {
	var sellers []Supplier
	for i := range suppliers {
		sellers = append(sellers, Supplier{Name: fmt.Sprint(i), Shipping: usd(rapid.Int64Range(0, 1500).Draw(t, "shipping")),
			FreeFrom: usd(rapid.Int64Range(1, int64(3000*goods)).Draw(t, "free"))})
	}
	var all []Goods
	for i := range goods {
		g := Goods{Name: fmt.Sprint(i), Kind: KindCloth}
		for k := range sellers {
			if k == i%suppliers || rapid.Bool().Draw(t, "sells") {
				g.Choices = append(g.Choices, Choice{k, usd(rapid.Int64Range(100, 6000).Draw(t, "price"))})
			}
		}
		all = append(all, g)
	}
	return sellers, all
}

// What is found for many goods is the cheapest where it says so, never less than that, and sums up.
func TestCheapestFoundAgainstCheapest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sellers, goods := many(t, rapid.IntRange(1, 4).Draw(t, "suppliers"), rapid.IntRange(1, 14).Draw(t, "goods"))
		found, told, err := CheapestFound("USD", sellers, goods)
		if err != nil {
			t.Fatal(err)
		}
		var sum int64
		for _, o := range found.Orders {
			sum += o.Total.Minor
		}
		if sum != found.Total.Minor {
			t.Fatalf("orders of %d, a total of %v", sum, found.Total)
		}
		least, err := Cheapest("USD", sellers, goods)
		if errors.Is(err, ErrTooManyWays) {
			return
		}
		if err != nil || found.Total.Minor < least.Total.Minor || told && found.Total != least.Total {
			t.Fatalf("%v (told: %v) against %v, %v", found.Total, told, least.Total, err)
		}
	})
}

// The most suppliers and goods are weighed at once, whatever they ask.
func TestManyGoodsAreWeighedAtOnce(t *testing.T) {
	const limit = 2 * time.Second
	random := rand.New(rand.NewPCG(1, 2))
	for _, n := range []int{60, mostOfMany} {
		var sellers []Supplier
		for i := range mostSuppliers {
			sellers = append(sellers, Supplier{Name: fmt.Sprint(i), Shipping: usd(900),
				FreeFrom: usd(int64(5000 * (1 + random.IntN(n/5))))})
		}
		var goods []Goods
		for i := range n {
			g := Goods{Name: fmt.Sprint(i), Kind: KindCloth}
			for k := range sellers {
				if k == i%mostSuppliers || random.IntN(3) == 0 {
					g.Choices = append(g.Choices, Choice{k, usd(300 + int64(random.IntN(8000)))})
				}
			}
			goods = append(goods, g)
		}
		if took := processor.Least(limit, func() {
			if _, _, err := CheapestFound("USD", sellers, goods); err != nil {
				t.Fatal(err)
			}
		}); processor.Exceeds(took, limit) {
			t.Errorf("%d goods took %v", n, took)
		}
	}
}
