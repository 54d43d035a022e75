package quote

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/cost"
	"yardlay/shapes/measure"
)

func usd(cents int64) cost.Money { return cost.Money{Minor: cents, Currency: "USD"} }

// What a purchase is made of reads as it is asked for at a counter.
func TestPurchasesInWords(t *testing.T) {
	cut := cost.Part{Length: 5.75 * measure.Yards, Price: usd(1090)}
	bolt := cost.Part{Bolt: true, Count: 1, Length: 15 * measure.Yards, Price: usd(14000)}
	half := cost.Part{Bolt: true, Count: 2, Length: 7.5 * measure.Yards, Price: usd(8000)}
	for _, c := range []struct {
		parts           []cost.Part
		per             measure.Unit
		quantity, price string
	}{
		{[]cost.Part{cut}, measure.Yard, "5 3/4 yd (5.26 m)", "10.90/yd"},
		{[]cost.Part{cut}, measure.Metre, "5.26 m (5 3/4 yd)", "10.90/m"},
		{[]cost.Part{bolt}, measure.Yard, "1 bolt of 15 yd", "140.00/bolt"},
		{[]cost.Part{half, cut}, measure.Yard, "2 bolts of 7 1/2 yd and 5 3/4 yd (5.26 m)", "80.00/bolt and 10.90/yd"},
		{[]cost.Part{bolt, half}, measure.Yard, "1 bolt of 15 yd and 2 bolts of 7 1/2 yd",
			"140.00/bolt and 80.00/bolt"},
	} {
		if quantity, price := parts(cost.Purchase{Parts: c.parts}, c.per); quantity != c.quantity || price != c.price {
			t.Errorf("%q at %q, want %q at %q", quantity, price, c.quantity, c.price)
		}
	}
}

// Notions on a quote and on the shopping list: how they are sold, what is needed, what is
// spare; a line for each way they can be sold.
func TestNotionsInWords(t *testing.T) {
	for _, c := range []struct{ notion, quantity, price, listed string }{
		{"count = 5\nprice = \"0.30/each\"", "5", "0.30/each", "at 0.30/each, needed 5"},
		{"count = 5\nspare = 2\nprice = \"0.30/each\"", "7", "0.30/each", "at 0.30/each, needed 5, 2 spare"},
		{"count = 13\nprice = \"4.00/pack\"\npack = 12", "2 packs of 12", "4.00/pack", "at 4.00/pack, needed 13"},
		{"count = 12\nprice = \"4.00/pack\"\npack = 12", "1 pack of 12", "4.00/pack", "at 4.00/pack, needed 12"},
		{"length = 90\nprice = \"4.00/yd\"\nsold_by = \"1/4 yd\"", "2 1/2 yd (2.29 m)", "4.00/yd",
			"at 4.00/yd, needed 2 1/2 yd"},
		{"length = 90\nspare = \"10 %\"\nprice = \"4.00/yd\"\nsold_by = \"1/4 yd\"", "2 3/4 yd (2.52 m)", "4.00/yd",
			"at 4.00/yd, needed 2 1/2 yd, 10 % spare"},
		{"length = 90\nreel = { length = \"100 m\", price = \"3.00\" }", "1 reel of 100 m", "3.00/reel",
			"at 3.00/reel, needed 2 1/2 yd"},
		{"length = \"150 m\"\nreel = { length = \"110 yd\", price = \"3.00\" }", "2 reels of 110 yd", "3.00/reel",
			"at 3.00/reel, needed 164 1/8 yd"},
	} {
		q := made(t, sash(36, "", "[[notion]]\nname = \"thing\"\n"+c.notion+"\n"))
		if len(q.Orders) != 1 || len(q.Orders[0].Items) != 1 {
			t.Fatalf("%s: %+v", c.notion, q.Orders)
		}
		item := q.Orders[0].Items[0]
		list, err := q.Shopping()
		if err != nil {
			t.Fatal(err)
		}
		listed := ""
		for _, e := range list.Ledger().Lines {
			if strings.HasSuffix(e.Text, ", thing") {
				listed = e.Detail
			}
		}
		if item.Quantity != c.quantity || item.Price != c.price || listed != c.listed {
			t.Errorf("%s:\n%q at %q, listed %q\nwant\n%q at %q, listed %q", c.notion, item.Quantity, item.Price, listed,
				c.quantity, c.price, c.listed)
		}
	}
}

// Sums stand where a group of lines ends and another kind begins, once each, whatever kinds
// there are: materials before labour or overhead, labour before overhead, the cost before
// what leads to the price, the price before tax.
func TestSumsStandBetweenGroups(t *testing.T) {
	kinds := []cost.Kind{cost.KindCloth, cost.KindNotion, cost.KindSupply, cost.KindLabour, cost.KindOverhead,
		cost.KindPrice, cost.KindTax}
	q := &Quote{}
	q.Materials, q.Labour, q.Cost, q.Price = usd(1), usd(2), usd(3), usd(4)
	rank := func(k cost.Kind) string {
		switch k {
		case cost.KindLabour:
			return "labour"
		case cost.KindOverhead:
			return "overhead"
		case cost.KindPrice:
			return "price"
		case cost.KindTax:
			return "tax"
		}
		return "material"
	}
	for i, a := range kinds {
		for _, b := range append(kinds[i:], "") {
			want := map[string]string{"material labour": "Materials", "material overhead": "Materials",
				"material price": "Cost", "material tax": "Cost", "labour overhead": "Labour", "labour price": "Cost",
				"labour tax": "Cost", "overhead price": "Cost", "overhead tax": "Cost", "price tax": "Price"}[rank(a)+
				" "+rank(b)]
			if b == "" {
				want = ""
			}
			got := q.sums(a, b)
			if len(got) > 1 || (len(got) == 1) != (want != "") || len(got) == 1 && (got[0].Text != want ||
				got[0].Kind != sheet.EntrySum) {
				t.Errorf("between %q and %q stand %+v, want %q", a, b, got, want)
			}
		}
	}
}

// What is paid first and what later come to the total, and so do the shares of the gowns,
// as they are printed.
func TestWhatIsPaidComesToTheTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		total := rapid.Int64Range(0, 1e6).Draw(t, "total")
		deposit := rapid.SampledFrom([]int64{0, total / 3, total}).Draw(t, "deposit")
		gowns := rapid.IntRange(1, 5).Draw(t, "gowns")
		var shares []cost.Portion
		each, more := total/int64(gowns), int(total%int64(gowns))
		if more > 0 {
			shares = append(shares, cost.Portion{Count: more, Each: usd(each + 1)})
		}
		shares = append(shares, cost.Portion{Count: gowns - more, Each: usd(each)})
		paid, shared := int64(0), int64(0)
		for _, e := range paying(usd(total), usd(deposit), usd(total-deposit), shares, gowns) {
			n := 0
			switch {
			case e.Kind == sheet.EntryTotal:
				if cents(t, e.Amount) != total {
					t.Fatalf("the total is %s of %d", e.Amount, total)
				}
			case strings.HasPrefix(e.Text, "Deposit"), e.Text == "Balance":
				paid += cents(t, e.Amount)
			case strings.HasPrefix(e.Text, "One of"):
				shared += cents(t, e.Amount)
			default:
				if _, err := fmt.Sscanf(e.Text, "Each of %d", &n); err != nil {
					t.Fatalf("it says %q", e.Text)
				}
				shared += int64(n) * cents(t, e.Amount)
			}
		}
		if deposit > 0 && paid != total || deposit == 0 && paid != 0 || gowns > 1 && shared != total ||
			gowns == 1 && shared != 0 {
			t.Fatalf("%d paid and %d shared out of %d, %d of it first, of %d gowns", paid, shared, total, deposit,
				gowns)
		}
	})
}

// A choice that moves the cost but not the rounded total is told, and one that moves
// nothing is not.
func TestChoicesThatMoveTheCostAlone(t *testing.T) {
	file := testjobs.File(t, "job.toml", zipped("20", "21")+"[quote]\nround_to = \"100.00\"\nround = \"up\"\n")
	_, found, err := WhatIf(t.Context(), file, quick(1))
	if err != nil {
		t.Fatal(err)
	}
	if len(found.Choices) == 0 {
		t.Errorf("none is told: %+v", found)
	}
	for _, c := range found.Choices {
		if c.Saves.Minor != 0 || c.Cost.Minor == 0 {
			t.Errorf("%s saves %v of a total rounded to 100.00, and %v of the cost", c.Name, c.Saves, c.Cost)
		}
	}
}
