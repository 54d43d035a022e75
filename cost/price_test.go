package cost

import (
	"strings"
	"testing"

	"yardlay/shapes/measure"
)

func TestParsePriceBy(t *testing.T) {
	if m, word, err := ParsePriceBy("24.00 / H", "USD", "h", "hour"); err != nil || m != usd(2400) || word != "h" {
		t.Errorf("24.00/h: %v by %q, %v", m, word, err)
	}
	for text, why := range map[string]string{
		"24.00": "needs what it is for (/h or /hour)", "24.00/day": `by /h or /hour, not by "day"`,
		"-1/h":    "must not be negative",
		"9 EUR/h": "not the currency", "/h": "digits are missing", "1/2/h": `not by "2/h"`,
	} {
		if m, word, err := ParsePriceBy(text, "USD", "h", "hour"); err == nil || !strings.Contains(err.Error(), why) {
			t.Errorf("ParsePriceBy(%q) = %v by %q, %v; want an error with %q", text, m, word, err, why)
		}
	}
}

func FuzzParsePriceBy(f *testing.F) {
	for _, s := range []string{"24.00/h", "2.40/each", "1", "/", "-1/h"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		m, word, err := ParsePriceBy(text, "USD", "h", "each")
		if err == nil && (checkPriceIn(m, "USD") != nil || word != "h" && word != "each") {
			t.Fatalf("%q is %v by %q", text, m, word)
		}
	})
}

func FuzzParseStep(f *testing.F) {
	for _, s := range []string{"1/8 yd", "0.1 m", "0.9 mm", "-1", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if s, err := ParseStep(text, measure.Yard); err == nil {
			if _, err := (Offer{Price: usd(100), Per: measure.Yard, Step: s}).Buy(1000); err != nil {
				t.Fatalf("nothing is bought by a step of %q: %v", text, err)
			}
		}
	})
}

// Owned cloth at replacement cost: MU Extension MP598.
func TestOwnedCloth(t *testing.T) {
	satin := Offer{Price: usd(1350), Per: measure.Yard}
	for text, want := range map[string]int64{"replacement": 3038, "zero": 0} { // 2 1/4 yd at 13.50 is 30.375
		v, err := ParseValuation(text)
		if err != nil || v.String() != text {
			t.Fatal(v, err)
		}
		if m, err := satin.Value(80*measure.Inches, v); err != nil || m != usd(want) {
			t.Errorf("80 in at %s: %v, %v", text, m, err)
		}
	}
	if v, err := ParseValuation("half"); err == nil {
		t.Errorf("half is %v", v)
	}
	if m, err := satin.Value(1, 7); err == nil || !strings.Contains(err.Error(), "Valuation(7)") {
		t.Errorf("counted at no way: %v, %v", m, err)
	}
	if m, err := satin.Value(-1, Zero); err == nil {
		t.Errorf("less than no cloth is worth %v", m)
	}
}

// ISO 4217, column "minor unit" (from memory).
func TestDecimals(t *testing.T) {
	for code, want := range map[string]int{"USD": 2, "EUR": 2, "GBP": 2, "JPY": 0, "KRW": 0, "ISK": 0,
		"KWD": 3, "TND": 3} {
		if got := Decimals(code); got != want {
			t.Errorf("%s has %d decimals, not %d", code, got, want)
		}
		if err := CheckCurrency(code); err != nil {
			t.Error(err)
		}
	}
	for code := range decimals {
		if err := CheckCurrency(code); err != nil {
			t.Errorf("a currency without two decimals: %v", err)
		}
	}
}

func TestSub(t *testing.T) {
	if m, err := usd(100).Sub(usd(130)); err != nil || m != usd(-30) {
		t.Errorf("1.00 less 1.30 is %v, %v", m, err)
	}
	if m, err := usd(-1).Sub(usd(-1 << 63)); err == nil {
		t.Errorf("less the least amount is %v", m)
	}
	if m, err := usd(1).Sub(Money{1, "EUR"}); err == nil {
		t.Errorf("dollars less euros are %v", m)
	}
}
