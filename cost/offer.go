package cost

import (
	"errors"
	"fmt"
	"math/big"

	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Offer is how a cloth is sold.
type Offer struct {
	Price  Money        // for one Per; without a currency the cloth is sold by the bolt only
	Per    measure.Unit // Yard or Metre
	Step   *big.Rat     // mm, exact; nil: 1/8 yd by the yard, 0.1 m by the metre (common practice)
	MinCut float64      // mm; the least length cut, 0 for none but a step
	Breaks []Break      // lower prices for longer cuts, from the shortest length up
	Bolt   *Bolt        // nil where whole bolts are not sold
	More   []Bolt       // further sizes sold whole, half bolts among them, in any order
}

// Bolt is a whole bolt, half bolt or roll as sold.
type Bolt struct {
	Length  float64 // mm
	Price   Money
	InStock int // how many there are; 0: as many as are wanted
}

// most sizes and breaks are more than any shop has; they keep Buy fast.
const (
	mostSizes  = 8
	mostBreaks = 16
)

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

// Sizes lists all that is sold whole.
func (o Offer) Sizes() []Bolt {
	if o.Bolt == nil {
		return o.More
	}
	return append([]Bolt{*o.Bolt}, o.More...)
}

// ByLength tells whether the counter cuts lengths.
func (o Offer) ByLength() bool { return o.Price.Currency != "" }

// Check refuses an offer that nothing can be bought by.
func (o Offer) Check() error {
	sizes := o.Sizes()
	if !o.ByLength() && len(sizes) == 0 {
		return errors.New("the offer has no price, neither by length nor by the bolt")
	}
	if o.ByLength() {
		if err := o.checkCut(); err != nil {
			return err
		}
	} else if len(o.Breaks) > 0 {
		return errors.New("the offer has price breaks and no price by length")
	}
	if len(sizes) > mostSizes {
		return fmt.Errorf("%d sizes of bolt are more than %d", len(sizes), mostSizes)
	}
	for _, b := range sizes {
		if !(b.Length >= 1) || b.Length > measure.Longest {
			return say.Errorf("a bolt of %v is not between %v and 1 km long", say.MM(b.Length), say.MM(1))
		}
		if err := checkPrice(b.Price); err != nil {
			return say.Errorf("bolt: %w", err)
		}
		if b.InStock < 0 {
			return fmt.Errorf("bolt: %d in stock are fewer than none", b.InStock)
		}
		if c := o.currency(); b.Price.Currency != c {
			return fmt.Errorf("one price is in %s and that of the bolt in %s", c, b.Price.Currency)
		}
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
	if err := checkLength("a least cut", o.MinCut, measure.Longest); err != nil {
		return err
	}
	if err := checkStep(o.CutStep()); err != nil {
		return err
	}
	return o.checkBreaks()
}

// currency is that of an offer with any price.
func (o Offer) currency() string {
	if o.ByLength() {
		return o.Price.Currency
	}
	return o.Sizes()[0].Price.Currency
}

// check refuses an offer nothing can be bought by and a length that is none.
func (o Offer) check(used float64) error {
	if err := o.Check(); err != nil {
		return err
	}
	return checkLength("a used length", used, measure.Longest)
}

// ErrTooShort is the error of a length that is longer than anything sold.
var ErrTooShort = errors.New("nothing sold is as long in one piece")

// Buy says what to buy for a used length in mm, in one piece: a marker is one
// length of cloth, and lengths bought are not joined. It is the cheapest of all
// bolts that are long enough and of lengths cut at the counter, longer cuts at a
// lower price among them; of equally cheap ones the shortest, and a cut before a
// bolt. Lengths are rounded up to the counter's step after taking off
// measure.Guard, so that an exact 180 in stays 5 yd. A used length of 0 buys
// nothing. Where nothing is long enough the error is an ErrTooShort.
//
// Neither Cost nor Bought ever falls when more is used: all that would do for
// more does for less, and the order of preference stays the same.
func (o Offer) Buy(used float64) (Purchase, error) {
	if err := o.check(used); err != nil {
		return Purchase{}, err
	}
	if used == 0 {
		return Purchase{Cost: Money{0, o.currency()}}, nil
	}
	need := needed(used)
	best, _ := o.bestCut(used)
	for i, b := range o.Sizes() {
		if w := oneBolt(i, b); w.length.Cmp(need) >= 0 && w.beats(best) {
			best = w
		}
	}
	if best.cost == nil {
		return Purchase{}, say.Errorf("%w: %s are needed, the longest bolt is %s", ErrTooShort,
			measure.FormatUp(used, o.shown()), measure.Format(o.longestBolt(), o.shown()))
	}
	return o.purchase(used, used, best)
}

// shown is the unit lengths are told in.
func (o Offer) shown() measure.Unit {
	if o.Per.Valid() {
		return o.Per
	}
	return measure.Yard
}
