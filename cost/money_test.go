package cost

import (
	"errors"
	"math"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func usd(minor int64) Money { return Money{minor, "USD"} }

func TestParseMoney(t *testing.T) {
	tests := []struct {
		text, currency string
		want           int64
		print          string
	}{
		{"13.50", "USD", 1350, "13.50 USD"},
		{"13.5", "USD", 1350, "13.50 USD"},
		{"13", "EUR", 1300, "13.00 EUR"},
		{" 13.50 USD ", "USD", 1350, "13.50 USD"},
		{"0", "USD", 0, "0.00 USD"},
		{"0.05", "USD", 5, "0.05 USD"},
		{"-0.05", "USD", -5, "-0.05 USD"},
		{"1200", "JPY", 1200, "1200 JPY"},
		{"1.25", "KWD", 1250, "1.250 KWD"},
		{"92233720368547758.07", "USD", math.MaxInt64, "92233720368547758.07 USD"},
	}
	for _, tt := range tests {
		got, err := ParseMoney(tt.text, tt.currency)
		if err != nil || got != (Money{tt.want, tt.currency}) || got.String() != tt.print {
			t.Errorf("ParseMoney(%q, %s) = %v, %v; want %s", tt.text, tt.currency, got, err, tt.print)
		}
	}
}

func TestParseMoneyRefuses(t *testing.T) {
	tests := []struct{ text, currency, why string }{
		{"", "USD", "digits are missing"},
		{".50", "USD", "digits are missing"},
		{"13.", "USD", "digits are missing"},
		{"13.505", "USD", "USD has 2 decimals"},
		{"1.5", "JPY", "JPY has 0 decimals"},
		{"1,350.00", "USD", "no separators"},
		{"13,50", "EUR", "after a point"},
		{"$13", "USD", "without a sign of currency"},
		{"1e3", "USD", "digits and a point"},
		{"1.2.3", "USD", "digits and a point"},
		{"--1", "USD", "digits and a point"},
		{"+1", "USD", "digits and a point"},
		{"13 EUR", "USD", "not the currency in use"},
		{"EUR 13", "USD", "\"EUR\" is not the currency in use"},
		{"USD 13", "USD", "stands after the amount (such as 13 USD)"},
		{"92233720368547758.08", "USD", "too large"},
		{"13", "usd", "no currency code"},
		{"13", "", "no currency code"},
		{"13", "XYZ", "no currency code"},
		{"13", "XAU", "no currency code"},
	}
	for _, tt := range tests {
		if got, err := ParseMoney(tt.text, tt.currency); err == nil || !strings.Contains(err.Error(), tt.why) {
			t.Errorf("ParseMoney(%q, %q) = %v, %v; want an error with %q", tt.text, tt.currency, got, err, tt.why)
		}
	}
}

// The rule: a half goes away from zero, once, at the end.
func TestTimesRoundsHalfAwayFromZero(t *testing.T) {
	tests := []struct {
		minor    int64
		num, den int64
		want     int64
	}{
		{1, 1, 2, 1}, {3, 1, 2, 2}, {5, 1, 2, 3}, // half to even would give 0, 2, 2
		{-1, 1, 2, -1}, {-3, 1, 2, -2},
		{1, 49, 100, 0}, {-1, 49, 100, 0}, {1, 51, 100, 1},
		{1350, 19, 8, 3206}, // 13.50 x 2 3/8 = 32.0625
		{1349, 5, 2, 3373},  // 13.49 x 2.5 = 33.725
		{7, 0, 1, 0},
	}
	for _, tt := range tests {
		got, err := usd(tt.minor).Times(big.NewRat(tt.num, tt.den))
		if err != nil || got != usd(tt.want) {
			t.Errorf("%v times %d/%d = %v, %v; want %v", usd(tt.minor), tt.num, tt.den, got, err, usd(tt.want))
		}
	}
}

// A price built up by plain percentages (algebra, derived here): materials
// 186.40 and 22.5 h at 24.00 (540.00) are 726.40; overhead 15 % is 108.96, the
// cost 835.36; a markup of 20 % gives 835.36 x 1.2 = 1002.432, a margin of 20 %
// gives 835.36 / 0.8 = 1044.20, doubling 1670.72.
func TestPriceOfAGownByAlgebra(t *testing.T) {
	times := func(m Money, num, den int64) Money {
		t.Helper()
		p, err := m.Times(big.NewRat(num, den))
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	var b Bill
	for _, l := range []Line{{What: "materials", Amount: usd(18640)},
		{What: "labour", Amount: times(usd(2400), 45, 2)}} {
		if err := b.Add(l.What, l.Amount); err != nil {
			t.Fatal(err)
		}
	}
	overhead := times(b.Total, 15, 100)
	if err := b.Add("overhead", overhead); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what string
		got  Money
		want int64
	}{
		{"overhead", overhead, 10896},
		{"cost", b.Total, 83536},
		{"markup of 20 %", times(b.Total, 6, 5), 100243},
		{"margin of 20 %", times(b.Total, 5, 4), 104420},
		{"doubled", times(b.Total, 2, 1), 167072},
	} {
		if c.got != usd(c.want) {
			t.Errorf("%s is %v, want %v", c.what, c.got, usd(c.want))
		}
	}
}

func TestOverflowIsAnError(t *testing.T) {
	huge := usd(math.MaxInt64)
	if _, err := huge.Add(usd(1)); !errors.Is(err, ErrTooMuch) {
		t.Errorf("adding past the largest amount: %v", err)
	}
	if _, err := usd(math.MinInt64).Add(usd(-1)); !errors.Is(err, ErrTooMuch) {
		t.Errorf("adding past the least amount: %v", err)
	}
	if _, err := huge.Times(big.NewRat(2, 1)); !errors.Is(err, ErrTooMuch) {
		t.Errorf("doubling the largest amount: %v", err)
	}
	b := Bill{}
	if err := b.Add("all", huge); err != nil {
		t.Fatal(err)
	}
	if err := b.Add("more", usd(1)); !errors.Is(err, ErrTooMuch) || len(b.Lines) != 1 || b.Total != huge {
		t.Errorf("a bill past the largest amount: %v, %d lines, total %v", err, len(b.Lines), b.Total)
	}
	if err := b.Add("elsewhere", Money{1, "EUR"}); err == nil || !strings.Contains(err.Error(), "two currencies") {
		t.Errorf("two currencies in a bill: %v", err)
	}
}

// Adding agrees with big integers wherever the sum fits, and fails elsewhere.
func TestAddAgainstBigIntegers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Int64().Draw(t, "a"), rapid.Int64().Draw(t, "b")
		want := new(big.Int).Add(big.NewInt(a), big.NewInt(b))
		got, err := usd(a).Add(usd(b))
		if want.IsInt64() != (err == nil) || err == nil && got.Minor != want.Int64() {
			t.Fatalf("%d + %d = %v, %v; want %v", a, b, got, err, want)
		}
	})
}

func FuzzParseMoney(f *testing.F) {
	for _, s := range []string{"13.50", "13.50 USD", "-0.05", "1,350", "1e3", ""} {
		f.Add(s, "USD")
	}
	f.Add("1.250", "KWD")
	f.Fuzz(func(t *testing.T, text, currency string) {
		m, err := ParseMoney(text, currency)
		if err != nil {
			return
		}
		if again, err := ParseMoney(m.String(), currency); err != nil || again != m {
			t.Fatalf("%q is %v, printed and read again %v, %v", text, m, again, err)
		}
	})
}

func FuzzParsePrice(f *testing.F) {
	for _, s := range []string{"13.50/yd", "11/m", "9/yard", "9/ft", "/", "-1/yd"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		m, per, err := ParsePrice(text, "USD")
		if err == nil && (m.Minor < 0 || (Offer{Price: m, Per: per}).Check() != nil) {
			t.Fatalf("%q is %v by %v, which no cloth can be sold at", text, m, per)
		}
	})
}

func TestThousandsAreSetApart(t *testing.T) {
	for want, m := range map[string]Money{
		"0.05": {5, "USD"}, "999.99": {99_999, "USD"}, "1 234.50": {123_450,
			"USD"}, "-12 345 678.00": {-1_234_567_800, "USD"},
		"1 234 567": {1_234_567, "JPY"}, "1 000.000": {1_000_000, "KWD"},
	} {
		if got := strings.ReplaceAll(m.Grouped(), "\u00a0", " "); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
