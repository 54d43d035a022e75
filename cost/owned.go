package cost

import (
	"errors"
	"fmt"
	"math/big"

	"yardlay/shapes/say"
)

// Valuation is what cloth the maker owns already is counted at.
type Valuation int

// Replacement counts what buying it again would cost, the rule of home-business
// advice (MU Extension MP598, stash at replacement cost); Zero counts nothing.
const (
	Replacement Valuation = iota
	Zero
)

// String gives the word ParseValuation reads.
func (v Valuation) String() string {
	switch v {
	case Replacement:
		return "replacement"
	case Zero:
		return "zero"
	}
	return fmt.Sprintf("Valuation(%d)", int(v))
}

// ParseValuation reads "replacement" or "zero".
func ParseValuation(text string) (Valuation, error) {
	for _, v := range []Valuation{Replacement, Zero} {
		if text == v.String() {
			return v, nil
		}
	}
	return 0, fmt.Errorf("%q does not say what owned cloth counts at: replacement or zero", short(text))
}

// Again is what would be bought to have a length in mm again: as Buy says or,
// where nothing is sold that long, whole bolts of the size that come to it for
// least.
func (o Offer) Again(owned float64) (Purchase, error) {
	p, err := o.Buy(owned)
	if !errors.Is(err, ErrTooShort) {
		return p, err
	}
	sizes := o.Sizes()
	var best Purchase
	for i, b := range sizes {
		n := stepsUp(needed(owned), exact(b.Length)).Int64()
		s := Set{Counts: make([]int, len(sizes)), Bolts: int(n)}
		s.Counts[i] = int(n)
		if s.Cost, err = b.Price.Times(big.NewRat(n, 1)); err != nil {
			return Purchase{}, err
		}
		if p, err = o.Together(s, 0, owned, 0); err != nil {
			return Purchase{}, err
		}
		if best.Parts == nil || p.Precedes(best) {
			best = p
		}
	}
	return best, nil
}

// Value is what a length in mm of cloth owned already is counted at: at
// replacement cost what Again would cost, before tax and shipping.
func (o Offer) Value(owned float64, at Valuation) (Money, error) {
	p, err := o.Again(owned)
	if err != nil {
		return Money{}, say.Errorf("owned cloth: %w", err)
	}
	switch at {
	case Replacement:
		return p.Cost, nil
	case Zero:
		return Money{0, p.Cost.Currency}, nil
	}
	return Money{}, fmt.Errorf("owned cloth: %v is no way to count it", at)
}
