// Package cost turns used lengths into what the counter sells for them, with
// notions and labour into what a gown costs, and that into a quote. Money is
// whole minor units, never a float, with exact fractions between; each amount
// is rounded once, a half going away from zero. Lengths are millimetres.
package cost

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"yardlay/shapes/say"
)

// Money is an amount in whole minor units (cents) of an ISO 4217 currency.
// The zero value is nothing, in no currency, and adds to any other amount.
type Money struct {
	Minor    int64  `json:"minor"`
	Currency string `json:"currency"` // three capital letters: "USD"
}

// ErrTooMuch is wrapped by errors about sums that do not fit in Money.
var ErrTooMuch = errors.New("the amount is too large to count")

// String prints the amount and its currency: "13.50 USD".
func (m Money) String() string {
	if m.Currency == "" {
		return m.Amount()
	}
	return m.Amount() + " " + m.Currency
}

// Amount prints the amount alone: "13.50".
func (m Money) Amount() string {
	n, sign := strconv.FormatInt(m.Minor, 10), ""
	if m.Minor < 0 {
		n, sign = n[1:], "-"
	}
	places := Decimals(m.Currency)
	if places == 0 {
		return sign + n
	}
	if len(n) <= places {
		n = strings.Repeat("0", places+1-len(n)) + n
	}
	return sign + n[:len(n)-places] + "." + n[len(n)-places:]
}

// Grouped is Amount with its thousands set apart by no-break spaces, for reading:
// "12 345.00". Source: the SI brochure, 9th edition, 5.4.4, groups digits in threes
// by spaces, never by points or commas.
func (m Money) Grouped() string {
	text := m.Amount()
	digits, rest, point := strings.Cut(strings.TrimPrefix(text, "-"), ".")
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "\u00a0" + digits[i:]
	}
	if point {
		digits += "." + rest
	}
	if m.Minor < 0 {
		digits = "-" + digits
	}
	return digits
}

// Add sums two amounts of one currency.
func (m Money) Add(o Money) (Money, error) {
	switch {
	case m == Money{}:
		return o, nil
	case o == Money{}:
		return m, nil
	case m.Currency != o.Currency:
		return Money{}, fmt.Errorf("cannot add %v to %v: two currencies", o, m)
	}
	sum := m.Minor + o.Minor
	if (o.Minor > 0) != (sum > m.Minor) && o.Minor != 0 {
		return Money{}, say.Errorf("%v and %v: %w", m, o, ErrTooMuch)
	}
	return Money{sum, m.Currency}, nil
}

// Sub takes one amount from another of the same currency.
func (m Money) Sub(o Money) (Money, error) {
	if o.Minor == math.MinInt64 {
		return Money{}, say.Errorf("%v less %v: %w", m, o, ErrTooMuch)
	}
	return m.Add(Money{-o.Minor, o.Currency})
}

// ParseMoney reads an amount such as "13.50", "13" or "13.50 USD" in the given
// currency. It refuses another currency, more decimals than the currency has,
// and separators of thousands.
func ParseMoney(text, currency string) (Money, error) {
	if err := CheckCurrency(currency); err != nil {
		return Money{}, err
	}
	refuse := func(why string, args ...any) (Money, error) {
		return Money{}, fmt.Errorf("cannot read %q as an amount: %s", short(text), fmt.Sprintf(why, args...))
	}
	amount := strings.TrimSpace(text)
	if first, rest, found := strings.Cut(amount, " "); found && CheckCurrency(first) == nil {
		if first != currency {
			return refuse("%q is not the currency in use, %s", first, currency)
		}
		return refuse("the currency stands after the amount (such as %s %s)", short(strings.TrimSpace(rest)), currency)
	}
	if i := strings.LastIndexByte(amount, ' '); i >= 0 {
		if code := amount[i+1:]; code != currency {
			return refuse("%q is not the currency in use, %s", short(code), currency)
		}
		amount = strings.TrimSpace(amount[:i])
	}
	digits, negative := strings.CutPrefix(amount, "-")
	whole, part, point := strings.Cut(digits, ".")
	places := Decimals(currency)
	switch {
	case strings.ContainsRune(digits, ','):
		return refuse("write the decimals after a point and no separators (such as 1350.50)")
	case strings.Trim(whole, "0123456789") != "" || strings.Trim(part, "0123456789") != "":
		return refuse("write digits and a point, without a sign of currency (such as 13.50)")
	case whole == "" || point && part == "":
		return refuse("digits are missing (such as 13.50)")
	case len(part) > places:
		return refuse("%s has %d decimals", currency, places)
	}
	minor, err := strconv.ParseInt(whole+part+strings.Repeat("0", places-len(part)), 10, 64)
	if err != nil {
		return refuse("%v", ErrTooMuch)
	}
	if negative {
		minor = -minor
	}
	return Money{minor, currency}, nil
}

// short cuts a text for quoting in an error.
func short(s string) string {
	if len(s) > 40 {
		return strings.ToValidUTF8(s[:40], "") + "..."
	}
	return s
}
