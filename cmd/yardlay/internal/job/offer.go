package job

import (
	"yardlay/cost"
	"yardlay/shapes/measure"
)

// offer reads how a cloth is sold. Without any price it is sold by the usual
// step for nothing, so that the length to buy can still be told; priced is
// false then.
func (t *table) offer(currency string) (o cost.Offer, priced bool) {
	o.Per = measure.Yard
	if t.unit.Metric() {
		o.Per = measure.Metre
	}
	const priceHint = `an amount and the length it is for: price = "13.50/yd" or "11.00/m"`
	if text, at, ok := t.text("price", `"13.50/yd"`); ok {
		price, per, err := cost.ParsePrice(text, currency)
		if err != nil {
			t.fail(at, priceHint, "`price`: %v", err)
		} else {
			o.Price, o.Per = price, per
		}
	}
	if text, at, ok := t.text("sold_by", `"1/8 yd"`); ok {
		step, err := cost.ParseStep(text, o.Per)
		if err != nil {
			t.fail(at, `the step the counter cuts by: sold_by = "1/8 yd" or "0.1 m"`, "`sold_by`: %v", err)
		} else {
			o.Step = step
		}
	}
	o.MinCut = t.lengthOr("min_cut", 0, measure.ParseNonNegative)
	o.Bolt = t.bolt(currency)
	priced = t.has("price") || o.Bolt != nil
	if !priced {
		o.Price.Currency = currency
	}
	return o, priced
}

// bolt reads the whole bolts a cloth is sold by; nil when it is not.
func (t *table) bolt(currency string) *cost.Bolt {
	b := t.sub("bolt", "`bolt` of "+t.name, `{ length = "25 yd", price = "140.00" }`)
	if b == nil {
		return nil
	}
	bolt := cost.Bolt{Length: b.mustLength("length", "25 yd"), Price: cost.Money{Currency: currency}}
	if text, at, ok := b.text("price", `"140.00"`); ok {
		price, err := cost.ParseMoney(text, currency)
		switch {
		case err != nil:
			b.fail(at, `the price of the whole bolt: price = "140.00"`, "`price`: %v", err)
		case price.Minor < 0:
			b.fail(at, "", "`price`: %q must not be negative", text)
		default:
			bolt.Price = price
		}
	} else if !b.has("price") {
		b.need("price", `the price of the whole bolt: price = "140.00"`)
	}
	b.finish()
	return &bolt
}
