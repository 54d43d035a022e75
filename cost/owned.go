package cost

import "fmt"

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
	return 0, fmt.Errorf("%q says not what owned cloth is counted at: replacement or zero", short(text))
}

// Value is what a length in mm of cloth owned already is counted at: at
// replacement cost what Buy would pay for that length alone, before tax and
// shipping.
func (o Offer) Value(owned float64, at Valuation) (Money, error) {
	p, err := o.Buy(owned)
	if err != nil {
		return Money{}, fmt.Errorf("owned cloth: %w", err)
	}
	switch at {
	case Replacement:
		return p.Cost, nil
	case Zero:
		return Money{0, p.Cost.Currency}, nil
	}
	return Money{}, fmt.Errorf("owned cloth: %v is no way to count it", at)
}
