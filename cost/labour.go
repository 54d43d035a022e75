package cost

import (
	"fmt"
	"math/big"

	"yardlay/shapes/say"
)

// Rates is how long a maker takes, by her own settings: minutes for a metre of
// seam, of hem and of gathered length, and for each piece. No standard is
// pretended.
type Rates struct {
	Seam, Hem, Gathered Decimal // minutes per metre
	Piece               Decimal // minutes
}

// Work is what a gown takes. Lengths are in mm.
type Work struct {
	Seam, Hem, Gathered float64
	Pieces              int
}

// Step is one kind of work and its time.
type Step struct {
	What    string
	Minutes Decimal // rounded to four decimals, for show
}

// quarterHour is 15 minutes; slack is what rounding up to it leaves out, a
// second, so that noise in a length never costs a quarter hour.
var (
	quarterHour = big.NewRat(15, 1)
	slack       = big.NewRat(1, 60)
)

// Hours works out the hours of some work: the exact sum, rounded up once to the
// quarter hour, and the steps it is made of.
func (r Rates) Hours(w Work) (Decimal, []Step, error) {
	var steps []Step
	sum, err := r.minutes(w, func(what string, minutes *big.Rat) error {
		shown, err := decimalOf(minutes)
		if minutes.Sign() > 0 {
			steps = append(steps, Step{what, shown})
		}
		return err
	})
	if err != nil {
		return 0, nil, err
	}
	hours, err := quartersUp(sum)
	return hours, steps, err
}

// Worth is what some work comes to at a price for an hour, to the nearest minor unit and not by whole quarter hours:
// for telling which of two ways to make a gown costs less.
func (r Rates) Worth(w Work, hour Money) (Money, error) {
	sum, err := r.minutes(w, func(string, *big.Rat) error { return nil })
	if err != nil {
		return Money{}, err
	}
	minor := halfAway(sum.Mul(sum, big.NewRat(hour.Minor, 60)))
	if !minor.IsInt64() {
		return Money{}, say.Errorf("work: %w", ErrTooMuch)
	}
	return Money{minor.Int64(), hour.Currency}, nil
}

// minutes sums up what some work takes, exactly, and shows each kind of it.
func (r Rates) minutes(w Work, show func(what string, minutes *big.Rat) error) (*big.Rat, error) {
	if w.Pieces < 0 {
		return nil, fmt.Errorf("%d pieces are fewer than none", w.Pieces)
	}
	sum := new(big.Rat)
	add := func(what string, rate Decimal, amount *big.Rat) error {
		if err := checkNotNegative(what, rate); err != nil {
			return err
		}
		minutes := amount.Mul(amount, rate.Rat())
		if err := show(what, minutes); err != nil {
			return err
		}
		sum.Add(sum, minutes)
		return nil
	}
	for _, l := range []struct {
		what string
		rate Decimal
		mm   float64
	}{{"seams", r.Seam, w.Seam}, {"hems", r.Hem, w.Hem}, {"gathering", r.Gathered, w.Gathered}} {
		if err := checkLength(l.what, l.mm, longestSum); err != nil {
			return nil, err
		}
		metres := exact(l.mm)
		if err := add(l.what, l.rate, metres.Mul(metres, big.NewRat(1, 1000))); err != nil {
			return nil, say.Errorf("minutes per metre: %w", err)
		}
	}
	if err := add("pieces", r.Piece, big.NewRat(int64(w.Pieces), 1)); err != nil {
		return nil, say.Errorf("minutes per piece: %w", err)
	}
	return sum, nil
}

// quartersUp rounds minutes up to whole quarter hours, in hours.
func quartersUp(minutes *big.Rat) (Decimal, error) {
	if minutes.Cmp(slack) <= 0 {
		return 0, nil
	}
	quarters := stepsUp(new(big.Rat).Sub(minutes, slack), quarterHour)
	return decimalOf(new(big.Rat).SetFrac(quarters, big.NewInt(4)))
}

// QuartersOf takes hours by a factor and rounds them up once to the quarter hour.
func QuartersOf(hours Decimal, factor *big.Rat) (Decimal, error) {
	if err := checkNotNegative("hours", hours); err != nil {
		return 0, err
	}
	minutes := new(big.Rat).Mul(hours.Rat(), factor)
	return quartersUp(minutes.Mul(minutes, big.NewRat(60, 1)))
}

// Labour is the maker's time. Hours that she gives herself stand as given;
// those from Rates.Hours are whole quarter hours.
type Labour struct {
	Hours      Decimal // making
	Fittings   int
	PerFitting Decimal // hours
	Rate       Money   // for one hour; the zero value where there are no hours
}

// Lines gives what making and fittings cost, in the currency of a quote; none
// for no hours.
func (l Labour) Lines(currency string) ([]Line, error) {
	if err := checkNotNegative("hours", l.Hours); err != nil {
		return nil, err
	}
	if err := checkNotNegative("hours per fitting", l.PerFitting); err != nil {
		return nil, err
	}
	if l.Fittings < 0 {
		return nil, fmt.Errorf("fittings: %d is negative", l.Fittings)
	}
	fitting := new(big.Rat).Mul(big.NewRat(int64(l.Fittings), 1), l.PerFitting.Rat())
	if l.Hours == 0 && fitting.Sign() == 0 {
		return nil, nil
	}
	if l.Rate.Currency == "" {
		return nil, fmt.Errorf("labour: hours need a rate per hour (such as 24.00/h)")
	}
	if err := checkPriceIn(l.Rate, currency); err != nil {
		return nil, say.Errorf("labour: %w", err)
	}
	var lines []Line
	add := func(what, detail string, hours *big.Rat) error {
		if hours.Sign() == 0 {
			return nil
		}
		amount, err := l.Rate.Times(hours)
		lines = append(lines, Line{What: what, Amount: amount, Kind: KindLabour, Detail: detail})
		return err
	}
	if err := add("making", fmt.Sprintf("%v h at %v/h", l.Hours, l.Rate), l.Hours.Rat()); err != nil {
		return nil, err
	}
	err := add("fittings", fmt.Sprintf("%d of %v h at %v/h", l.Fittings, l.PerFitting, l.Rate), fitting)
	return lines, err
}
