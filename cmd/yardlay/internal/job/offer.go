package job

import (
	"fmt"
	"math/big"
	"strconv"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cost"
	"yardlay/shapes/measure"
)

// Sourced is what one supplier asks for a cloth.
type Sourced struct {
	Supplier string // the name of a [[supplier]]; "" for a counter that ships nothing and whose prices are final
	Offer    cost.Offer
	Priced   Date // when it was asked; may be none
	At       strict.Position
}

const (
	priceHint  = `an amount and the length it is for: price = "13.50/yd" or "11.00/m"`
	offerHint  = `{ supplier = "mill", price = "11.80/yd" }`
	boltHint   = `{ length = "25 yd", price = "140.00" }`
	breakHint  = `{ from = "10 yd", price = "12.00/yd" }`
	mostOffers = 10
)

// sold reads all that is asked for a cloth: its own offer first, then those of
// other suppliers. The first is the one that lay and compare count by. Without
// any price the cloth is sold by the usual step for nothing, so that the length
// to buy can still be told, and there are no offers.
func (t *table) sold(c *Cloth) {
	own, priced := t.offer()
	c.Offer = own.Offer
	if priced {
		c.Offers = append(c.Offers, own)
	} else if t.Has("supplier") && !t.Has("price") && !t.Has("bolt") {
		t.Fail(t.Field("supplier").At, "give its price beside it, or both in `offers`",
			"%s has `supplier` and no price", t.Name)
	}
	for i, n := range t.InlineTables("offers", offerHint, mostOffers) {
		o := t.within("offers", n, label("offer", "", i)+" of "+t.Name)
		further, priced := o.offer()
		if !o.Has("supplier") {
			o.Need("supplier", `the name of a [[supplier]]: supplier = "mill"`)
		}
		if !o.Has("price") && !o.Has("bolt") {
			o.Need("price", priceHint)
		}
		o.Finish()
		if priced {
			c.Offers = append(c.Offers, further)
		}
	}
	if t.Truth("whole_bolts", false) {
		t.wholeBolts(c)
	}
	if c.Priced = len(c.Offers) > 0; c.Priced {
		c.Offer = c.Offers[0].Offer
	} else {
		c.Offer.Price.Currency = t.money
	}
}

// wholeBolts leaves only bolts among the offers of a cloth.
func (t *table) wholeBolts(c *Cloth) {
	var all []Sourced
	for _, o := range c.Offers {
		if o.Offer.Bolt != nil {
			o.Offer.Price, o.Offer.Breaks, o.Offer.MinCut = cost.Money{}, nil, 0
			all = append(all, o)
		}
	}
	if all == nil {
		t.Fail(t.Field("whole_bolts").At, "give the bolts it is sold by: bolt = "+boltHint,
			"%s has `whole_bolts` and no `bolt`", t.Name)
	}
	c.Offers = all
}

// offer reads how a cloth is sold at one counter; priced says that it has a price
// that holds.
func (t *table) offer() (o Sourced, priced bool) {
	o.At = t.Value.At
	if name, at, ok := t.Text("supplier"); ok {
		o.Supplier, o.At = name, at
	}
	o.Priced = t.date("priced")
	o.Offer = t.counter()
	o.Offer.MinCut = t.LengthOr("min_cut", 0)
	o.Offer.Breaks = t.breaks(o.Offer)
	o.Offer.Bolt, o.Offer.More = t.bolts()
	priced = o.Offer.Price.Currency != "" || o.Offer.Bolt != nil
	if priced {
		if err := o.Offer.Check(); err != nil {
			t.Fail(t.Value.At, "", "%s: %v", t.Name, err)
			priced = false
		}
	}
	return o, priced
}

// counter reads a price by length and the step it is cut by; without a price
// the offer has no currency.
func (t *table) counter() (o cost.Offer) {
	o.Per = measure.CounterUnit(t.Unit)
	if text, at, ok := t.Text("price"); ok {
		price, per, err := cost.ParsePrice(text, t.money)
		if err != nil {
			t.Fail(at, priceHint, "`price`: %v", err)
		} else {
			o.Price, o.Per = price, per
		}
	}
	o.Step = t.step(o.Per)
	return o
}

// step reads what the counter cuts by, a bare number in the unit of the price; nil
// for the usual step.
func (t *table) step(per measure.Unit) *big.Rat {
	const hint = `the step the counter cuts by: sold_by = "1/8 yd" or "0.1 m"`
	f := t.Field("sold_by")
	if f == nil {
		return nil
	}
	text := f.Value.Text
	switch f.Value.Kind {
	case strict.KindNumber:
		text = strconv.FormatFloat(f.Value.Number, 'f', -1, 64)
	case strict.KindText:
	default:
		t.Wrong("sold_by", f.Value, "a length", `"1/8 yd"`)
		return nil
	}
	step, err := cost.ParseStep(text, per)
	if err != nil {
		t.Fail(f.Value.At, hint, "`sold_by`: %v", err)
		return nil
	}
	return step
}

// breaks reads the lower prices of longer cuts.
func (t *table) breaks(o cost.Offer) []cost.Break {
	var all []cost.Break
	for i, n := range t.InlineTables("breaks", breakHint, mostBreaks) {
		b := t.within("breaks", n, label("price break", "", i)+" of "+t.Name)
		one := cost.Break{From: b.MustLength("from", "10 yd")}
		text, at, ok := b.Text("price")
		if !b.Has("price") {
			b.Need("price", "the price of all of a cut that is at least so long: "+breakHint)
		}
		if ok {
			price, per, err := cost.ParsePrice(text, t.money)
			switch {
			case err != nil:
				b.Fail(at, "for example breaks = [ "+breakHint+" ]", "`price`: %v", err)
			case o.Price.Currency != "" && per != o.Per:
				b.Fail(at, "", "`price` is by the %s, and that of shorter cuts by the %s", per, o.Per)
			default:
				one.Price = price
				all = append(all, one)
			}
		}
		b.Finish()
	}
	if len(all) > 0 && o.Price.Currency == "" {
		t.Fail(t.Field("breaks").At, priceHint, "%s has `breaks` and no `price` for shorter cuts", t.Name)
		return nil
	}
	return all
}

// Most price breaks and sizes of bolt, as cost has them.
const mostBreaks, mostBolts = 16, 8

// bolts reads the whole bolts a cloth is sold by: one table, or a list of them,
// half bolts among them; nil when it is not.
func (t *table) bolts() (first *cost.Bolt, more []cost.Bolt) {
	f := t.Field("bolt")
	if f == nil {
		return nil, nil
	}
	if f.Value.Kind != strict.KindList {
		b := t.sub("bolt", "`bolt` of "+t.Name, boltHint)
		if b == nil {
			return nil, nil
		}
		one := b.bolt("the whole bolt")
		return &one, nil
	}
	if len(f.Value.Items) == 0 {
		t.Fail(f.Value.At, "for example bolt = "+boltHint+"; what is only cut by the length stands without `bolt`",
			"`bolt` lists nothing")
	}
	for i, n := range t.InlineTables("bolt", boltHint, mostBolts) {
		one := t.within("bolt", n, fmt.Sprintf("bolt %d of %s", i+1, t.Name)).bolt("the whole bolt")
		if i == 0 {
			first = &one
		} else {
			more = append(more, one)
		}
	}
	return first, more
}

// mostInStock is more bolts than are bought for any job.
const mostInStock = 1000

// bolt reads one size that is sold whole; called says what its price is of.
func (b *table) bolt(called string) cost.Bolt {
	return b.soldWhole(b.MustLength("length", "25 yd"), "the price of "+called+": price = \"140.00\"")
}

// soldWhole reads what a length that is sold whole costs, and how many there are.
func (b *table) soldWhole(length float64, priceHint string) cost.Bolt {
	bolt := cost.Bolt{Length: length, Price: cost.Money{Currency: b.money}}
	b.fill(&bolt)
	if price, ok := b.amount("price"); ok {
		bolt.Price = price
	} else if !b.Has("price") {
		b.Need("price", priceHint)
	}
	b.Finish()
	return bolt
}
