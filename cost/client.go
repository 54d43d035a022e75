package cost

// ClientQuote is what a client is to pay: neither costs, hours nor profit.
type ClientQuote struct {
	Currency string    `json:"currency"`
	Gowns    int       `json:"gowns"`
	Price    Money     `json:"price"` // before tax
	Tax      Money     `json:"tax"`
	Total    Money     `json:"total"` // Price and Tax
	Deposit  Money     `json:"deposit"`
	Balance  Money     `json:"balance"`
	PerGown  []Portion `json:"per_gown"`
}

// ForClient leaves out of a quote what is the maker's own.
func (q Quote) ForClient() ClientQuote {
	return ClientQuote{
		Currency: q.Currency, Gowns: q.Gowns, Price: q.Price, Tax: q.Tax,
		Total: q.Total, Deposit: q.Deposit, Balance: q.Balance, PerGown: q.PerGown,
	}
}
