package quote

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/cost"
	"yardlay/shapes/measure"
)

// entries lists a page line by line: its kind, text, amount and detail.
func entries(lines []sheet.Entry) (all []string) {
	kinds := map[sheet.EntryKind]string{sheet.EntryHead: "# ", sheet.EntrySum: "= ", sheet.EntryTotal: "== ",
		sheet.EntryNote: "~ "}
	for _, e := range lines {
		all = append(all, strings.Join(slices.DeleteFunc([]string{kinds[e.Kind] + e.Text, e.Amount, e.Detail},
			func(s string) bool { return s == "" }), " | "))
	}
	return all
}

// A quote is printed line by line under the headings of its groups, with each supplier beside tax and shipping, and
// ends with what each gown of several costs. Its amounts are made up here.
func TestAQuoteIsPrintedLineByLine(t *testing.T) {
	q := &Quote{Title: "Moon gown", Unit: measure.Inch, Page: job.Page{Maker: "the room", Client: "M.", Date: "3 May",
		Valid: "30 days", Note: "Half now."}, Notes: []string{"so"},
		Quote: cost.Quote{Currency: "USD", Gowns: 3, Materials: usd(1000), Labour: usd(500), Overhead: usd(1),
			Cost: usd(1501), Price: usd(3002), Tax: usd(1), Total: usd(3003), Deposit: usd(1), Balance: usd(3002),
			PerGown: []cost.Portion{{Count: 2, Each: usd(1001)}, {Count: 1, Each: usd(1001)}},
			Lines: []cost.Line{{What: "satin", Kind: cost.KindCloth, Amount: usd(800), Detail: "1 yd"},
				{What: "net", Kind: cost.KindCloth, Amount: usd(50)},
				{What: "pins", Kind: cost.KindNotion, Amount: usd(50)},
				{What: "shipping", Kind: cost.KindSupply, Amount: usd(100), Detail: "mill"},
				{What: "making", Kind: cost.KindLabour, Amount: usd(400), Detail: "4 h"},
				{What: "fittings", Kind: cost.KindLabour, Amount: usd(100)},
				{What: "overhead", Kind: cost.KindOverhead, Amount: usd(1), Detail: "1 %"},
				{What: "doubled", Kind: cost.KindPrice, Amount: usd(1501)},
				{What: "tax", Kind: cost.KindTax, Amount: usd(1), Detail: "2 %"}}}}
	page := q.Ledger()
	want := []string{"# Cloth", "satin | 8.00 | 1 yd", "net | 0.50", "# Notions", "pins | 0.50", "# Ordering",
		"shipping | 1.00 | mill", "= Materials | 10.00", "# Labour", "making | 4.00 | 4 h", "fittings | 1.00",
		"= Labour | 5.00", "overhead of 1 % | 0.01", "= Cost | 15.01", "doubled | 15.01", "= Price | 30.02",
		"tax of 2 % | 0.01", "== Total | 30.03", "~ Deposit, due first | 0.01", "~ Balance | 30.02",
		"~ Each of 2 of the 3 gowns | 10.01", "~ One of the 3 gowns | 10.01"}
	if diff := cmp.Diff(want, entries(page.Lines)); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
	facts := []string{"for 3 gowns", "From the room", "For M.", "3 May", "Valid 30 days"}
	if diff := cmp.Diff(facts, page.Facts); diff != "" || page.Title != "Moon gown: quote" ||
		page.Head != "USD" || page.Metric || page.Banner == "" ||
		!slices.Equal(page.Notes, []string{"Half now.", "so"}) {
		t.Errorf("%s\n%+v", diff, page)
	}
	q.Gowns, q.Unit, q.Page = 1, measure.Centimetre, job.Page{}
	q.Work = &Work{Steps: []Step{{"seams", "12", "2.00 yd of seam"}}}
	page = q.Ledger()
	lines := entries(page.Lines)
	if len(page.Facts) > 0 || !page.Metric || lines[10] != "fittings | 1.00" ||
		lines[9] != "making | 4.00 | 4 h: 2.00 yd of seam 12 min, up to the quarter hour" ||
		slices.ContainsFunc(lines, func(l string) bool { return strings.Contains(l, "gowns") }) {
		t.Errorf("%q of %q", lines, page.Facts)
	}
	q.Quote = cost.Quote{Currency: "USD", Gowns: 1, Materials: usd(1), Cost: usd(1), Price: usd(1), Total: usd(1),
		Lines: []cost.Line{{What: "pin", Kind: cost.KindNotion, Amount: usd(1)}}}
	if page = q.Ledger(); !strings.HasPrefix(page.Notes[0], "This counts materials alone") ||
		!slices.Equal(entries(page.Lines), []string{"# Notions", "pin | 0.01", "== Total | 0.01"}) {
		t.Errorf("%q, %q", entries(page.Lines), page.Notes)
	}
	q.Price = usd(2)
	if page = q.Ledger(); len(page.Notes) != 1 {
		t.Errorf("%q", page.Notes)
	}
}

// The client's tax is told from the first cent on.
func TestTheClientReadsOneCentOfTax(t *testing.T) {
	c := ClientQuote{Garments: []string{"skirt"}, Fittings: 1, ClientQuote: cost.ClientQuote{Currency: "USD", Gowns: 1,
		Price: usd(1), Tax: usd(1), Total: usd(2)}}
	want := []string{"# Included", "skirt", "1 fitting", "# Price", "One gown | 0.01", "tax | 0.01", "== Total | 0.02"}
	if diff := cmp.Diff(want, entries(c.Ledger(measure.Inch).Lines)); diff != "" {
		t.Error(diff)
	}
}

// A shopping list goes supplier by supplier, with what each order comes to where there are several, and ends with what
// the shelf has.
func TestAShoppingListIsPrintedBySupplier(t *testing.T) {
	l := List{Title: "Moon gown", Currency: "USD", Gowns: 2, Unit: measure.Centimetre, Total: usd(2811),
		Notes: []string{"so"},
		per:   func(id string) measure.Unit { return map[string]measure.Unit{"satin": measure.Yard}[id] },
		Orders: []Order{{Total: usd(1000), Items: []Item{{ID: "satin", Name: "Moon satin", Kind: cost.KindCloth,
			Width: 1500, NeededLength: measure.Yards, Quantity: "1 yd", Price: "10.00/yd", Spare: "5 %", Cost: usd(1000),
			For: []string{"lantern", "pier"}}}},
			{Supplier: "mill", Tax: usd(1), Shipping: usd(10), Total: usd(1811), Items: []Item{{Name: "pins",
				NeededCount: 1, Quantity: "1 pack of 12", Price: "18.00/pack", Cost: usd(1800)}}}},
		Shelf: []Owned{{ID: "satin", Name: "Moon satin", What: "end", Length: 305, For: []string{"pier"}},
			{Name: "pins", Count: 4}, {Name: "buttons", Count: 1, For: []string{"lantern", "pier"}}}}
	page := l.Ledger()
	want := []string{"# At the counter",
		"1 yd, Moon satin | 10.00 | at 10.00/yd, 150.0 cm wide, needed 1 yd, 5 % spare, for lantern and pier",
		"= Order | 10.00", "# mill", "1 pack of 12, pins | 18.00 | at 18.00/pack, needed 1", "tax on goods | 0.01",
		"shipping | 0.10", "= Order | 18.11", "== Total | 28.11", "# On the shelf already",
		"30.5 cm, Moon satin | of `end`, for pier", "4, pins", "1, buttons | for lantern and pier"}
	if diff := cmp.Diff(want, entries(page.Lines)); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
	if page.Title != "Moon gown: shopping list" || !page.Metric || !slices.Equal(page.Facts, []string{"for 2 gowns"}) ||
		!slices.Equal(page.Notes, l.Notes) || page.Head != "USD" {
		t.Errorf("%+v", page)
	}
	l.Orders, l.Shelf, l.Gowns, l.Title = l.Orders[1:], nil, 1, ""
	page = l.Ledger()
	if got := entries(page.Lines); len(got) != 5 || got[4] != "== Total | 28.11" || page.Facts != nil ||
		page.Title != "Shopping list" {
		t.Errorf("%q, %q, %q", page.Title, page.Facts, got)
	}
}

// What the shelf gives is a line among the cloths or the notions, with what it is counted at.
func TestTheShelfAsALine(t *testing.T) {
	for _, c := range []struct {
		owned Owned
		want  cost.Line
	}{
		{Owned{ID: "satin", Name: "Moon satin", Length: measure.Inches, Value: usd(5), at: "its price new"},
			cost.Line{What: "Moon satin", Kind: cost.KindCloth, Amount: usd(5),
				Detail: "1 in from the shelf, at its price new"}},
		{Owned{Name: "pins", Count: 2}, cost.Line{What: "pins", Kind: cost.KindNotion,
			Detail: "2 from the shelf, at nothing"}},
		{Owned{Name: "tape", Length: 12 * measure.Inches}, cost.Line{What: "tape", Kind: cost.KindNotion,
			Detail: "12 in from the shelf, at nothing"}},
	} {
		if got := c.owned.line(measure.Inch); got != c.want {
			t.Errorf("%+v, want %+v", got, c.want)
		}
	}
}

// The shelf's share of notions says what it is counted at: of packs what is used of one, of single ones what all would
// add, of what would be bought anyway nothing. Ten at 0.30 with four there are 1.80 and 1.20; one of 12 in a pack of
// 3.60 is worth 0.30 where one pack less is opened.
func TestWhatTheShelfIsCountedAt(t *testing.T) {
	const zero = "[quote]\nowned = \"zero\"\n"
	for _, c := range []struct {
		notion, quote string
		shelf         int64
		detail        string
	}{
		{"count = 10\nprice = \"0.30/each\"\nhave = 4", "", 120,
			"4 from the shelf, at what buying all would add: 10 at 0.30/each"},
		{"count = 10\nprice = \"0.30/each\"\nhave = 40", "", 300, "10 from the shelf, at its price new: 10 at 0.30/each"},
		{"count = 13\nprice = \"3.60/pack\"\npack = 12\nhave = 1", "", 30,
			"1 from the shelf, at their share of a pack of 12 at 3.60/pack"},
		{"count = 12\nprice = \"3.60/pack\"\npack = 12\nhave = 12", "", 360,
			"12 from the shelf, at its price new: 1 pack of 12 at 3.60/pack"},
		{"count = 12\nprice = \"3.60/pack\"\npack = 12\nhave = 1", "", 0,
			"1 from the shelf, at nothing: what is bought would do for all"},
		{"count = 10\nprice = \"0.30/each\"\nhave = 4", zero, 0, "4 from the shelf, at nothing"},
		{"length = 72\nprice = \"4.00/yd\"\nsold_by = \"1 yd\"\nhave = 36", "", 400,
			"36 in from the shelf, at what buying all would add: 2 yd (1.83 m) at 4.00/yd"},
	} {
		q := made(t, sash(36, "", "[[notion]]\nname = \"pins\"\n"+c.notion+"\n"+c.quote))
		i := slices.IndexFunc(q.Lines, func(l cost.Line) bool { return strings.Contains(l.Detail, "from the shelf") })
		if len(q.Shelf) != 1 || q.Shelf[0].Value.Minor != c.shelf || i < 0 || q.Lines[i].Detail != c.detail ||
			q.Lines[i].Kind != cost.KindNotion {
			t.Errorf("%s: %+v, %+v", c.notion, q.Shelf, q.Lines)
		}
	}
}

// What a cloth is cut from elsewhere leaves what was laid as it was: a comparison prices it again.
func TestPricingLeavesTheLayoutsAsTheyWere(t *testing.T) {
	src := sash(181, "price = \"10.00/yd\"\nsupplier = \"corner\"\n"+
		"offers = [ { supplier = \"mill\", price = \"8.00/yd\", sold_by = \"1 yd\" } ]",
		"[[supplier]]\nname = \"corner\"\n[[supplier]]\nname = \"mill\"\n")
	j := testjobs.Read(t, src)
	laid, err := plan.Lay(t.Context(), j, quick(1).Options)
	if err != nil {
		t.Fatal(err)
	}
	before := laid[0]
	q, err := OfLaid(t.Context(), j, laid, quick(1))
	if err != nil || q.Orders[0].Supplier != "mill" || q.Total != usd(4800) || q.Lines[0].Detail !=
		"6 yd (5.49 m) at 8.00/yd from mill" {
		t.Fatalf("%v: %+v", err, q)
	}
	if diff := cmp.Diff(before.Buy, laid[0].Buy); diff != "" || laid[0].Task.Key() != before.Task.Key() {
		t.Errorf("what was laid has changed: %s", diff)
	}
	again, err := OfLaid(t.Context(), j, laid, quick(1))
	if err != nil || again.Total != q.Total {
		t.Errorf("priced again %v, %v", again.Total, err)
	}
}
