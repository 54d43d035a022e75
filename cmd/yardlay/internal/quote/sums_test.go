package quote

import (
	"errors"
	"fmt"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/cost"
	"yardlay/shapes/measure"
)

// drawnJob is a small job with any prices, shares and suppliers.
func drawnJob(t *rapid.T) string {
	amount := func(name string, most int) string {
		cents := rapid.IntRange(0, most).Draw(t, name)
		return fmt.Sprintf("%d.%02d", cents/100, cents%100)
	}
	percent := func(name string, most int) string {
		return fmt.Sprintf("%s %%", strings.TrimSuffix(fmt.Sprintf("%.2f",
			float64(rapid.IntRange(0, most*4).Draw(t, name))/4), ".00"))
	}
	cloth := fmt.Sprintf("price = \"%s/yd\"\nsupplier = \"mill\"\noffers = [ { supplier = \"tower\", price = "+
		"\"%s/m\" } ]\n",
		amount("price", 3000), amount("other price", 3000))
	if rapid.Bool().Draw(t, "have") {
		cloth += "have = [ { name = \"end\", length = 40 } ]\n"
	}
	tables := fmt.Sprintf("[[supplier]]\nname = \"mill\"\nshipping = \"%s\"\ntax = \"%s\"\n[[supplier]]\nname = "+
		"\"tower\"\nshipping = \"%s\"\nfree_from = \"%s\"\n",
		amount("shipping", 2000), percent("goods tax", 25), amount("other shipping", 2000), amount("free from", 20000))
	tables += fmt.Sprintf("[[notion]]\nname = \"pins\"\ncount = %d\nprice = \"%s/pack\"\npack = %d\nsupplier = "+
		"\"mill\"\nhave = %d\n",
		rapid.IntRange(1, 50).Draw(t, "pins"), amount("pack price", 900), rapid.IntRange(1, 30).Draw(t, "pack"),
		rapid.IntRange(0, 60).Draw(t, "have pins"))
	tables += fmt.Sprintf("[labour]\nrate = \"%s/h\"\nhours = %.2f\nfittings = %d\nfitting_hours = 0.75\n",
		amount("rate", 9000), float64(rapid.IntRange(0, 9000).Draw(t, "hours"))/100,
		rapid.IntRange(0, 3).Draw(t, "fittings"))
	tables += fmt.Sprintf("[quote]\noverhead = \"%s\"\ntax = \"%s\"\ndeposit = \"%s\"\n", percent("overhead", 60),
		percent("tax", 25), percent("deposit", 100))
	tables += rapid.SampledFrom([]string{"", "doubled = true\n", "markup = \"33.3333 %\"\n",
		"margin = \"66.6667 %\"\n"}).Draw(t, "pricing")
	tables += rapid.SampledFrom([]string{"", "round_to = \"5.00\"\n", "round_to = \"0.05\"\nround = \"up\"\n",
		"round_to = \"1.00\"\nrounded = \"total\"\n"}).Draw(t, "rounding")
	return sash(float64(rapid.IntRange(10, 300).Draw(t, "inches")), cloth, tables)
}

// cents reads an amount as it is printed.
func cents(t *rapid.T, text string) int64 {
	text = strings.ReplaceAll(text, "\u00a0", "")
	r, ok := new(big.Rat).SetString(text)
	if !ok || len(text)-strings.IndexByte(text, '.') != 3 {
		t.Fatalf("%q is no amount", text)
	}
	return r.Mul(r, big.NewRat(100, 1)).Num().Int64()
}

// Whatever the job, what is printed adds up: the items come to the total, every
// sum to the items above it, the shares of the gowns to the total again.
func TestPrintedLinesSumToThePrintedTotal(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		src, gowns := drawnJob(rt), 1
		if !strings.Contains(src, "have = [") { // to share a shelf among several takes longer
			gowns = rapid.SampledFrom([]int{1, 1, 1, 1, 2, 3}).Draw(rt, "gowns")
		}
		q, err := Make(t.Context(), testjobs.Read(t, src), quick(gowns))
		if errors.Is(err, cost.ErrRoundedAway) { // refused: there is no total to print
			return
		} else if err != nil {
			rt.Fatal(err)
		}
		sum, group := int64(0), int64(0)
		last := ""
		for _, e := range q.Ledger().Lines {
			switch e.Kind {
			case sheet.EntryItem:
				sum, group = sum+cents(rt, e.Amount), group+cents(rt, e.Amount)
			case sheet.EntrySum:
				if got := cents(rt, e.Amount); got != sum && e.Text != "Labour" || e.Text == "Labour" && got != group {
					rt.Fatalf("%s of %s where the items come to %d, those of the group to %d", e.Text,
						e.Amount, sum, group)
				}
				group = 0
			case sheet.EntryTotal:
				last = e.Amount
			}
		}
		if last != q.Total.Grouped() || cents(rt, last) != sum {
			rt.Fatalf("the items come to %d, the total is %s", sum, last)
		}
		shares := int64(0)
		for _, s := range q.PerGown {
			shares += int64(s.Count) * s.Each.Minor
		}
		if shares != sum {
			rt.Fatalf("the gowns' shares come to %d of %d", shares, sum)
		}
		list, err := q.Shopping()
		if err != nil {
			rt.Fatal(err)
		}
		checkList(rt, q, list)
	})
}

// checkList holds that a shopping list adds up too, and that it is what the quote
// has as materials but for the shelf.
func checkList(t *rapid.T, q *Quote, l List) {
	items, last := int64(0), ""
	for _, e := range l.Ledger().Lines {
		switch {
		case e.Kind == sheet.EntryItem && e.Amount != "":
			items += cents(t, e.Amount)
		case e.Kind == sheet.EntryTotal:
			last = e.Amount
		}
	}
	shelf := int64(0)
	for _, o := range l.Shelf {
		shelf += o.Value.Minor
	}
	if cents(t, last) != items || items+shelf != q.Materials.Minor {
		t.Fatalf("the list says %s, its items come to %d, the shelf is worth %d, and materials are %v", last, items,
			shelf, q.Materials)
	}
}

// No single supplier would be cheaper than what the quote orders.
func TestNoSupplierAloneIsCheaper(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		inches := float64(rapid.IntRange(10, 400).Draw(rt, "inches"))
		price := func(name string) string { return fmt.Sprintf("%d.25", rapid.IntRange(1, 20).Draw(rt, name)) }
		step := func(name string) string {
			return rapid.SampledFrom([]string{"1/8 yd", "1/4 yd", "1 yd", "0.1 m"}).Draw(rt, name)
		}
		a := fmt.Sprintf("price = \"%s/yd\"\nsold_by = %q\n", price("a"), step("step a"))
		b := fmt.Sprintf("price = \"%s/yd\"\nsold_by = %q\n", price("b"), step("step b"))
		suppliers := fmt.Sprintf("[[supplier]]\nname = \"mill\"\nshipping = \"%s\"\n", price("shipping"))
		both := made2(rt, t, sash(inches, a+"offers = [ { supplier = \"mill\", "+
			strings.ReplaceAll(strings.TrimSpace(b), "\n", ", ")+" } ]\n", suppliers))
		alone := []*Quote{made2(rt, t, sash(inches, a, suppliers)),
			made2(rt, t, sash(inches, b+"supplier = \"mill\"\n", suppliers))}
		least := min(alone[0].Total.Minor, alone[1].Total.Minor)
		if both.Total.Minor != least {
			rt.Fatalf("%v where one supplier alone takes %v or %v", both.Total, alone[0].Total, alone[1].Total)
		}
		// and what is bought is whole steps of that counter, no more than it takes
		item := both.Orders[0].Items[0]
		if item.BoughtLength < item.NeededLength-measure.Guard {
			rt.Fatalf("%v is not enough for %v", item.BoughtLength, item.NeededLength)
		}
	})
}

func made2(rt *rapid.T, t *testing.T, src string) *Quote {
	q, err := Make(t.Context(), testjobs.Read(t, src), quick(1))
	if err != nil {
		rt.Fatal(err)
	}
	return q
}

// A quote of a job without a price, hour or notion is of nothing, and says so.
func TestAQuoteOfNothing(t *testing.T) {
	q := made(t, sash(36, "", ""))
	if q.Total != (cost.Money{Currency: "USD"}) || len(q.Notes) != 1 || !strings.Contains(q.Notes[0], "no price") {
		t.Errorf("%+v", q)
	}
}
