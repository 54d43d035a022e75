package cost

import (
	"errors"
	"fmt"
	"math/big"

	"yardlay/shapes/say"
)

// Terms is how a quote is made of materials and labour. Percentages are as
// written: 15 for 15 %.
type Terms struct {
	Currency string  // ISO 4217; every amount must be in it
	Gowns    int     // over which the quote runs; 0 is 1
	Overhead Decimal // percent of materials and labour
	Pricing  Pricing
	Percent  Decimal // of Markup or Margin
	Tax      Decimal // percent, on the price
	// RoundTo is the step the final figure is rounded to, for each gown, so
	// that all gowns of a run have one price; zero: none. To the nearest step, a
	// half going up; with RoundUp always up. It is the price before tax that is
	// rounded, or with RoundTaxed the total: the tax is then its share of that.
	RoundTo    Money
	RoundUp    bool
	RoundTaxed bool
	Deposit    Decimal // percent of the total, due first
}

// Quote is an itemised price for all gowns of a run. Lines sum to Total.
type Quote struct {
	Currency  string    `json:"currency"`
	Gowns     int       `json:"gowns"`
	Lines     []Line    `json:"lines"` // by kind: cloth, notion, supply, labour, overhead, price, tax
	Materials Money     `json:"materials"`
	Labour    Money     `json:"labour"`
	Overhead  Money     `json:"overhead"`
	Cost      Money     `json:"cost"`   // materials, labour and overhead
	Profit    Money     `json:"profit"` // Price less Cost; negative where rounding takes it below
	Price     Money     `json:"price"`  // before tax
	Tax       Money     `json:"tax"`
	Total     Money     `json:"total"`
	Deposit   Money     `json:"deposit"`
	Balance   Money     `json:"balance"`  // Total less Deposit
	PerGown   []Portion `json:"per_gown"` // of Total, as Spread divides it
}

// ErrRoundedAway means that rounding leaves nothing of a price.
var ErrRoundedAway = errors.New("nothing is left of the price")

// Quote prices materials (lines of the kinds cloth, notion and supply) and
// labour, both for all gowns of the run. Each percentage is taken of the sum
// shown before it and rounded once, a half going away from zero; the lines are
// those roundings and their sums, so that what is printed adds up.
func (t Terms) Quote(materials []Line, labour Labour) (Quote, error) {
	if err := t.check(); err != nil {
		return Quote{}, err
	}
	q := Quote{Currency: t.Currency, Gowns: max(1, t.Gowns)}
	bill := Bill{Total: Money{0, t.Currency}}
	for _, kind := range []Kind{KindCloth, KindNotion, KindSupply} {
		for _, l := range materials {
			if l.Kind == kind {
				if err := t.addMaterial(&bill, l); err != nil {
					return Quote{}, err
				}
			}
		}
	}
	if len(bill.Lines) != len(materials) {
		return Quote{}, fmt.Errorf("%d of %d lines of materials are neither cloth, notion nor supply",
			len(materials)-len(bill.Lines), len(materials))
	}
	q.Materials = bill.Total
	lines, err := labour.Lines(t.Currency)
	if err != nil {
		return Quote{}, err
	}
	for _, l := range lines {
		if err := bill.AddLine(l); err != nil {
			return Quote{}, err
		}
	}
	if q.Labour, err = bill.Total.Sub(q.Materials); err != nil {
		return Quote{}, err
	}
	if q.Overhead, err = bill.Total.Times(t.Overhead.share()); err != nil {
		return Quote{}, say.Errorf("overhead: %w", err)
	}
	if err := bill.addSome(Line{What: "overhead", Amount: q.Overhead, Kind: KindOverhead,
		Detail: t.Overhead.String() + " %"}); err != nil {
		return Quote{}, err
	}
	q.Cost = bill.Total
	if err := t.finish(&q, &bill); err != nil {
		return Quote{}, err
	}
	return q, nil
}

func (t Terms) addMaterial(bill *Bill, l Line) error {
	if err := checkPriceIn(l.Amount, t.Currency); err != nil {
		return say.Errorf("%s: %w", l.What, err)
	}
	return bill.AddLine(l)
}

// addSome adds a line unless it is of nothing.
func (b *Bill) addSome(l Line) error {
	if l.Amount.Minor == 0 {
		return nil
	}
	return b.AddLine(l)
}

// finish leads from the cost to the total and its shares.
func (t Terms) finish(q *Quote, bill *Bill) error {
	plain, err := t.Pricing.price(q.Cost, t.Percent)
	if err != nil {
		return say.Errorf("price: %w", err)
	}
	if q.Price, q.Tax, err = t.round(plain, q.Gowns); err != nil {
		return err
	}
	if plain.Minor > 0 && q.Price.Minor <= 0 {
		return say.Errorf("%v to the nearest %s: %w", plain, t.RoundTo.Amount(), ErrRoundedAway)
	}
	for _, l := range []struct {
		from, to   Money
		kind       Kind
		what, note string
	}{
		{q.Cost, plain, KindPrice, t.Pricing.label(t.Percent), ""},
		{plain, q.Price, KindPrice, "rounding", ""},
		{Money{}, q.Tax, KindTax, "tax", t.Tax.String() + " %"},
	} {
		amount, err := l.to.Sub(l.from)
		if err != nil {
			return err
		}
		if err := bill.addSome(Line{What: l.what, Amount: amount, Kind: l.kind, Detail: l.note}); err != nil {
			return err
		}
	}
	q.Lines, q.Total = bill.Lines, bill.Total
	if q.Profit, err = q.Price.Sub(q.Cost); err != nil {
		return err
	}
	if q.Deposit, err = q.Total.Times(t.Deposit.share()); err != nil {
		return say.Errorf("deposit: %w", err)
	}
	if q.Balance, err = q.Total.Sub(q.Deposit); err != nil {
		return err
	}
	q.PerGown, err = Split(q.Total, q.Gowns)
	return err
}

// round gives the price before tax, rounded where the terms say so, and the tax
// on it.
func (t Terms) round(plain Money, gowns int) (price, tax Money, err error) {
	step := new(big.Int).Mul(big.NewInt(max(1, t.RoundTo.Minor)), big.NewInt(int64(gowns)))
	if t.RoundTo.Minor == 0 {
		step.SetInt64(1)
	}
	price = plain
	if !t.RoundTaxed {
		if price, err = plain.toSteps(step, t.RoundUp); err != nil {
			return price, tax, err
		}
		tax, err = price.Times(t.Tax.share())
		return price, tax, err
	}
	if tax, err = plain.Times(t.Tax.share()); err != nil {
		return price, tax, err
	}
	total, err := plain.Add(tax)
	if err != nil {
		return price, tax, err
	}
	if total, err = total.toSteps(step, t.RoundUp); err != nil {
		return price, tax, err
	}
	if t.RoundTo.Minor > 0 { // the share of the tax in a rounded total
		share := t.Tax.share()
		if tax, err = total.Times(share.Quo(share, new(big.Rat).Add(big.NewRat(1, 1), share))); err != nil {
			return price, tax, err
		}
	}
	price, err = total.Sub(tax)
	return price, tax, err
}

// mostGowns is the longest run quoted.
const mostGowns = 10_000

func (t Terms) check() error {
	if err := CheckCurrency(t.Currency); err != nil {
		return err
	}
	if t.Gowns < 0 || t.Gowns > mostGowns {
		return fmt.Errorf("%d gowns are not between 1 and %d", t.Gowns, mostGowns)
	}
	for _, p := range []struct {
		name string
		Decimal
	}{{"overhead", t.Overhead}, {"tax", t.Tax}, {"deposit", t.Deposit}} {
		if err := checkNotNegative(p.name, p.Decimal); err != nil {
			return err
		}
	}
	if t.Deposit > Whole(100) {
		return fmt.Errorf("a deposit of %v %% is more than the total", t.Deposit)
	}
	if t.RoundTo != (Money{}) {
		if err := checkPriceIn(t.RoundTo, t.Currency); err != nil {
			return say.Errorf("rounding: %w", err)
		}
	}
	_, err := t.Pricing.factor(t.Percent)
	return err
}
