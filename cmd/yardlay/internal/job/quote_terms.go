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
		if share, ok := q.Share(s.key, s.example); ok {
			*s.to = share
		}
	}
	if f := q.Field("deposit"); f != nil && base.Deposit > cost.Whole(100) {
		q.Fail(f.Value.At, "from 0 % to 100 %", "`deposit` cannot be %v %%: it is more than the total", base.Deposit)
	}
	q.pricing(&base)
	if step, ok := q.amount("round_to", currency, "5.00"); ok {
		base.RoundTo = step
		if step.Minor == 0 {
			q.Fail(q.Field("round_to").Value.At, `for example round_to = "5.00"; the least step is the minor unit, such as "0.01"`, "`round_to` cannot be 0")
		}
	}
	if q.Has("round") {
		base.RoundUp = q.Choice("round") == "up"
	}
	if q.Has("rounded") {
		base.RoundTaxed = q.Choice("rounded") == "total"
	}
	if q.Has("owned") {
		base.Owned, _ = cost.ParseValuation(q.Choice("owned"))
	}
	for _, s := range []struct {
		key, example string
		to           *string
	}{
		{"maker", `"Moth Lane Sewing Room"`, &base.Page.Maker}, {"client", `"the Lantern Court players"`, &base.Page.Client},
		{"date", `"3 May"`, &base.Page.Date}, {"valid", `"for 30 days"`, &base.Page.Valid}, {"note", `"two fittings included"`, &base.Page.Note},
	} {
		if text, at, ok := q.Text(s.key, s.example); ok {
			*s.to = text
			if len(text) > longestNote {
				q.Fail(at, "", "`%s` is %d bytes long, at most %d", s.key, len(text), longestNote)
			}
		}
	}
	q.Finish()
	return base
}

// longestNote is the longest text on the page of a quote, bytes: some lines.
const longestNote = 400

// pricing reads markup, margin or doubled.
func (q *table) pricing(terms *Terms) {
	way := q.Only("markup", "margin", "doubled")
	if way == "" {
		return
	}
	terms.Pricing, terms.Percent = cost.AtCost, 0
	switch way {
	case "markup":
		terms.Pricing = cost.Markup
		terms.Percent, _ = q.Share("markup", "20 %")
	case "margin":
		percent, ok := q.Share("margin", "20 %")
		if ok && percent >= cost.Whole(100) {
			q.Fail(q.Field("margin").Value.At, "it is a share of the price, so less than 100 %; a markup, on the cost, may be more",
				"`margin` cannot be %v %%", percent)
			return
		}
		terms.Pricing, terms.Percent = cost.Margin, percent
	case "doubled":
		if q.Truth("doubled", false) {
			terms.Pricing = cost.Doubled
		}
	}
}
