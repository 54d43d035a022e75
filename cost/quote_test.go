package cost

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// gown is materials of 186.40 and 22.5 h at 24.00; see the test below.
func gown() ([]Line, Labour) {
	return []Line{
		{"net", usd(9000), KindCloth, "1 bolt of 50 yd"}, {"satin", usd(7440), KindCloth, ""},
		{"zip", usd(1300), KindNotion, ""}, {"shipping", usd(900), KindSupply, "Lantern Mill"},
	}, Labour{Hours: 225_000, Rate: usd(2400)}
}

// Materials 186.40 and 22.5 h at 24.00 (540.00) are 726.40; overhead 15 % is
// 108.96, the cost 835.36; a markup of 20 % gives 835.36 x 1.2 = 1002.432, a
// margin of 20 % gives 835.36 / 0.8 = 1044.20, doubling 1670.72 (algebra,
// derived here). Materials, labour and overhead are the wholesale price, doubled
// for retail: Louisiana Voices, Unit VII.
func TestQuote(t *testing.T) {
	for _, tt := range []struct {
		pricing Pricing
		percent int32
		price   int64
		line    string
	}{
		{AtCost, 0, 83536, ""},
		{Markup, 20, 100243, "markup of 20 %"},
		{Margin, 20, 104420, "margin of 20 %"},
		{Doubled, 0, 167072, "wholesale price doubled"},
	} {
		materials, labour := gown()
		q, err := Terms{Currency: "USD", Overhead: Whole(15), Pricing: tt.pricing, Percent: Whole(tt.percent),
			Deposit: Whole(50)}.Quote(materials, labour)
		if err != nil {
			t.Fatal(err)
		}
		deposit := (tt.price + 1) / 2 // half a cent goes up
		want := Quote{
			Currency: "USD", Gowns: 1, Materials: usd(18640), Labour: usd(54000), Overhead: usd(10896),
			Cost:   usd(83536),
			Profit: usd(tt.price - 83536), Price: usd(tt.price), Tax: usd(0), Total: usd(tt.price),
			Deposit: usd(deposit), Balance: usd(tt.price - deposit), PerGown: []Portion{{1, usd(tt.price)}},
			Lines: append(materials, Line{"making", usd(54000), KindLabour, "22.5 h at 24.00 USD/h"},
				Line{"overhead", usd(10896), KindOverhead, "15 %"}),
		}
		if tt.line != "" {
			want.Lines = append(want.Lines, Line{tt.line, usd(tt.price - 83536), KindPrice, ""})
		}
		if diff := cmp.Diff(want, q); diff != "" {
			t.Errorf("%v: %s", tt.pricing, diff)
		}
	}
}

// Rounding of the final figure, and tax (rates and steps are our own).
func TestQuoteRounding(t *testing.T) {
	for _, tt := range []struct {
		name              string
		terms             Terms
		price, tax, total int64
	}{
		// 68.9172
		{"tax on top", Terms{Tax: 82_500}, 83536, 6892, 90428},
		{"to 5.00", Terms{RoundTo: usd(500)}, 83500, 0, 83500},
		{"up to 5.00", Terms{RoundTo: usd(500), RoundUp: true}, 84000, 0, 84000},
		{"to 5.00, then tax", Terms{RoundTo: usd(500), Tax: Whole(20)}, 83500, 16700, 100200},
		// 1002.43 to 1000.00, of which 1/6
		{"tax, then to 5.00", Terms{RoundTo: usd(500), Tax: Whole(20), RoundTaxed: true}, 83333, 16667, 100000},
		{"taxed and up to 5.00", Terms{RoundTo: usd(500), Tax: Whole(20), RoundTaxed: true, RoundUp: true}, 83750,
			16750, 100500},
		{"taxed, no step", Terms{Tax: Whole(20), RoundTaxed: true}, 83536, 16707, 100243}, // 167.072
		// 835.36 is 55.7 of 15.00
		{"three gowns, to 5.00 each", Terms{Gowns: 3, RoundTo: usd(500)}, 84000, 0, 84000},
		{"a price that is steps already, up", Terms{RoundTo: usd(16), RoundUp: true}, 83536, 0, 83536}, // 5221 x 16
	} {
		materials, labour := gown()
		tt.terms.Currency, tt.terms.Overhead = "USD", Whole(15)
		q, err := tt.terms.Quote(materials, labour)
		if err != nil || q.Price != usd(tt.price) || q.Tax != usd(tt.tax) || q.Total != usd(tt.total) {
			t.Errorf("%s: %v and %v are %v, %v; want %v, %v, %v", tt.name, q.Price, q.Tax, q.Total, err, usd(tt.price),
				usd(tt.tax), usd(tt.total))
		}
	}
}

// The rule at the half: away from zero, wherever a quote rounds.
func TestQuoteAtTheHalfCent(t *testing.T) {
	line := func(minor int64) []Line { return []Line{{"net", usd(minor), KindCloth, ""}} }
	for _, tt := range []struct {
		name  string
		terms Terms
		cost  int64
		want  int64 // the total
	}{
		{"overhead of 0.005", Terms{Overhead: Whole(50)}, 1, 2},
		{"overhead of 0.0149", Terms{Overhead: Decimal(1_490_000)}, 1, 2},
		{"markup to 0.015", Terms{Pricing: Markup, Percent: Whole(50)}, 1, 2},
		{"markup to 0.045", Terms{Pricing: Markup, Percent: Whole(50)}, 3, 5}, // half to even would give 4
		{"margin to 0.025", Terms{Pricing: Margin, Percent: Whole(60)}, 1, 3}, // half to even would give 2
		{"tax of 0.005", Terms{Tax: Whole(10)}, 5, 6},
		{"half a step of 0.10", Terms{RoundTo: usd(10)}, 25, 30}, // half to even would give 20
	} {
		tt.terms.Currency = "USD"
		if q, err := tt.terms.Quote(line(tt.cost), Labour{}); err != nil || q.Total != usd(tt.want) {
			t.Errorf("%s: %v, %v; want %v", tt.name, q.Total, err, usd(tt.want))
		}
	}
	yen := Terms{Currency: "JPY", Overhead: Whole(15), Tax: Whole(10)}
	if q, err := yen.Quote([]Line{{"silk", Money{1230, "JPY"}, KindCloth, ""}}, Labour{}); err != nil ||
		q.Cost.String() != "1415 JPY" || q.Total.String() != "1557 JPY" {
		t.Errorf("1230 JPY and 15 %% (184.5) and 10 %% (141.5): %v, %v, %v", q.Cost, q.Total, err)
	}
	dinar := Terms{Currency: "KWD", Pricing: Markup, Percent: Whole(50)}
	if q, err := dinar.Quote([]Line{{"silk", Money{1001, "KWD"}, KindCloth, ""}}, Labour{}); err != nil ||
		q.Total.String() != "1.502 KWD" {
		t.Errorf("1.001 KWD and a half: %v, %v", q.Total, err)
	}
}

func TestQuoteRefuses(t *testing.T) {
	ok := func() (Terms, []Line, Labour) {
		m, l := gown()
		return Terms{Currency: "USD"}, m, l
	}
	for _, tt := range []struct {
		why    string
		change func(*Terms, []Line, *Labour)
	}{
		{"a margin of 100 % cannot be",
			func(t *Terms, _ []Line, _ *Labour) { t.Pricing, t.Percent = Margin, Whole(100) }},
		{"a margin of 120.5 % cannot be",
			func(t *Terms, _ []Line, _ *Labour) { t.Pricing, t.Percent = Margin, 1_205_000 }},
		{"margin: -1 is negative", func(t *Terms, _ []Line, _ *Labour) { t.Pricing, t.Percent = Margin, Whole(-1) }},
		{"markup: -1 is negative", func(t *Terms, _ []Line, _ *Labour) { t.Pricing, t.Percent = Markup, Whole(-1) }},
		{"doubled takes no percentage", func(t *Terms, _ []Line, _ *Labour) { t.Pricing, t.Percent = Doubled, 1 }},
		{"Pricing(9) is no way", func(t *Terms, _ []Line, _ *Labour) { t.Pricing = 9 }},
		{"hours: -1 is negative", func(_ *Terms, _ []Line, l *Labour) { l.Hours = -one }},
		{"overhead: -1 is negative", func(t *Terms, _ []Line, _ *Labour) { t.Overhead = -one }},
		{"tax: -1 is negative", func(t *Terms, _ []Line, _ *Labour) { t.Tax = -one }},
		{"deposit: -1 is negative", func(t *Terms, _ []Line, _ *Labour) { t.Deposit = -one }},
		{"a deposit of 100.0001 %", func(t *Terms, _ []Line, _ *Labour) { t.Deposit = Whole(100) + 1 }},
		{"no currency code", func(t *Terms, _ []Line, _ *Labour) { t.Currency = "" }},
		{"net: 90.00 USD is not in EUR", func(t *Terms, _ []Line, _ *Labour) { t.Currency = "EUR" }},
		{"satin: 1.00 EUR is not in USD", func(_ *Terms, m []Line, _ *Labour) { m[1].Amount = Money{100, "EUR"} }},
		{"labour: 24.00 EUR is not in USD", func(_ *Terms, _ []Line, l *Labour) { l.Rate.Currency = "EUR" }},
		{"rounding: 5.00 EUR is not in USD", func(t *Terms, _ []Line, _ *Labour) { t.RoundTo = Money{500, "EUR"} }},
		{"satin: the price -0.01 USD", func(_ *Terms, m []Line, _ *Labour) { m[1].Amount.Minor = -1 }},
		{"1 of 4 lines", func(_ *Terms, m []Line, _ *Labour) { m[0].Kind = KindTax }},
		{"-1 gowns", func(t *Terms, _ []Line, _ *Labour) { t.Gowns = -1 }},
		{"too large", func(_ *Terms, m []Line, _ *Labour) { m[0].Amount.Minor = math.MaxInt64 }},
		{"too large", func(t *Terms, m []Line, _ *Labour) { m[0].Amount.Minor, t.Pricing = math.MaxInt64/2, Doubled }},
	} {
		terms, materials, labour := ok()
		tt.change(&terms, materials, &labour)
		if q, err := terms.Quote(materials, labour); err == nil || !strings.Contains(err.Error(), tt.why) {
			t.Errorf("%+v, %v; want an error with %q", q, err, tt.why)
		}
	}
}

// The client sees what is included and what to pay, and no cost, hour or profit.
func TestForClient(t *testing.T) {
	materials, labour := gown()
	q, err := Terms{Currency: "USD", Overhead: Whole(15), Pricing: Margin, Percent: Whole(20), Tax: Whole(10),
		Deposit: Whole(30)}.Quote(materials, labour)
	if err != nil {
		t.Fatal(err)
	}
	c := q.ForClient()
	want := ClientQuote{
		Currency: "USD", Gowns: 1, Price: usd(104420), Tax: usd(10442),
		Total: usd(114862), Deposit: usd(34459), Balance: usd(80403), PerGown: []Portion{{1, usd(114862)}},
	}
	if diff := cmp.Diff(want, c); diff != "" {
		t.Error(diff)
	}
	text, err := json.Marshal(c)
	if err != nil {
		t.Fatal(err)
	}
	for _, secret := range []string{"9000", "7440", "54000", "10896", "83536", "20884", "22.5", "bolt", "Lantern",
		"margin", "cost"} {
		if strings.Contains(string(text), secret) {
			t.Errorf("the client's version tells %q: %s", secret, text)
		}
	}
}

func TestSpread(t *testing.T) {
	for _, tt := range []struct {
		total int64
		n     int
		want  []Portion
	}{
		{100000, 3, []Portion{{1, usd(33334)}, {2, usd(33333)}}},
		{100000, 4, []Portion{{4, usd(25000)}}},
		{2, 3, []Portion{{2, usd(1)}, {1, usd(0)}}},
		{-100, 3, []Portion{{2, usd(-33)}, {1, usd(-34)}}},
	} {
		got, err := Split(usd(tt.total), tt.n)
		if diff := cmp.Diff(tt.want, got); err != nil || diff != "" {
			t.Errorf("%d over %d: %v\n%s", tt.total, tt.n, err, diff)
		}
	}
	if s, err := Split(usd(1), 0); err == nil {
		t.Errorf("spread over none: %v", s)
	}
}

// What is printed adds up, whatever the terms: the lines to the total, the sums
// to one another, the gowns to the run; and no gown of a rounded run differs.
func TestQuoteAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		percent := func(name string, most int64) Decimal { return Decimal(rapid.Int64Range(0, most*one).Draw(t, name)) }
		terms := Terms{
			Currency: rapid.SampledFrom([]string{"USD", "JPY", "KWD"}).Draw(t, "currency"), Gowns: rapid.IntRange(0,
				40).Draw(t, "gowns"),
			Overhead: percent("overhead", 80), Tax: percent("tax", 30), Deposit: percent("deposit", 100),
			Pricing: Pricing(rapid.IntRange(0, 3).Draw(t, "pricing")),
			RoundUp: rapid.Bool().Draw(t, "up"), RoundTaxed: rapid.Bool().Draw(t, "taxed"),
		}
		if terms.Pricing == Markup || terms.Pricing == Margin {
			terms.Percent = percent("percent", 99)
		}
		in := func(name string, most int64) Money {
			return Money{rapid.Int64Range(0, most).Draw(t, name), terms.Currency}
		}
		if rapid.Bool().Draw(t, "rounded") {
			terms.RoundTo = in("step", 1000)
		}
		var materials []Line
		for range rapid.IntRange(0, 6).Draw(t, "materials") {
			kind := rapid.SampledFrom([]Kind{KindCloth, KindNotion, KindSupply}).Draw(t, "kind")
			materials = append(materials, Line{What: "m", Amount: in("amount", 1e7), Kind: kind})
		}
		labour := Labour{Hours: percent("hours", 60), Fittings: rapid.IntRange(0, 5).Draw(t, "fittings"),
			PerFitting: percent("per fitting", 3), Rate: in("rate", 1e5)}
		q, err := terms.Quote(materials, labour)
		if errors.Is(err, ErrRoundedAway) {
			terms.RoundTo = Money{}
			if q, err = terms.Quote(materials, labour); err == nil && q.Price.Minor > 500*int64(q.Gowns) &&
				!terms.RoundTaxed {
				t.Fatalf("a price of %v is rounded to nothing by steps of at most 1000 a gown", q.Price)
			}
		}
		if err != nil {
			t.Fatal(err)
		}
		sums := map[string][2]int64{
			"materials, labour, overhead": {q.Materials.Minor + q.Labour.Minor + q.Overhead.Minor, q.Cost.Minor},
			"cost and profit":             {q.Cost.Minor + q.Profit.Minor, q.Price.Minor},
			"price and tax":               {q.Price.Minor + q.Tax.Minor, q.Total.Minor},
			"deposit and balance":         {q.Deposit.Minor + q.Balance.Minor, q.Total.Minor},
		}
		var lines, gowns, count int64
		for _, l := range q.Lines {
			lines += l.Amount.Minor
		}
		for _, s := range q.PerGown {
			gowns += int64(s.Count) * s.Each.Minor
			count += int64(s.Count)
		}
		sums["lines"], sums["gowns"], sums["number of gowns"] = [2]int64{lines, q.Total.Minor}, [2]int64{gowns,
			q.Total.Minor}, [2]int64{count, int64(q.Gowns)}
		for what, s := range sums {
			if s[0] != s[1] {
				t.Fatalf("%s: %d is not %d in %+v", what, s[0], s[1], q)
			}
		}
		if step := terms.RoundTo.Minor; step > 0 && (terms.RoundTaxed || terms.Tax == 0) &&
			(len(q.PerGown) != 1 || q.PerGown[0].Each.Minor%step != 0) {
			t.Fatalf("%+v for gowns rounded to %d", q.PerGown, step)
		}
	})
}
