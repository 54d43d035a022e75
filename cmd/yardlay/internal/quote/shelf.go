package quote

import (
	"fmt"

	"yardlay/cost"
	"yardlay/shapes/measure"
)

// shelf lists what is used that is there already, counted as the job says: at
// what buying that length alone would cost, or at nothing. A leftover counts with
// the length of it that its marker takes.
func (m *maker) shelf(s sourced, notions []bought) ([]Owned, error) {
	owned := []Owned{}
	for i, l := range m.laid {
		c := l.Task.Spread.Cloth
		if l.Shelf == nil {
			continue
		}
		offer, priced := s.chosen(i)
		for _, cut := range l.Shelf.Cuts {
			o := Owned{ID: c.ID, Name: c.Title, What: cut.Name, Length: cut.Layout.Length + 2*c.Ends, Value: cost.Money{Currency: m.job.Currency}}
			if priced {
				var err error
				if o.Value, err = offer.Value(o.Length, m.job.Terms.Owned); err != nil {
					return nil, fmt.Errorf("cloth `%s`: %w", c.ID, err)
				}
			}
			owned = append(owned, o)
		}
	}
	for _, b := range notions {
		if b.fromShelf == 0 {
			continue
		}
		o, err := m.ownedNotion(b)
		if err != nil {
			return nil, err
		}
		owned = append(owned, o)
	}
	return owned, nil
}

// ownedNotion values what the shelf gives of a notion.
func (m *maker) ownedNotion(b bought) (Owned, error) {
	o := Owned{Name: b.notion.Name, Value: cost.Money{Currency: m.job.Currency}}
	alone := b.notion.Sold
	alone.Spare, alone.SpareCount = 0, 0
	if b.notion.Counted() {
		o.Count = int(b.fromShelf)
		alone.Count = o.Count
	} else {
		o.Length = b.fromShelf
		alone.Length = o.Length
	}
	if m.job.Terms.Owned == cost.Zero {
		return o, nil
	}
	item, err := alone.Buy()
	if err != nil {
		return o, fmt.Errorf("notion `%s`: %w", b.notion.Name, err)
	}
	o.Value = item.Cost
	return o, nil
}

// line is what is from the shelf as a line of a quote.
func (o Owned) line(unit measure.Unit) cost.Line {
	kind := cost.KindNotion
	if o.ID != "" {
		kind = cost.KindCloth
	}
	at := ", at what it would cost to buy again"
	if o.Value.Minor == 0 {
		at = ", at nothing"
	}
	return cost.Line{What: o.Name, Amount: o.Value, Kind: kind, Detail: o.quantity(unit) + " from the shelf" + at}
}

// quantity says how much is used.
func (o Owned) quantity(unit measure.Unit) string {
	if o.Length > 0 {
		return measure.FormatUp(o.Length, unit)
	}
	return fmt.Sprint(o.Count)
}
