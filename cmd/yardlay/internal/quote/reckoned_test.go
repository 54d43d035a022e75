package quote

import (
	"errors"
	"fmt"
	"math/big"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/cost"
)

// order is a sash of whole inches with notions and work, as drawn: money in cents, shares in hundredths of a per cent.
type order struct {
	gowns, inches, price, goodsTax, shipping  int64
	pins, spare, pack, packPrice, have, owned int64
	hours, fittings, fitting, rate            int64 // hours in hundredths, a fitting likewise
	overhead, percent, tax, deposit, step     int64
	pricing, rounding                         string
}

func drawnOrder(t *rapid.T) order {
	n := func(name string, least, most int64) int64 { return rapid.Int64Range(least, most).Draw(t, name) }
	o := order{gowns: n("gowns", 1, 3), inches: n("inches", 10, 200), price: n("price", 1, 4000),
		goodsTax: n("goods tax", 0, 2500), shipping: n("shipping", 0, 1500), pins: n("pins", 1, 40), spare: n("spare", 0, 3),
		pack: n("pack", 1, 12), packPrice: n("pack price", 1, 900), have: n("have", 0, 50), owned: n("owned", 0, 1),
		hours: n("hours", 0, 3000), fittings: n("fittings", 0, 2), fitting: n("fitting", 1, 150), rate: n("rate", 1, 6000),
		overhead: n("overhead", 0, 4000), percent: n("percent", 1, 9000), tax: n("tax", 0, 2500),
		deposit: n("deposit", 0, 10000), step: rapid.SampledFrom([]int64{0, 0, 5, 100, 500}).Draw(t, "step"),
		pricing:  rapid.SampledFrom([]string{"", "doubled", "markup", "margin"}).Draw(t, "pricing"),
		rounding: rapid.SampledFrom([]string{"", "up", "total"}).Draw(t, "rounding")}
	return o
}

// file writes the order as a job.
func (o order) file() string {
	amount := func(cents int64) string { return fmt.Sprintf("%d.%02d", cents/100, cents%100) }
	owned := []string{"replacement", "zero"}[o.owned]
	sold := fmt.Sprintf("price = \"%s/each\"\n", amount(o.packPrice))
	if o.pack > 1 {
		sold = fmt.Sprintf("price = \"%s/pack\"\npack = %d\n", amount(o.packPrice), o.pack)
	}
	terms := map[string]string{"": "", "doubled": "doubled = true\n",
		"markup": fmt.Sprintf("markup = \"%s %%\"\n", amount(o.percent)),
		"margin": fmt.Sprintf("margin = \"%s %%\"\n", amount(o.percent))}[o.pricing]
	if o.step > 0 {
		terms += fmt.Sprintf("round_to = \"%s\"\n", amount(o.step)) +
			map[string]string{"": "", "up": "round = \"up\"\n", "total": "rounded = \"total\"\n"}[o.rounding]
	}
	return sash(float64(o.inches), fmt.Sprintf("price = \"%s/yd\"\nsupplier = \"mill\"\n", amount(o.price)), fmt.Sprintf(
		"[[supplier]]\nname = \"mill\"\ntax = \"%s %%\"\nshipping = \"%s\"\n"+
			"[[notion]]\nname = \"pins\"\ncount = %d\nspare = %d\n%ssupplier = \"mill\"\nhave = %d\n"+
			"[labour]\nhours = %s\nrate = \"%s/h\"\nfittings = %d\nfitting_hours = %s\n"+
			"[quote]\noverhead = \"%s %%\"\ntax = \"%s %%\"\ndeposit = \"%s %%\"\nowned = %q\n%s",
		amount(o.goodsTax), amount(o.shipping), o.pins, o.spare, sold, o.have,
		amount(o.hours), amount(o.rate), o.fittings, amount(o.fitting), amount(o.overhead), amount(o.tax), amount(o.deposit),
		owned, terms))
}

// rounded divides whole numbers, a half going away from zero.
func rounded(above, below int64) int64 {
	r := new(big.Rat).SetFrac(big.NewInt(2*above+below), big.NewInt(2*below))
	return new(big.Int).Div(r.Num(), r.Denom()).Int64()
}

// up divides whole numbers and rounds up.
func up(above, below int64) int64 { return (above + below - 1) / below }

// share takes so many hundredths of a per cent of an amount.
func share(cents, hundredths int64) int64 { return rounded(cents*hundredths, 10_000) }

// reckoned is what the order costs, in cents: by line, then its sums.
func (o order) reckoned() (lines map[string]int64, sums [8]int64) {
	lines = map[string]int64{}
	packs := func(n int64) int64 { return up(n, o.pack) * o.packPrice }
	lines["satin"] = rounded(up(o.gowns*o.inches*2, 9)*o.price, 8) // eighths of a yard, 4 1/2 in each
	wanted := o.gowns*o.pins + o.spare
	shelf := min(o.have, wanted)
	fresh := packs(wanted - shelf)
	worth := packs(wanted) - fresh
	if o.pack > 1 {
		worth = min(worth, rounded(shelf*o.packPrice, o.pack))
	}
	if o.owned == 1 {
		worth = 0
	}
	lines["pins"] = fresh + worth
	lines["tax on goods"] = share(lines["satin"], o.goodsTax) + share(fresh, o.goodsTax)
	lines["shipping"] = o.shipping
	lines["making"] = rounded(o.gowns*o.hours*o.rate, 100)
	lines["fittings"] = rounded(o.gowns*o.fittings*o.fitting*o.rate, 100)
	materials := lines["satin"] + lines["pins"] + lines["tax on goods"] + lines["shipping"]
	labour := lines["making"] + lines["fittings"]
	overhead := share(materials+labour, o.overhead)
	cost := materials + labour + overhead
	plain := cost
	switch o.pricing {
	case "doubled":
		plain = 2 * cost
	case "markup":
		plain = share(cost, 10_000+o.percent)
	case "margin":
		plain = rounded(cost*10_000, 10_000-o.percent)
	}
	price, tax := plain, share(plain, o.tax)
	if step := o.step * o.gowns; step > 0 {
		switch o.rounding {
		case "total":
			total := rounded(plain+tax, step) * step
			tax = rounded(total*o.tax, 10_000+o.tax)
			price = total - tax
		case "up":
			price = up(plain, step) * step
			tax = share(price, o.tax)
		default:
			price = rounded(plain, step) * step
			tax = share(price, o.tax)
		}
	}
	return lines, [8]int64{materials, labour, overhead, cost, price, tax, price + tax, share(price+tax, o.deposit)}
}

// Whatever is ordered, a quote comes to the cent to what whole numbers say: cloth by the eighth of a yard, packs and
// what the shelf saves of them, tax and shipping of the supplier, hours, overhead, what leads to the price, tax,
// deposit.
func TestQuotesAgainstWholeNumbers(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		o := drawnOrder(rt)
		q, err := Make(t.Context(), testjobs.Read(rt, o.file()), quick(int(o.gowns)))
		lines, sums := o.reckoned()
		if errors.Is(err, cost.ErrRoundedAway) && sums[4] <= 0 {
			return
		} else if err != nil {
			rt.Fatal(err)
		}
		if got := [8]int64{q.Materials.Minor, q.Labour.Minor, q.Overhead.Minor, q.Cost.Minor, q.Price.Minor, q.Tax.Minor,
			q.Total.Minor, q.Deposit.Minor}; got != sums {
			rt.Fatalf("%v, want %v for\n%s", got, sums, o.file())
		}
		if q.Profit.Minor != sums[4]-sums[3] || q.Balance.Minor != sums[6]-sums[7] {
			rt.Fatalf("a profit of %v, a balance of %v", q.Profit, q.Balance)
		}
		if below := strings.Contains(strings.Join(q.Notes, "\n"), "below the cost"); below != (sums[4] < sums[3]) {
			rt.Fatalf("a profit of %v, and the notes %q", q.Profit, q.Notes)
		}
		got := map[string]int64{}
		for _, l := range q.Lines {
			got[l.What] += l.Amount.Minor
			if _, ours := lines[l.What]; ours && l.Kind == cost.KindSupply && l.Detail != "mill" {
				rt.Fatalf("%s %q", l.What, l.Detail)
			}
		}
		for what, want := range lines {
			if got[what] != want {
				rt.Fatalf("%s for %d, want %d for\n%s", what, got[what], want, o.file())
			}
		}
	})
}

// A comparison weighs a job by its quote as soon as it costs more than cloth at one counter, and by its cloth alone
// where it does not; what is sewn is counted either way.
func TestWhatAComparisonWeighs(t *testing.T) {
	const mill = "[[supplier]]\nname = \"mill\"\n"
	for _, c := range []struct {
		cloth, tables string
		more          bool
	}{
		{"", "", false}, {`price = "10.00/yd"`, "", false}, {`price = "10.00/yd"`, "[quote]\ndeposit = \"10 %\"\n", false},
		{`price = "10.00/yd"`, "[[notion]]\nname = \"pin\"\ncount = 1\nprice = \"1.00/each\"\n", true},
		{"", "[labour]\nhours = 1\nrate = \"1.00/h\"\n", true},
		{"", "[labour]\nfittings = 1\nfitting_hours = 1\nrate = \"1.00/h\"\n", true},
		{"", "[labour]\nrate = \"1.00/h\"\nseam = \"3 min/yd\"\n", true},
		{"", "[quote]\noverhead = \"10 %\"\n", true}, {"", "[quote]\ntax = \"10 %\"\n", true},
		{"", "[quote]\nmarkup = \"10 %\"\n", true}, {"", "[quote]\nround_to = \"10.00\"\n", true},
		{"price = \"10.00/yd\"\nsupplier = \"mill\"", mill, true},
		{"price = \"10.00/yd\"\noffers = [ { supplier = \"mill\", price = \"9.00/yd\" } ]", mill, true},
	} {
		j := testjobs.Read(t, sash(36, c.cloth, c.tables))
		if got := countsMore(j); got != c.more {
			t.Errorf("%s %s: counts more than cloth: %v", c.cloth, c.tables, got)
		}
	}
	j := testjobs.Read(t, sash(36, `price = "10.00/yd"`, ""))
	p, err := Weigh(quick(2))(t.Context(), j, nil)
	if err != nil || p.More || p.Pieces != 2 || p.Seam == 0 || p.Price != (cost.Money{}) {
		t.Errorf("%+v, %v", p, err)
	}
	q := made(t, sash(36, `price = "10.00/yd"`, "[labour]\nhours = 2\nrate = \"3.00/h\"\n"))
	if diff := cmp.Diff(usd(1600), q.priced().Price); diff != "" || !q.priced().More || q.priced().Labour != usd(600) ||
		q.priced().Pieces != 1 || 2*q.priced().Seam != p.Seam || q.priced().Rated {
		t.Errorf("%+v %s", q.priced(), diff)
	}
}
