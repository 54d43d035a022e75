package cost

// ClientQuote is a quote as a client sees it: what is included and what is to
// be paid, and neither costs, hours nor profit.
type ClientQuote struct {
	Currency string   `json:"currency"`
	Gowns    int      `json:"gowns"`
	Included []string `json:"included"` // cloths and notions, by name
	Price    Money    `json:"price"`    // before tax
	Tax      Money    `json:"tax"`
	Total    Money    `json:"total"` // Price and Tax
	Deposit  Money    `json:"deposit"`
	Balance  Money    `json:"balance"`
	PerGown  []Share  `json:"per_gown"`
}

// ForClient leaves out of a quote what is the maker's own.
func (q Quote) ForClient() ClientQuote {
	c := ClientQuote{
		Currency: q.Currency, Gowns: q.Gowns, Price: q.Price, Tax: q.Tax,
		Total: q.Total, Deposit: q.Deposit, Balance: q.Balance, PerGown: q.PerGown,
	}
	for _, l := range q.Lines {
		if l.Kind == KindCloth || l.Kind == KindNotion {
			c.Included = append(c.Included, l.What)
		}
	}
	return c
}
