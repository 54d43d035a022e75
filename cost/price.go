package cost

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// ParsePrice reads a price by length, "13.50/yd", "13.50/yard" or "11/m", in the
// given currency.
func ParsePrice(text, currency string) (Money, measure.Unit, error) {
	amount, by, found := strings.Cut(text, "/")
	if !found {
		return Money{}, 0, fmt.Errorf(
			"cannot read %q as a price: it needs a length it is for (such as 13.50/yd or 13.50/m)", short(text))
	}
	per, err := measure.ParseUnit(by)
	if err != nil || per != measure.Yard && per != measure.Metre {
		return Money{}, 0, fmt.Errorf(
			"cannot read %q as a price: cloth is priced by the yard or the metre (/yd or /m), not by %q", short(text),
			short(by))
	}
	m, err := parseAmount(text, amount, currency)
	return m, per, err
}

// ParsePriceBy reads a price for something counted or timed, such as
// "2.40/each" or "24.00/h", in the given currency. The word after the stroke
// must be one of those given; it returns which.
func ParsePriceBy(text, currency string, words ...string) (Money, string, error) {
	amount, by, found := strings.Cut(text, "/")
	hint := strings.Join(words, " or /")
	if !found {
		return Money{}, "", fmt.Errorf("cannot read %q as a price: it needs what it is for (/%s)", short(text), hint)
	}
	word := strings.ToLower(strings.TrimSpace(by))
	if !slices.Contains(words, word) {
		return Money{}, "", fmt.Errorf("cannot read %q as a price: it must be by /%s, not by %q",
			short(text), hint, short(by))
	}
	m, err := parseAmount(text, amount, currency)
	return m, word, err
}

// parseAmount reads the amount before the stroke of a price.
func parseAmount(text, amount, currency string) (Money, error) {
	m, err := ParseMoney(amount, currency)
	if err != nil {
		return Money{}, say.Errorf("price %q: %w", short(text), err)
	}
	if m.Minor < 0 {
		return Money{}, fmt.Errorf("cannot read %q as a price: it must not be negative", short(text))
	}
	return m, nil
}

// ParseStep reads the step a counter cuts by ("1/8 yd", "0.1 m") as exact
// millimetres; a bare number counts in per.
func ParseStep(text string, per measure.Unit) (*big.Rat, error) {
	step, err := measure.ParseExact(text, per)
	if err != nil {
		return nil, err
	}
	if err := checkStep(step); err != nil {
		return nil, say.Errorf("step %q: %w", text, err)
	}
	return step, nil
}

// checkStep keeps steps above what rounding up forgives, so that the guard
// can never swallow one.
func checkStep(step *big.Rat) error {
	if step.Cmp(big.NewRat(1, 1)) < 0 {
		return say.Errorf("a counter's step of %.3f is less than %v", say.MM(nearest(step)), say.MM(1))
	}
	return nil
}
