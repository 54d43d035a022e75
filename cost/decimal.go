package cost

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"yardlay/shapes/say"
)

// Decimal is an exact number with four decimals, kept in ten-thousandths: a
// percentage, hours, minutes per metre. The zero value is 0.
type Decimal int64

// one is 1 as a Decimal.
const one = 10_000

// places is the number of decimals a Decimal keeps, mostDigits how many may
// stand before the point: a thousand million of anything is a slip of the pen.
const (
	places     = 4
	mostDigits = 9
)

// Whole makes a Decimal of a whole number of at most nine digits.
func Whole(n int32) Decimal { return Decimal(n) * one }

// Rat gives the exact value.
func (d Decimal) Rat() *big.Rat { return big.NewRat(int64(d), one) }

// share gives a percentage as a share of one: 15 becomes 3/20.
func (d Decimal) share() *big.Rat { return big.NewRat(int64(d), 100*one) }

// String prints the number without needless zeros: "22.5", "15".
func (d Decimal) String() string {
	text := d.Rat().FloatString(places)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// MarshalText writes the number as String does.
func (d Decimal) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// decimalOf rounds an exact value to a Decimal, a half going away from zero.
func decimalOf(x *big.Rat) (Decimal, error) {
	n := halfAway(new(big.Rat).Mul(x, big.NewRat(one, 1)))
	if !n.IsInt64() {
		return 0, say.Errorf("%s: %w", x.FloatString(0), ErrTooMuch)
	}
	return Decimal(n.Int64()), nil
}

// ParseDecimal reads a number such as "22.5", "15" or "-0.25", with at most
// four decimals and nine digits before the point.
func ParseDecimal(text string) (Decimal, error) {
	refuse := func(why string) (Decimal, error) {
		return 0, fmt.Errorf("cannot read %q as a number: %s", short(text), why)
	}
	digits, negative := strings.CutPrefix(strings.TrimSpace(text), "-")
	whole, part, point := strings.Cut(digits, ".")
	switch {
	case strings.Trim(whole, "0123456789") != "" || strings.Trim(part, "0123456789") != "":
		return refuse("write digits and a point (such as 22.5)")
	case whole == "" || point && part == "":
		return refuse("digits are missing (such as 22.5)")
	case len(part) > places:
		return refuse(fmt.Sprintf("it has more than %d decimals", places))
	case len(whole) > mostDigits:
		return refuse(fmt.Sprintf("it has more than %d digits before the point", mostDigits))
	}
	n, err := strconv.ParseInt(whole+part+strings.Repeat("0", places-len(part)), 10, 64)
	if err != nil {
		return refuse(err.Error())
	}
	if negative {
		n = -n
	}
	return Decimal(n), nil
}

// ParsePercent reads a percentage: "15", "15 %", "7.25%" or "8 1/4 %".
func ParsePercent(text string) (Decimal, error) {
	number := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "%"))
	d, err := parseMixed(number)
	if err != nil {
		return 0, say.Errorf("cannot read %q as a percentage (such as 15, 7.25 %% or 8 1/4 %%): %w", short(text), err)
	}
	return d, nil
}

// parseMixed reads a decimal, a fraction, or a whole number and a fraction: "2.5",
// "3/4", "2 1/2". The fraction has to come out even in four decimals.
func parseMixed(text string) (Decimal, error) {
	whole, part, mixed := strings.Cut(text, " ")
	if !strings.Contains(text, "/") {
		return ParseDecimal(text)
	} else if !mixed {
		whole, part = "0", text
	}
	d, err := ParseDecimal(whole)
	if err != nil {
		return 0, err
	}
	above, below, _ := strings.Cut(strings.TrimSpace(part), "/")
	n, badAbove := strconv.ParseUint(above, 10, 16)
	m, badBelow := strconv.ParseUint(below, 10, 16)
	if badAbove != nil || badBelow != nil || m == 0 || d < 0 || d%one != 0 {
		return 0, fmt.Errorf("%q is not a fraction (such as 1/4)", short(text))
	}
	if n*one%m != 0 {
		return 0, fmt.Errorf("%s/%s does not come out even in %d decimals", above, below, places)
	}
	return d + Decimal(n*one/m), nil
}

// checkNotNegative refuses a number below zero by its name.
func checkNotNegative(name string, d Decimal) error {
	if d < 0 {
		return fmt.Errorf("%s: %v is negative", name, d)
	}
	return nil
}
