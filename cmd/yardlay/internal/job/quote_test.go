package job

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cost"
	"yardlay/shapes/measure"
)

// priced is a job that can be read, with room for more tables.
const priced = head + "draft = \"rectangle\"\nlength = 3\nwidth = 2\n"

func usd(minor int64) cost.Money { return cost.Money{Minor: minor, Currency: "USD"} }

// parsed reads a job that has to be whole.
func parsed(t *testing.T, src string) *Job {
	t.Helper()
	j, err := parse("job.toml", []byte(src))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func TestQuoteTablesAreRead(t *testing.T) {
	j := parsed(t, priced+`
[[supplier]]
name = "mill"
shipping = "8.50"
free_from = "150"
tax = "8.25 %"
[[notion]]
name = "zip"
by = "opening"
closed = 9
sizes = [ { length = 9, price = "2.10" } ]
spare = 1
supplier = "mill"
[[notion]]
name = "thread"
by = "seam"
per_metre = 14.5
reel = { length = "5000 m", price = "9.00" }
spare = "10 %"
[[notion]]
name = "pins"
count = 20
price = "4.00/pack"
pack = 12
have = 3
[labour]
rate = "24.00/h"
hours = 22.5
fittings = 2
[quote]
overhead = "15 %"
margin = "20 %"
tax = "7.25 %"
deposit = "50 %"
round_to = "5.00"
round = "up"
rounded = "total"
owned = "zero"
client = "the players"
`)
	if diff := cmp.Diff(cost.Supplier{Name: "mill", Shipping: usd(850), FreeFrom: usd(15000), Tax: 82500},
		j.Suppliers[0].Supplier); diff != "" {
		t.Error(diff)
	}
	zip, thread, pins := j.Notions[0], j.Notions[1], j.Notions[2]
	if zip.By != ByOpening || zip.Length != 9*measure.Inches || zip.Sold.SpareCount != 1 || zip.Supplier != "mill" ||
		!cmp.Equal(zip.Sold.Sizes, []cost.Size{{Length: 9 * measure.Inches, Price: usd(210)}}) {
		t.Errorf("zip is %+v", zip)
	}
	if thread.PerMetre != 145000 || thread.Sold.Reel.Length != 5e6 || thread.Sold.Spare != cost.Whole(10) {
		t.Errorf("thread is %+v", thread)
	}
	if pins.Count != 20 || *pins.Sold.Each != (cost.Each{Price: usd(400), Pack: 12}) || pins.Have != 3 {
		t.Errorf("pins are %+v", pins)
	}
	want := Labour{Hours: 225000, Fittings: 2, PerFitting: cost.Whole(1), Rate: usd(2400)}
	if diff := cmp.Diff(want, j.Labour); diff != "" {
		t.Error(diff)
	}
	terms := cost.Terms{
		Currency: "USD", Overhead: cost.Whole(15), Pricing: cost.Margin, Percent: cost.Whole(20), Tax: 72500,
		RoundTo: usd(500), RoundUp: true, RoundTaxed: true, Deposit: cost.Whole(50),
	}
	if diff := cmp.Diff(Terms{Terms: terms, Owned: cost.Zero, Page: Page{Client: "the players"}}, j.Terms); diff != "" {
		t.Error(diff)
	}
}

func TestOffersAreRead(t *testing.T) {
	j := parsed(t, strings.Replace(priced, "width = 58", `width = 58
price = "13.50/yd"
breaks = [ { from = "10 yd", price = "12.00/yd" } ]
bolt = [ { length = "25 yd", price = "250" }, { length = "12 1/2 yd", price = "135" } ]
offers = [ { supplier = "mill", price = "11/m", sold_by = 0.5 }, { supplier = "tower", bolt = { length = "20 m", price = "200" } } ]`, 1)+
		"[[supplier]]\nname = \"mill\"\n[[supplier]]\nname = \"tower\"\n")
	c := j.Cloths[0]
	if len(c.Offers) != 3 || !c.Priced || c.Offer.Price != usd(1350) || c.Offers[0].Supplier != "" ||
		c.Offers[1].Supplier != "mill" {
		t.Fatalf("offers are %+v", c.Offers)
	}
	if c.Offer.Bolt.Price != usd(25000) || len(c.Offer.More) != 1 || c.Offer.More[0].Length != 12.5*measure.Yards ||
		c.Offer.Breaks[0] != (cost.Break{From: 10 * measure.Yards, Price: usd(1200)}) {
		t.Errorf("the own offer is %+v", c.Offer)
	}
	if m := c.Offers[1].Offer; m.Per != measure.Metre || m.CutStep().Num().Int64() != 500 {
		t.Errorf("the mill's is %+v", m)
	}
	if b := c.Offers[2].Offer; b.Price.Currency != "" || b.Bolt.Length != 20000 {
		t.Errorf("the tower's is %+v", b)
	}
	whole, err := readAs("job.toml",
		[]byte(strings.Replace(priced, "width = 58",
			"width = 58\nprice = \"13.50/yd\"\nbolt = { length = \"25 yd\", price = \"250\" }", 1)),
		[]Change{{"satin.whole_bolts", "true"}})
	if err != nil || whole.Cloths[0].Offer.Price.Currency != "" {
		t.Errorf("whole bolts alone: %v %+v", err, whole)
	}
}

// Percentages may have fractions, as the reference shows.
func TestPercentagesHaveFractions(t *testing.T) {
	terms := parsed(t, priced+"[quote]\nmarkup = \"2 1/2 %\"\ntax = \"8 1/4 %\"\n").Terms
	if terms.Percent.String() != "2.5" || terms.Tax.String() != "8.25" {
		t.Errorf("markup %v, tax %v", terms.Percent, terms.Tax)
	}
}

// quoteSeeds are tables for the fuzz test to begin from.
var quoteSeeds = []string{
	"[quote]\nmarkup = \"2 1/2 %\"\ntax = \"8 1/4 %\"\n",
	"[quote]\nmargin = \"99.9999 %\"\nround_to = \"0.01\"\nnote = \"\"\n",
	"[labour]\nrate = \"24/hour\"\nseam = \"6 min/yd\"\npiece = \"4 min\"\nfittings = 2\n",
	"[[supplier]]\nname = \"mill\"\ntax = \"8 %\"\nshipping = \"1\"\n[[supplier]]\n",
	"[[notion]]\nname = \"zip\"\nby = \"opening\"\nclosed = 9\nsizes = [ { length = 9, price = \"2\" }, { } ]\nspare " +
		"= 1\n",
	"[[notion]]\nname = \"thread\"\nby = \"seam\"\nper_metre = 1e2\nreel = { length = \"5000 m\", price = \"9\" " +
		"}\nspare = \"10 %\"\nhave = \"3 m\"\n",
	"[[notion]]\nname = \"pins\"\ncount = 12\nprice = \"4/pack\"\npack = 20\nhave = 5\n",
	"[[cloth]]\nid = \"wool\"\nwidth = 60\nprice = \"9/yd\"\nbreaks = [ { from = 9, price = \"8/yd\" } ]\nbolt = [ { " +
		"length = 9, price = \"1\" }, { length = 4, price = \"1\" } ]\noffers = [ { supplier = \"mill\", price = " +
		"\"1/m\" } ]\n",
}

// Everything wrong is refused by name, with its place and a hint.
func TestQuoteRefuses(t *testing.T) {
	for _, c := range []struct{ name, tables, wrong, what, hint string }{
		{"margin of 100 %", "[quote]\n", `margin = "100 %"`, "`margin` cannot be 100 %", "less than 100 %"},
		{"margin above", "[quote]\n", `margin = "250 %"`, "`margin` cannot be 250 %", "a markup"},
		{"margin without a mark", "[quote]\n", `margin = 20`, "percentage with its mark", `margin = "20 %"`},
		{"negative overhead", "[quote]\n", `overhead = "-5 %"`, "negative", ""},
		{"two ways of pricing", "[quote]\nmargin = \"20 %\"\n", `markup = "20 %"`, "both `markup` and `margin`",
			"one of them"},
		{"deposit above all", "[quote]\n", `deposit = "101 %"`, "more than the total", "100 %"},
		{"rounding to no step", "[quote]\n", `round_to = "0.00"`, "`round_to` cannot be 0", "0.01"},
		{"rounding to nothing known", "[quote]\n", `round = "down"`, "cannot be \"down\"", "up"},
		{"negative hours", "[labour]\nrate = \"24/h\"\n", `hours = -3`, "`hours` cannot be -3: it is negative", "22.5"},
		{"hours in words", "[labour]\nrate = \"24/h\"\n", `hours = "many"`, "cannot read", "22.5"},
		{"rate in another currency", "[labour]\n", `rate = "24 EUR/h"`, "EUR", "24.00/h"},
		{"rate with no unit", "[labour]\n", `rate = "24.00"`, "/h", "24.00/h"},
		{"hours and rates", "[labour]\nrate = \"24/h\"\nhours = 3\n", `seam = "6 min/m"`, "both `hours` and `seam`",
			"or rates"},
		{"minutes with no length", "[labour]\nrate = \"24/h\"\n", `seam = "6 min"`, "minutes by the yard or the metre",
			"6 min/m"},
		{"minutes for an inch", "[labour]\nrate = \"24/h\"\n", `hem = "6 min/in"`, "by the yard or the metre", ""},
		{"negative minutes", "[labour]\nrate = \"24/h\"\n", `piece = "-4 min"`, "negative", ""},
		{"shipping in another currency", "[[supplier]]\nname = \"mill\"\n", `shipping = "8 GBP"`, "GBP", ""},
		{"negative shipping", "[[supplier]]\nname = \"mill\"\n", `shipping = "-8"`, "must not be negative", ""},
		{"no such supplier", "[[notion]]\nname = \"pins\"\ncount = 2\nprice = \"1/each\"\n", `supplier = "mill"`,
			`no supplier "mill"`, "[[supplier]]"},
		{"price of a notion with no unit", "[[notion]]\nname = \"pins\"\ncount = 2\n", `price = "1.00"`,
			"not say what it is for", "0.35/each"},
		{"price of a notion by the dozen", "[[notion]]\nname = \"pins\"\ncount = 2\n", `price = "1.00/dozen"`, "dozen",
			""},
		{"a count by length", "[[notion]]\nname = \"pins\"\ncount = 2\n", `price = "1.00/yd"`,
			"a notion by count is bought by the piece", "each"},
		{"a length by the piece", "[[notion]]\nname = \"tape\"\nlength = 2\n", `price = "1.00/each"`,
			"a notion by length cannot be bought by the piece", "reel"},
		{"seams without a figure", "[[notion]]\nname = \"thread\"\nprice = \"1.00/yd\"\n", `by = "seam"`,
			"lacks `per_metre`", "per_metre = 12"},
		{"edges without names", "[[notion]]\nname = \"tape\"\nprice = \"1.00/yd\"\n", `by = "edge"`, "lacks `edges`",
			"hem"},
		{"an unknown way", "[[notion]]\nname = \"tape\"\nprice = \"1.00/yd\"\n", `by = "metre"`, "cannot be \"metre\"",
			"edge"},
		{"no such part", "[[notion]]\nname = \"tape\"\nby = \"edge\"\nedges = \"hem\"\nprice = \"1/yd\"\n",
			`parts = "train"`, `no part "train"`, ""},
		{"spare pieces of a length", "[[notion]]\nname = \"tape\"\nlength = 2\nprice = \"1/yd\"\n", `spare = 2`,
			"spare of a length is a percentage", "10 %"},
		{"spare share of sizes",
			"[[notion]]\nname = \"zip\"\nby = \"opening\"\nsizes = [ { length = 9, price = \"2\" } ]\n",
			`spare = "2 %"`, "by size is a number", "spare = 1"},
		{"a reel of nothing", "[[notion]]\nname = \"thread\"\nlength = 2\n",
			`reel = { length = "9999999 m", price = "1" }`, "not between", ""},
		{"a reel in two digits", "[[notion]]\nname = \"thread\"\nlength = 2\n",
			`reel = { length = "0b101 m", price = "1" }`, "`length`", "reads like"},
		{"two needs", "[[notion]]\nname = \"pins\"\nprice = \"1/each\"\ncount = 2\n", `by = "piece"`,
			"both `count` and `by`", "one of them"},
		{"no need", "[[notion]]\n", `name = "pins"`, "lacks `count`", "by = \"seam\""},
		{"rates that are not there", "", `rates = "nowhere.toml"`, "nowhere.toml", "beside the job"},
	} {
		t.Run(c.name, func(t *testing.T) {
			src := priced + c.tables + c.wrong + "\n"
			if strings.HasPrefix(c.wrong, "rates") {
				src = c.wrong + "\n" + priced
			}
			_, err := parse("job.toml", []byte(src))
			if err == nil {
				t.Fatal("no error")
			}
			for _, e := range err.(strict.Errors) {
				if strings.Contains(e.What, c.what) && strings.Contains(e.Hint, c.hint) && e.File == "job.toml" &&
					e.At.Line > 0 {
					return
				}
			}
			t.Errorf("no error with %q and hint %q among:\n%v", c.what, c.hint, err)
		})
	}
}

// Offers that cannot be bought by are refused.
func TestOffersRefuse(t *testing.T) {
	for _, c := range []struct{ name, keys, what, hint string }{
		{"no unit", `price = "13.50"`, "needs a length", "13.50/yd"},
		{"another currency", `price = "13.50 EUR/yd"`, "EUR", "13.50/yd"},
		{"a break that is dearer", "price = \"13.50/yd\"\nbreaks = [ { from = \"10 yd\", price = \"14/yd\" } ]",
			"not below the price", ""},
		{"a break by another length", "price = \"13.50/yd\"\nbreaks = [ { from = \"10 yd\", price = \"11/m\" } ]",
			"by the m", ""},
		{"a break of no price", `breaks = [ { from = "10 yd", price = "11/yd" } ]`, "`breaks` and no `price`", ""},
		{"an offer of nobody", "price = \"1/yd\"\noffers = [ { price = \"2/yd\" } ]", "lacks `supplier`", "mill"},
		{"an offer of an unknown", "offers = [ { supplier = \"mil\", price = \"2/yd\" } ]", `no supplier "mil"`,
			"mill"},
		{"twice the same", "supplier = \"mill\"\nprice = \"1/yd\"\noffers = [ { supplier = \"mill\", price = " +
			"\"2/yd\" } ]", "two offers", ""},
		{"whole bolts of none", "price = \"1/yd\"\nwhole_bolts = true", "no `bolt`", "25 yd"},
		{"a supplier of no price", `supplier = "mill"`, "no price", ""},
		{"no bolts", `bolt = []`, "`bolt` lists nothing", "without `bolt`"},
		{"a supplier of no bolts", "supplier = \"mill\"\nbolt = []", "`bolt` lists nothing", "25 yd"},
		{"an offer of no bolts", `offers = [ { supplier = "mill", bolt = [] } ]`, "`bolt` lists nothing", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := parse("job.toml",
				[]byte(strings.Replace(priced, "width = 58", "width = 58\n"+c.keys, 1)+
					"[[supplier]]\nname = \"mill\"\n"))
			if err == nil {
				t.Fatal("no error")
			}
			for _, e := range err.(strict.Errors) {
				if strings.Contains(e.What, c.what) && strings.Contains(e.Hint, c.hint) {
					return
				}
			}
			t.Errorf("no error with %q and hint %q among:\n%v", c.what, c.hint, err)
		})
	}
}

// A job says only what differs from its rates file: its own keys win, a way of
// pricing or of giving hours takes the place of the file's, and a notion is
// completed by that of its name.
func TestRatesAreShared(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	write("rates.toml", `unit = "cm"
currency = "USD"
[labour]
rate = "24.00/h"
seam = "6 min/m"
fittings = 1
[quote]
overhead = "15 %"
markup = "20 %"
[[supplier]]
name = "mill"
shipping = "5.00"
[[supplier]]
name = "tower"
[[notion]]
name = "zip"
by = "opening"
sizes = [ { length = 20, price = "2.00" } ]
[[notion]]
name = "unused"
count = 4
price = "1.00/each"
`)
	job := write("job.toml", "rates = \"rates.toml\"\n"+priced+`
[labour]
hours = 4
[quote]
margin = "30 %"
[[supplier]]
name = "mill"
shipping = "6.00"
[[notion]]
name = "zip"
spare = 1
`)
	src, _ := os.ReadFile(job)
	j, err := parse(job, src)
	if err != nil {
		t.Fatal(err)
	}
	if l := j.Labour; l.Hours != cost.Whole(4) || l.ByRates || l.Rate != usd(2400) || l.Fittings != 1 {
		t.Errorf("labour is %+v", l)
	}
	if q := j.Terms; q.Overhead != cost.Whole(15) || q.Pricing != cost.Margin || q.Percent != cost.Whole(30) {
		t.Errorf("terms are %+v", q)
	}
	if len(j.Suppliers) != 2 || j.Suppliers[0].Shipping != usd(600) || j.Suppliers[1].Name != "tower" {
		t.Errorf("suppliers are %+v", j.Suppliers)
	}
	if len(j.Notions) != 1 || j.Notions[0].Sold.Sizes[0].Length != 200 || j.Notions[0].Sold.SpareCount != 1 {
		t.Errorf("notions are %+v", j.Notions)
	}
	write("rates.toml", "currency = \"EUR\"\n")
	if _, err := parse(job, src); err == nil ||
		!strings.Contains(err.Error(), "rates.toml:1:12: the rates are in EUR and the job in USD") {
		t.Errorf("rates of another currency: %v", err)
	}
	write("rates.toml", "[labour]\nhours = -1\n[[cloth]]\nid = \"x\"\n")
	if _, err := parse(job, src); err == nil ||
		!strings.Contains(err.Error(), "rates.toml:2:9: `hours` cannot be -1") ||
		!strings.Contains(err.Error(), "the rates file has no key `cloth`") {
		t.Errorf("wrong rates: %v", err)
	}
	write("rates.toml", "a = = b")
	if _, err := parse(job, src); err == nil || !strings.Contains(err.Error(), "rates.toml:1:5: not TOML") {
		t.Errorf("rates that are not TOML: %v", err)
	}
	for _, name := range []string{".", "missing.toml"} {
		if _, err := parse(job, []byte("rates = \""+name+"\"\n"+priced)); err == nil ||
			!strings.Contains(err.Error(), "job.toml:1:9: the rates file: ") {
			t.Errorf("rates in %q: %v", name, err)
		}
	}
}

// The tables of a quote read the keys that the reference lists, and no others:
// what a table knows of it names when it meets a key that it does not.
func TestQuoteTablesDocumentTheirKeys(t *testing.T) {
	documented, known := map[string][]string{}, map[string][]string{}
	for _, s := range Reference() {
		for _, k := range s.Keys {
			documented[s.Title] = append(documented[s.Title], k.Name)
		}
	}
	const strange = "qqqqqqqqqqqq"
	src := strings.Replace(priced, "width = 58", "width = 58\n"+strange+" = 1", 1)
	for _, table := range []string{"[labour]", "[quote]", "[[supplier]]", "[[notion]]\nprice = \"1/pack\"",
		"[[notion]]\nprice = \"1/yd\""} {
		src += table + "\n" + strange + " = 1\n"
	}
	_, err := parse("job.toml", []byte(src))
	titles := map[string]string{"cloth": "[[cloth]]", "supplier": "[[supplier]]", "notion": "[[notion]]",
		"[labour]": "[labour]", "[quote]": "[quote]"}
	for _, e := range err.(strict.Errors) {
		if !strings.Contains(e.What, strange) {
			continue
		}
		keys, ok := strings.CutPrefix(e.Hint, "known here: ")
		word, _, _ := strings.Cut(e.What, " ")
		if title := titles[word]; ok && title != "" {
			known[title] = append(known[title], strings.Split(keys, ", ")...)
		}
	}
	for _, title := range titles {
		keys, listed := known[title], documented[title]
		slices.Sort(keys)
		slices.Sort(listed)
		if diff := cmp.Diff(listed, slices.Compact(keys)); diff != "" {
			t.Errorf("%s: documented and read keys differ (-documented +read):\n%s", title, diff)
		}
	}
}
