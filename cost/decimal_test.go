package cost

import (
	"encoding/json"
	"math/big"
	"strings"
	"testing"
)

func TestParseDecimal(t *testing.T) {
	for text, want := range map[string]Decimal{
		"22.5": 225_000, " 15 ": 150_000, "0": 0, "-0.25": -2500, "0.0001": 1, "999999999.9999": 9_999_999_999_999,
	} {
		d, err := ParseDecimal(text)
		if err != nil || d != want || d.String() != strings.TrimSpace(text) {
			t.Errorf("ParseDecimal(%q) = %v, %v", text, d, err)
		}
	}
	for text, why := range map[string]string{
		"": "digits are missing", ".5": "digits are missing", "5.": "digits are missing", "--5": "write digits",
		"+5":  "write digits",
		"1e3": "write digits", "1,5": "write digits", "0.00001": "more than 4 decimals",
		"1000000000": "more than 9 digits", "1.2.3": "write digits",
	} {
		if d, err := ParseDecimal(text); err == nil || !strings.Contains(err.Error(), why) {
			t.Errorf("ParseDecimal(%q) = %v, %v; want an error with %q", text, d, err, why)
		}
	}
	for text, want := range map[string]Decimal{"15": 150_000, "15 %": 150_000, "7.25%": 72_500, "8 1/4 %": 82_500,
		"2 1/2%": 25_000, "3/4 %": 7_500, "1/16": 625} {
		if d, err := ParsePercent(text); err != nil || d != want {
			t.Errorf("ParsePercent(%q) = %v, %v", text, d, err)
		}
	}
	for _, text := range []string{"", "%", "15 %%", "15 percent", "1/3 %", "1/0 %", "1/-2", "2.5 1/2 %", "-1 1/2 %",
		"1 2 3/4", "/2", "1/"} {
		if d, err := ParsePercent(text); err == nil || !strings.Contains(err.Error(), "as a percentage") {
			t.Errorf("ParsePercent(%q) = %v, %v", text, d, err)
		}
	}
	if text, err := json.Marshal(Decimal(225_000)); err != nil || string(text) != `"22.5"` {
		t.Errorf("22.5 written as %s, %v", text, err)
	}
	if d, err := decimalOf(big.NewRat(1, 20_000)); err != nil || d != 1 {
		t.Errorf("half a ten-thousandth is %v, %v; it goes up", d, err)
	}
}

func FuzzParseDecimal(f *testing.F) {
	for _, s := range []string{"22.5", "-0.25", "15 %", "1e3", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if d, err := ParseDecimal(text); err == nil {
			if again, err := ParseDecimal(d.String()); err != nil || again != d {
				t.Fatalf("%q is %v, printed and read again %v, %v", text, d, again, err)
			}
			if p, err := ParsePercent(text + "%"); err != nil || p != d {
				t.Fatalf("%q is %v, as a percentage %v, %v", text, d, p, err)
			}
		}
	})
}
