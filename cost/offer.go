package cost

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"strings"

	"yardlay/shapes/measure"
)

// ParsePrice reads a price by length, "13.50/yd", "13.50/yard" or "11/m", in the
// given currency.
func ParsePrice(text, currency string) (Money, measure.Unit, error) {
	amount, by, found := strings.Cut(text, "/")
	if !found {
		return Money{}, 0, fmt.Errorf("cannot read %q as a price: it needs a length it is for (such as 13.50/yd or 13.50/m)", short(text))
	}
	per, err := measure.ParseUnit(by)
	if err != nil || per != measure.Yard && per != measure.Metre {
		return Money{}, 0, fmt.Errorf("cannot read %q as a price: cloth is priced by the yard or the metre (/yd or /m), not by %q", short(text), short(by))
	}
	m, err := ParseMoney(amount, currency)
	if err != nil {
		return Money{}, 0, fmt.Errorf("price %q: %w", short(text), err)
	}
	if m.Minor < 0 {
		return Money{}, 0, fmt.Errorf("cannot read %q as a price: it must not be negative", short(text))
	}
	return m, per, nil
}

// ParseStep reads the step a counter cuts by ("1/8 yd", "0.1 m") as exact
// millimetres; a bare number counts in per.
func ParseStep(text string, per measure.Unit) (*big.Rat, error) {
	step, err := measure.ParseExact(text, per)
	if err != nil {
		return nil, err
	}
	if err := checkStep(step); err != nil {
		return nil, fmt.Errorf("step %q: %w", text, err)
	}
	return step, nil
}

// checkStep keeps steps above what rounding up forgives, so that the guard
// can never swallow one.
func checkStep(step *big.Rat) error {
	if step.Cmp(big.NewRat(1, 1)) < 0 {
		return fmt.Errorf("a counter's step of %s mm is less than 1 mm", step.FloatString(3))
	}
	return nil
}

// Offer is how a cloth is sold.
type Offer struct {
	Price  Money        // for one Per; without a currency the cloth is sold by the bolt only
	Per    measure.Unit // Yard or Metre
	Step   *big.Rat     // mm, exact; nil: 1/8 yd by the yard, 0.1 m by the metre (common practice)
	MinCut float64      // mm; the least length cut, 0 for none but a step
	Bolt   *Bolt        // nil where whole bolts are not sold
}

// Bolt is a whole bolt as sold.
type Bolt struct {
	Length float64 // mm
	Price  Money
}

// Purchase is what to buy for one used length.
type Purchase struct {
	Used     float64 // mm, as given
	Bought   float64 // mm, never less than Used but for measure.Guard
	Bolts    int     // whole bolts; 0 when a length is cut at the counter
	Cost     Money   // of all that is bought
	Leftover float64 // mm, Bought less Used, never negative
	// Split says that the used length is longer than one bolt. A marker is one
	// length of cloth: it must then be parted where no piece crosses, which this
	// package, knowing no layout, cannot promise to be possible.
	Split bool
}

// CutStep gives the step in exact millimetres, the default where none is set.
func (o Offer) CutStep() *big.Rat {
	switch {
	case o.Step != nil:
		return o.Step
	case o.Per == measure.Metre:
		return big.NewRat(100, 1)
	}
	return big.NewRat(9144, 80)
}

// Check refuses an offer that nothing can be bought by.
func (o Offer) Check() error {
	if o.Price.Currency == "" && o.Bolt == nil {
		return errors.New("the offer has no price, neither by length nor by the bolt")
	}
	if o.Price.Currency != "" {
		if err := o.checkCut(); err != nil {
			return err
		}
	}
	if o.Bolt == nil {
		return nil
	}
	if !(o.Bolt.Length >= 1) || o.Bolt.Length > measure.Longest {
		return fmt.Errorf("a bolt of %v mm is not between 1 mm and 1 km long", o.Bolt.Length)
	}
	if err := checkPrice(o.Bolt.Price); err != nil {
		return fmt.Errorf("bolt: %w", err)
	}
	if o.Price.Currency != "" && o.Price.Currency != o.Bolt.Price.Currency {
		return fmt.Errorf("the length is priced in %s and the bolt in %s", o.Price.Currency, o.Bolt.Price.Currency)
	}
	return nil
}

func (o Offer) checkCut() error {
	if err := checkPrice(o.Price); err != nil {
		return err
	}
	if o.Per != measure.Yard && o.Per != measure.Metre {
		return fmt.Errorf("cloth is priced by the yard or the metre, not by %q", o.Per)
	}
	if !(o.MinCut >= 0) || o.MinCut > measure.Longest {
		return fmt.Errorf("a least cut of %v mm is not between 0 and 1 km", o.MinCut)
	}
	return checkStep(o.CutStep())
}

func checkPrice(m Money) error {
	if m.Minor < 0 {
		return fmt.Errorf("the price %v is negative", m)
	}
	return CheckCurrency(m.Currency)
}

// Buy says what to buy for a used length in mm: a length cut at the counter or
// whole bolts, whichever costs less (the cut length where they cost the same).
// Lengths are rounded up to the counter's step, and to whole bolts, after
// taking off measure.Guard, so that an exact 180 in stays 5 yd. A used length
// of 0 buys nothing.
func (o Offer) Buy(used float64) (Purchase, error) {
	if err := o.Check(); err != nil {
		return Purchase{}, err
	}
	if !(used >= 0) || used > measure.Longest {
		return Purchase{}, fmt.Errorf("a used length of %v mm is not between 0 and 1 km", used)
	}
	if used == 0 {
		return Purchase{Cost: Money{0, o.currency()}}, nil
	}
	if o.Bolt == nil {
		return o.cut(used)
	}
	bolts, err := o.bolts(used)
	if err != nil || o.Price.Currency == "" {
		return bolts, err
	}
	cut, err := o.cut(used)
	if err != nil || cut.Cost.Minor <= bolts.Cost.Minor {
		return cut, err
	}
	return bolts, nil
}

func (o Offer) currency() string {
	if o.Price.Currency != "" {
		return o.Price.Currency
	}
	return o.Bolt.Price.Currency
}

// cut buys a length cut at the counter.
func (o Offer) cut(used float64) (Purchase, error) {
	step := o.CutStep()
	bought := new(big.Rat).SetInt(stepsUp(math.Max(used, o.MinCut), step))
	bought.Mul(bought, step)
	price, err := o.Price.Times(new(big.Rat).Quo(bought, o.Per.Exact()))
	if err != nil {
		return Purchase{}, err
	}
	mm, _ := bought.Float64()
	return purchase(used, mm, price), nil
}

// bolts buys whole bolts.
func (o Offer) bolts(used float64) (Purchase, error) {
	n := stepsUp(used, new(big.Rat).SetFloat64(o.Bolt.Length))
	price, err := o.Bolt.Price.Times(new(big.Rat).SetInt(n))
	if err != nil {
		return Purchase{}, err
	}
	count := int(n.Int64())
	p := purchase(used, float64(count)*o.Bolt.Length, price)
	p.Bolts, p.Split = count, count > 1
	return p, nil
}

func purchase(used, bought float64, price Money) Purchase {
	return Purchase{Used: used, Bought: bought, Cost: price, Leftover: math.Max(0, bought-used)}
}

// stepsUp counts the steps that hold a length of more than 0, less the guard;
// at least one.
func stepsUp(mm float64, step *big.Rat) *big.Int {
	x := new(big.Rat).SetFloat64(math.Max(0, mm-measure.Guard))
	x.Quo(x, step)
	n, rest := new(big.Int).QuoRem(x.Num(), x.Denom(), new(big.Int))
	if rest.Sign() > 0 || n.Sign() == 0 {
		n.Add(n, big.NewInt(1))
	}
	return n
}
