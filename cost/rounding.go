package cost

import (
	"fmt"
	"math/big"

	"yardlay/shapes/say"
)

// halfAway is the one rule of rounding in this package: to the nearest whole
// number, a half going away from zero (up, for a price), as tills commonly do.
func halfAway(x *big.Rat) *big.Int {
	// floor(|x| + 1/2) = floor((2n + d) / 2d), with the sign put back.
	twice := new(big.Int).Lsh(new(big.Int).Abs(x.Num()), 1)
	twice.Add(twice, x.Denom())
	n := twice.Quo(twice, new(big.Int).Lsh(x.Denom(), 1))
	if x.Sign() < 0 {
		n.Neg(n)
	}
	return n
}

// ceil is the least whole number not below x.
func ceil(x *big.Rat) *big.Int {
	n, rest := new(big.Int).QuoRem(x.Num(), x.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		n.Add(n, big.NewInt(1))
	}
	return n
}

// Times multiplies by an exact factor and rounds once to whole minor units, a
// half going away from zero.
func (m Money) Times(factor *big.Rat) (Money, error) {
	exact := new(big.Rat).Mul(new(big.Rat).SetInt64(m.Minor), factor)
	n := halfAway(exact)
	if !n.IsInt64() {
		return Money{}, say.Errorf("%s times %v: %w", factor.FloatString(3), m, ErrTooMuch)
	}
	return Money{n.Int64(), m.Currency}, nil
}

// toSteps rounds to a whole number of steps of so many minor units (one or
// more): to the nearest, a half going away from zero, or up.
func (m Money) toSteps(step *big.Int, up bool) (Money, error) {
	count, round := new(big.Rat).SetFrac(big.NewInt(m.Minor), step), halfAway
	if up {
		round = ceil
	}
	n := round(count)
	if n.Mul(n, step); !n.IsInt64() {
		return Money{}, say.Errorf("%v rounded to a step: %w", m, ErrTooMuch)
	}
	return Money{n.Int64(), m.Currency}, nil
}

// Portion is what some equal shares of an amount are each.
type Portion struct {
	Count int   `json:"count"`
	Each  Money `json:"each"`
}

// Split divides an amount into n shares of whole minor units that sum to it
// exactly: what a division leaves over is spread by one minor unit over the
// first shares. There is one Portion where it comes out even, else two, the
// greater first.
func Split(total Money, n int) ([]Portion, error) {
	if n < 1 {
		return nil, fmt.Errorf("cannot divide %v by %d", total, n)
	}
	// Euclidean division: the rest is 0 to n - 1 for negative amounts too.
	each, rest := new(big.Int).DivMod(big.NewInt(total.Minor), big.NewInt(int64(n)), new(big.Int))
	low, more := Money{each.Int64(), total.Currency}, int(rest.Int64())
	if more == 0 {
		return []Portion{{n, low}}, nil
	}
	return []Portion{{more, Money{low.Minor + 1, low.Currency}}, {n - more, low}}, nil
}
