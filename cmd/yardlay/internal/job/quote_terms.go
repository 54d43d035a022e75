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
func (t *table) quoteTerms(base Terms) Terms {
	base.Currency = t.money
	q := t.sub("quote", "[quote]", `{ overhead = "15 %", markup = "20 %", deposit = "50 %" }`)
	if q == nil {
		return base
	}
	q.fill(&base.Terms, "round_to")
	q.fill(&base.Page)
	if f := q.Field("deposit"); f != nil && base.Deposit > cost.Whole(100) {
		q.Fail(f.Value.At, "from 0 % to 100 %", "`deposit` cannot be %v %%: it is more than the total", base.Deposit)
	}
	q.pricing(&base)
	if step, ok := q.amount("round_to"); ok {
		base.RoundTo = step
		if step.Minor == 0 {
			q.Fail(q.Field("round_to").Value.At,
				`for example round_to = "5.00"; the least step is the minor unit, such as "0.01"`,
				"`round_to` cannot be 0")
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
		terms.Percent, _ = q.Share("markup")
	case "margin":
		percent, ok := q.Share("margin")
		if ok && percent >= cost.Whole(100) {
			q.Fail(q.Field("margin").Value.At,
				"it is a share of the price, so less than 100 %; a markup, on the cost, may be more",
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
