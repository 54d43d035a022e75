package cost

import "yardlay/shapes/say"

// Kind sorts the lines of a quote.
type Kind string

// The kinds of lines. KindSupply is what an order adds to goods: tax paid and
// shipping; KindPrice is what leads from cost to price: profit and rounding;
// KindTax is the tax on the price.
const (
	KindCloth    Kind = "cloth"
	KindNotion   Kind = "notion"
	KindSupply   Kind = "supply"
	KindLabour   Kind = "labour"
	KindOverhead Kind = "overhead"
	KindPrice    Kind = "price"
	KindTax      Kind = "tax"
)

// Line is one entry of a bill or quote.
type Line struct {
	What   string `json:"what"` // a name, without figures: a client may see it
	Amount Money  `json:"amount"`
	Kind   Kind   `json:"kind,omitempty"`
	Detail string `json:"detail,omitempty"` // quantities and prices, for the maker
}

// Bill is what all cloths cost together. The zero value is empty and ready.
type Bill struct {
	Lines []Line `json:"lines"`
	Total Money  `json:"total"` // the sum of the lines, kept by Add
}

// Add appends a line and adds it to the total. Where the sum cannot be formed
// (another currency, or too much) the bill stays as it was.
func (b *Bill) Add(what string, amount Money) error {
	return b.AddLine(Line{What: what, Amount: amount})
}

// AddLine is Add with a kind and detail.
func (b *Bill) AddLine(l Line) error {
	total, err := b.Total.Add(l.Amount)
	if err != nil {
		return say.Errorf("%s: %w", l.What, err)
	}
	b.Lines = append(b.Lines, l)
	b.Total = total
	return nil
}
