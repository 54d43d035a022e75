package quote

import (
	"fmt"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cost"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// List is a shopping list: what is bought, by supplier, and what is there already.
type List struct {
	Title    string     `json:"title"`
	Currency string     `json:"currency"`
	Gowns    int        `json:"gowns"`
	Orders   []Order    `json:"orders"`
	Total    cost.Money `json:"total"` // of all orders
	Shelf    []Owned    `json:"shelf"`
	Notes    []string   `json:"notes"`

	Unit measure.Unit                 `json:"-"` // to show lengths in
	per  func(id string) measure.Unit // that a cloth is sold by
}

// Shopping is the shopping list of a quote.
func (q *Quote) Shopping() (List, error) {
	l := List{
		Title: q.Title, Currency: q.Currency, Gowns: q.Gowns, Orders: q.Orders, Shelf: q.Shelf, Notes: q.Notes,
		Unit:  q.Unit,
		Total: cost.Money{Currency: q.Currency}, per: q.per,
	}
	for _, o := range q.Orders {
		var err error
		if l.Total, err = l.Total.Add(o.Total); err != nil {
			return l, err
		}
	}
	return l, nil
}

// Ledger is the list as it is printed.
func (l List) Ledger() sheet.Ledger {
	title := "Shopping list"
	if l.Title != "" {
		title = l.Title + ": shopping list"
	}
	p := sheet.Ledger{Title: title, Head: l.Currency, Metric: l.Unit.Metric(), Notes: l.Notes}
	if l.Gowns > 1 {
		p.Facts = append(p.Facts, forGowns(l.Gowns))
	}
	for _, o := range l.Orders {
		name := o.Supplier
		if name == "" {
			name = "At the counter"
		}
		p.Lines = append(p.Lines, sheet.Entry{Kind: sheet.EntryHead, Text: name})
		for _, i := range o.Items {
			p.Lines = append(p.Lines, sheet.Entry{Text: i.Quantity + ", " + i.Name, Detail: l.detail(i),
				Amount: i.Cost.Grouped()})
		}
		if o.Tax.Minor != 0 {
			p.Lines = append(p.Lines, sheet.Entry{Text: "tax on goods", Amount: o.Tax.Grouped()})
		}
		if o.Shipping.Minor != 0 {
			p.Lines = append(p.Lines, sheet.Entry{Text: "shipping", Amount: o.Shipping.Grouped()})
		}
		if len(l.Orders) > 1 {
			p.Lines = append(p.Lines, sheet.Entry{Kind: sheet.EntrySum, Text: "Order", Amount: o.Total.Grouped()})
		}
	}
	p.Lines = append(p.Lines, sheet.Entry{Kind: sheet.EntryTotal, Text: "Total", Amount: l.Total.Grouped()})
	if len(l.Shelf) > 0 {
		p.Lines = append(p.Lines, sheet.Entry{Kind: sheet.EntryHead, Text: "On the shelf already"})
	}
	for _, o := range l.Shelf {
		entry := sheet.Entry{Text: o.quantity(l.Unit) + ", " + o.Name}
		if o.What != "" {
			entry.Detail = "of `" + o.What + "`"
		}
		entry.Detail = withGowns(entry.Detail, o.For)
		p.Lines = append(p.Lines, entry)
	}
	return p
}

// detail says of what is bought how it is sold, what is needed and what is spare.
func (l List) detail(i Item) string {
	text := "at " + i.Price
	if i.Width > 0 {
		text += ", " + measure.Format(i.Width, l.Unit) + " wide"
	}
	switch {
	case i.NeededCount > 0:
		text += fmt.Sprintf(", needed %d", i.NeededCount)
	case i.NeededLength > 0:
		text += ", needed " + measure.FormatUp(i.NeededLength, l.per(i.ID))
	}
	if i.Spare != "" {
		text += ", " + i.Spare + " spare"
	}
	return withGowns(text, i.For)
}

// withGowns adds to a detail which of several gowns it is of.
func withGowns(detail string, gowns []string) string {
	switch {
	case len(gowns) == 0:
		return detail
	case detail == "":
		return "for " + say.InWords(gowns, "and")
	}
	return detail + ", for " + say.InWords(gowns, "and")
}
