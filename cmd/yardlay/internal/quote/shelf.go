package quote

import (
	"fmt"
	"math/big"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cost"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// shelf lists what is used that is there already, counted as the job says: at
// what buying it again would cost, or at nothing. A leftover counts with the length
// of it that its marker takes, skew and washing included, bought alone: it is laid
// apart from the rest.
func (m *maker) shelf(s sourced) ([]Owned, error) {
	owned := []Owned{}
	for i, l := range m.laid {
		c := l.Task.Spread.Cloth
		if l.Shelf == nil {
			continue
		}
		offer, priced := s.chosen(i)
		loss := plan.LossOf(c)
		loss.Spare = 0 // what is there is there
		for _, cut := range l.Shelf.Cuts {
			o := Owned{ID: c.ID, Name: c.Title, What: cut.Name, Length: loss.Needed(cut.Layout.Length + 2*c.Ends),
				Value: cost.Money{Currency: m.job.Currency}}
			if priced {
				if err := m.value(&o, offer); err != nil {
					return nil, say.Errorf("cloth `%s`: %w", c.ID, err)
				}
			}
			owned = append(owned, o)
		}
	}
	for _, b := range m.notions {
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

// value counts cloth from the shelf as the job says.
func (m *maker) value(o *Owned, offer cost.Offer) (err error) {
	if o.Value, err = offer.Value(o.Length, m.job.Terms.Owned); err != nil || m.job.Terms.Owned == cost.Zero {
		return err
	}
	again, err := offer.Again(o.Length)
	quantity, price := parts(again, offer.Per)
	o.at = fmt.Sprintf("its price new: %s at %s", quantity, price)
	return err
}

// ownedNotion values what the shelf gives of a notion: what buying all of it would
// cost more than what is bought, of packs no more than the share of those used. Where a pack is opened anyway that is
// less than
// the shelf's share alone would cost, or nothing.
func (m *maker) ownedNotion(b bought) (Owned, error) {
	o := Owned{Name: b.notion.Name, Value: cost.Money{Currency: m.job.Currency}}
	if b.notion.Counted() {
		o.Count = int(b.fromShelf)
	} else {
		o.Length = b.fromShelf
	}
	if m.job.Terms.Owned == cost.Zero {
		return o, nil
	}
	var err error
	if o.Value, err = b.anew.Cost.Sub(b.Cost); err != nil {
		return o, say.Errorf("notion `%s`: %w", b.notion.Name, err)
	}
	pack := b.notion.Sold.Each
	if pack != nil && pack.Pack > 1 && o.Value.Minor > 0 {
		// Of a pack that is there already, those that are used count.
		share, err := pack.Price.Times(big.NewRat(int64(o.Count), int64(pack.Pack)))
		if err != nil {
			return o, say.Errorf("notion `%s`: %w", b.notion.Name, err)
		}
		if share.Minor < o.Value.Minor {
			o.Value = share
			o.at = fmt.Sprintf("their share of a pack of %d at %s/pack", pack.Pack, pack.Price.Amount())
			return o, nil
		}
	}
	anew := b
	anew.Item = b.anew
	quantity, price := anew.terms()
	switch {
	case b.none():
		o.at = fmt.Sprintf("its price new: %s at %s", quantity, price)
	case o.Value.Minor == 0:
		o.at = "nothing: what is bought would do for all"
	default:
		o.at = fmt.Sprintf("what buying all would add: %s at %s", quantity, price)
	}
	return o, nil
}

// line is what is from the shelf as a line of a quote.
func (o Owned) line(unit measure.Unit) cost.Line {
	kind := cost.KindNotion
	if o.ID != "" {
		kind = cost.KindCloth
	}
	at := o.at
	if at == "" {
		at = "nothing"
	}
	return cost.Line{What: o.Name, Amount: o.Value, Kind: kind, Detail: o.quantity(unit) + " from the shelf, at " + at}
}

// quantity says how much is used.
func (o Owned) quantity(unit measure.Unit) string {
	if o.Length > 0 {
		return measure.FormatUp(o.Length, unit)
	}
	return fmt.Sprint(o.Count)
}
