package cost

import (
	"fmt"
	"math/big"

	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Break is a lower price for longer cuts. As at a counter, it holds for the
// whole length of a cut that is at least From long, not only for what exceeds
// From; so a cut of From may cost less than a shorter one. In a purchase of
// bolts and a cut, the cut alone must be that long.
type Break struct {
	From  float64 // mm, rounded up to the counter's step
	Price Money   // for one Per of the offer
}

// checkBreaks wants longer and longer cuts at lower and lower prices.
func (o Offer) checkBreaks() error {
	if len(o.Breaks) > mostBreaks {
		return fmt.Errorf("%d price breaks are more than %d", len(o.Breaks), mostBreaks)
	}
	from, price := 0.0, o.Price
	for _, b := range o.Breaks {
		if err := checkLength("a price break", b.From, measure.Longest); err != nil {
			return err
		}
		if err := checkPriceIn(b.Price, o.Price.Currency); err != nil {
			return say.Errorf("price break from %s: %w", measure.Format(b.From, o.Per), err)
		}
		if b.From <= from {
			return fmt.Errorf("price break from %s: it must be longer than the one before it, %s",
				measure.Format(b.From, o.Per), measure.Format(from, o.Per))
		}
		if b.Price.Minor >= price.Minor {
			return fmt.Errorf("price break from %s: %v is not below the price for shorter cuts, %v",
				measure.Format(b.From, o.Per), b.Price, price)
		}
		from, price = b.From, b.Price
	}
	return nil
}

// cut is a length cut at the counter.
type cut struct {
	length *big.Rat // mm
	price  Money    // for one Per
	from   float64  // mm; where the price begins, 0 for the plain price
	cost   *big.Int // minor units, rounded once
}

// cuts lists, for an exact length of more than 0, the shortest cut that holds
// it at each price. Within a price no longer cut is cheaper, so the best is
// among them. The first is what the counter sells when asked for the length
// and nothing else.
func (o Offer) cuts(need *big.Rat) []cut {
	if !o.ByLength() {
		return nil
	}
	least := o.steps(need)
	if o.MinCut > 0 {
		least = maxInt(least, o.steps(needed(o.MinCut)))
	}
	tiers := append([]Break{{0, o.Price}}, o.Breaks...)
	var all []cut
	for i, t := range tiers {
		n := least
		if t.From > 0 {
			n = maxInt(n, o.steps(needed(t.From)))
		}
		if i+1 < len(tiers) && n.Cmp(o.steps(needed(tiers[i+1].From))) >= 0 {
			continue // the next price holds already
		}
		length := new(big.Rat).Mul(new(big.Rat).SetInt(n), o.CutStep())
		units := new(big.Rat).Quo(length, o.Per.Exact())
		all = append(all, cut{length, t.Price, t.From,
			halfAway(units.Mul(units, new(big.Rat).SetInt64(t.Price.Minor)))})
	}
	return all
}

// steps counts the counter's steps that hold an exact length of more than 0.
func (o Offer) steps(need *big.Rat) *big.Int { return stepsUp(need, o.CutStep()) }

func maxInt(a, b *big.Int) *big.Int {
	if a.Cmp(b) >= 0 {
		return a
	}
	return b
}
