package cost

import (
	"fmt"
	"math/big"
)

// Pricing is how a price is made of a cost.
type Pricing int

// The ways of pricing.
const (
	AtCost  Pricing = iota // the cost
	Markup                 // cost x (1 + percent)
	Margin                 // cost / (1 - percent): the percentage is of the price
	Doubled                // cost is the wholesale price, doubled for retail (Louisiana Voices, Unit VII)
)

var pricings = []string{"at-cost", "markup", "margin", "doubled"}

// String gives its word.
func (p Pricing) String() string {
	if p < 0 || int(p) >= len(pricings) {
		return fmt.Sprintf("Pricing(%d)", int(p))
	}
	return pricings[p]
}

// price makes the price, rounded once to a minor unit.
func (p Pricing) price(cost Money, percent Decimal) (Money, error) {
	factor, err := p.factor(percent)
	if err != nil {
		return Money{}, err
	}
	return cost.Times(factor)
}

func (p Pricing) factor(percent Decimal) (*big.Rat, error) {
	if err := checkNotNegative(p.String(), percent); err != nil {
		return nil, err
	}
	unit := big.NewRat(1, 1)
	switch p {
	case Markup:
		return unit.Add(unit, percent.share()), nil
	case Margin:
		if percent >= Whole(100) {
			return nil, fmt.Errorf("a margin of %v %% cannot be: it is a share of the price, so less than 100 %% (a "+
				"markup may be more)", percent)
		}
		return unit.Quo(big.NewRat(1, 1), unit.Sub(unit, percent.share())), nil
	case AtCost, Doubled:
		if percent != 0 {
			return nil, fmt.Errorf("%v %%: pricing %v takes no percentage", percent, p)
		}
		if p == Doubled {
			unit.SetInt64(2)
		}
		return unit, nil
	}
	return nil, fmt.Errorf("%v is no way of pricing", p)
}

// label names the line that leads from cost to price.
func (p Pricing) label(percent Decimal) string {
	if p == Markup || p == Margin {
		return fmt.Sprintf("%v of %v %%", p, percent)
	}
	return "wholesale price " + p.String()
}
