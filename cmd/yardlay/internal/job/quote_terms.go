package job

import "yardlay/cost"

// Terms is how a quote is made, and what its page says besides.
type Terms struct {
	cost.Terms
	Owned cost.Valuation // what cloth from the shelf is counted at
	Page  Page
}

// Page is what the printed quote says besides figures; each may be empty.
type Page struct {
	Maker  string `json:"maker"`
	Client string `json:"client"`
	Date   string `json:"date"`
	Valid  string `json:"valid"`
	Note   string `json:"note"`
}

// quoteTerms reads [quote] over what the rates file has. The ways of pricing
// exclude each other: what the job gives takes the place of the rates file's.
func (t *table) quoteTerms(base Terms, currency string) Terms {
	base.Currency = currency
	q := t.sub("quote", "[quote]", `{ overhead = "15 %", markup = "20 %", deposit = "50 %" }`)
	if q == nil {
		return base
	}
	for _, s := range []struct {
		key, example string
		to           *cost.Decimal
	}{{"overhead", "15 %", &base.Overhead}, {"tax", "8.25 %", &base.Tax}, {"deposit", "50 %", &base.Deposit}} {
		if share, ok := q.share(s.key, s.example); ok {
			*s.to = share
		}
	}
	if f := q.field("deposit"); f != nil && base.Deposit > cost.Whole(100) {
		q.fail(f.value.at, "from 0 % to 100 %", "`deposit` cannot be %v %%: it is more than the total", base.Deposit)
	}
	q.pricing(&base)
	if step, ok := q.amount("round_to", currency, "5.00"); ok {
		base.RoundTo = step
		if step.Minor == 0 {
			q.fail(q.field("round_to").value.at, `for example round_to = "5.00"; the least step is the minor unit, such as "0.01"`, "`round_to` cannot be 0")
		}
	}
	if q.has("round") {
		base.RoundUp = q.choice("round", "nearest", "up") == "up"
	}
	if q.has("rounded") {
		base.RoundTaxed = q.choice("rounded", "price", "total") == "total"
	}
	if q.has("owned") {
		base.Owned, _ = cost.ParseValuation(q.choice("owned", cost.Replacement.String(), cost.Zero.String()))
	}
	for _, s := range []struct {
		key, example string
		to           *string
	}{
		{"maker", `"Moth Lane Sewing Room"`, &base.Page.Maker}, {"client", `"the Lantern Court players"`, &base.Page.Client},
		{"date", `"3 May"`, &base.Page.Date}, {"valid", `"for 30 days"`, &base.Page.Valid}, {"note", `"two fittings included"`, &base.Page.Note},
	} {
		if text, at, ok := q.text(s.key, s.example); ok {
			*s.to = text
			if len(text) > longestNote {
				q.fail(at, "", "`%s` is %d bytes long, at most %d", s.key, len(text), longestNote)
			}
		}
	}
	q.finish()
	return base
}

// longestNote is the longest text on the page of a quote, bytes: some lines.
const longestNote = 400

// pricing reads markup, margin or doubled.
func (q *table) pricing(terms *Terms) {
	way := q.only("markup", "margin", "doubled")
	if way == "" {
		return
	}
	terms.Pricing, terms.Percent = cost.AtCost, 0
	switch way {
	case "markup":
		terms.Pricing = cost.Markup
		terms.Percent, _ = q.share("markup", "20 %")
	case "margin":
		percent, ok := q.share("margin", "20 %")
		if ok && percent >= cost.Whole(100) {
			q.fail(q.field("margin").value.at, "it is a share of the price, so less than 100 %; a markup, on the cost, may be more",
				"`margin` cannot be %v %%", percent)
			return
		}
		terms.Pricing, terms.Percent = cost.Margin, percent
	case "doubled":
		if q.truth("doubled", false) {
			terms.Pricing = cost.Doubled
		}
	}
}
