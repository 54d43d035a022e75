package measure

import (
	"errors"
	"math"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParse(t *testing.T) {
	tests := []struct {
		text string
		bare Unit
		want float64
	}{
		{"35", Inch, 889},
		{"35", Centimetre, 350},
		{"35.5", Inch, 901.7},
		{".5", Inch, 12.7},
		{"35 1/2", Inch, 901.7},
		{"35-1/2 in", Metre, 901.7},
		{"35½", Inch, 901.7},
		{"35 ½ in", Inch, 901.7},
		{"⅝\"", Yard, 15.875},
		{`5/8"`, Yard, 15.875},
		{"5⁄8 in", Yard, 15.875},
		{"3/2 yd", Inch, 1371.6},
		{"1/08 in", Inch, 3.175},
		{"010/4 in", Inch, 63.5},
		{"010 in", Inch, 254},
		{"2 0/4 in", Inch, 50.8},
		{"90 cm", Inch, 900},
		{"90cm", Inch, 900},
		{"1.2 m", Inch, 1200},
		{"2 3/8 yd", Inch, 2171.7},
		{"3 ft 2 in", Metre, 965.2},
		{`3'2 1/2"`, Metre, 977.9},
		{"2 yd 1 ft 3 in", Metre, 2209.8},
		{"1 m 20 cm", Inch, 1200},
		{"  12 MM  ", Inch, 12},
		{"12\u00a0mm", Inch, 12},
		{"-1 in", Metre, -25.4},
		{"−1½", Inch, -38.1},
		{"-1 ft 6 in", Inch, -457.2},
		{"+2 feet", Inch, 609.6},
		{"0", Yard, 0},
		{"-0", Yard, 0},
		{"1000 m", Inch, 1e6},
		{"118 Inches", Inch, 2997.2},
	}
	for _, tt := range tests {
		got, err := Parse(tt.text, tt.bare)
		if err != nil || got != tt.want || math.Signbit(got) != math.Signbit(tt.want) {
			t.Errorf("Parse(%q, %v) = %v, %v; want %v", tt.text, tt.bare, got, err, tt.want)
		}
	}
}

func TestParseIsExact(t *testing.T) {
	got, err := ParseExact("1/3 yd", Inch)
	if want := big.NewRat(9144, 30); err != nil || got.Cmp(want) != 0 {
		t.Errorf("1/3 yd = %v mm, %v; want exactly %v", got, err, want)
	}
}

// Every refusal quotes the text and gives its own reason.
func TestParseRefuses(t *testing.T) {
	tests := []struct{ text, why string }{
		{"", "no number"},
		{"   ", "no number"},
		{"-", "no number"},
		{"35 1/0", "1/0 divides by zero"},
		{"0/000", "divides by zero"},
		{"1/2/3", "one slash"},
		{"35 1/2/3", "one slash"},
		{"1/", "expected after 1/"},
		{"/2", "a number was expected"},
		{"1//2", "expected after 1/"},
		{"NaN", "a number was expected"},
		{"inf", "a number was expected"},
		{"1e99", `"e" is no unit`},
		{"0x10", `"x" is no unit`},
		{"1_000", `"_" is no unit`},
		{"35,5", "point, not a comma"},
		{"35.5.5", "one decimal point"},
		{"35.", "after the decimal point"},
		{".", "after the decimal point"},
		{"1.5/2", "one slash"},
		{"1/2.5", "one decimal point"},
		{"35.5 1/2", "needs its unit"},
		{"35 3/2", "less than 1"},
		{"35-", "after the hyphen"},
		{"35-2", "after the hyphen"},
		{"--2", "a number was expected"},
		{"3 2 in", "needs its unit"},
		{"3 ft 2", "needs its unit"},
		{"2 in 3 ft", "ft cannot follow in"},
		{"2 in 3 in", "in cannot follow in"},
		{"2 ft 3 cm", "cm cannot follow ft"},
		{"3 ells", `"ells" is no unit`},
		{"in", "a number was expected"},
		{"35 in ch", "a number was expected"},
		{"٣ in", "not one of 0 to 9"},
		{"\xff3", "a number was expected"},
		{"1001 m", "longer than 1 km"},
		{"-1001 m", "longer than 1 km"},
		{strings.Repeat("9", 80), "80 bytes long"},
	}
	for _, tt := range tests {
		got, err := Parse(tt.text, Inch)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("Parse(%q) = %v, %v; want an *Error", tt.text, got, err)
			continue
		}
		if e.Text != tt.text || !strings.Contains(e.Why, tt.why) {
			t.Errorf("Parse(%q): %q of text %q; want a reason with %q", tt.text, e.Why, e.Text, tt.why)
		}
	}
}

func TestErrorQuotesTheText(t *testing.T) {
	_, err := Parse("35 1/0", Inch)
	if want := `cannot read "35 1/0" as a length: 1/0 divides by zero`; err == nil || err.Error() != want {
		t.Errorf("error %v; want %s", err, want)
	}
	_, err = Parse(strings.Repeat("é", 50), Inch)
	if want := `"` + strings.Repeat("é", 32) + `..."`; err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("error %v does not hold %s", err, want)
	}
}

func TestParseSigns(t *testing.T) {
	for _, text := range []string{"-1 in", "0", "0 cm", "what"} {
		if mm, err := ParsePositive(text, Inch); err == nil {
			t.Errorf("ParsePositive(%q) = %v, want an error", text, mm)
		}
	}
	for _, text := range []string{"-1 in", "what"} {
		if mm, err := ParseNonNegative(text, Inch); err == nil {
			t.Errorf("ParseNonNegative(%q) = %v, want an error", text, mm)
		}
	}
	if mm, err := ParsePositive("1/16", Inch); mm != 1.5875 || err != nil {
		t.Errorf("ParsePositive(1/16) = %v, %v", mm, err)
	}
	if mm, err := ParseNonNegative("0", Inch); mm != 0 || err != nil {
		t.Errorf("ParseNonNegative(0) = %v, %v", mm, err)
	}
}

func TestParseUnit(t *testing.T) {
	for u := Inch; u <= Metre; u++ {
		if got, err := ParseUnit(u.String()); got != u || err != nil {
			t.Errorf("ParseUnit(%q) = %v, %v", u.String(), got, err)
		}
		if f, _ := u.Exact().Float64(); f != u.Millimetres() {
			t.Errorf("%v: exact %v mm, float %v mm", u, f, u.Millimetres())
		}
	}
	if _, err := ParseUnit("ell"); err == nil || !strings.Contains(err.Error(), `"ell"`) {
		t.Errorf("ParseUnit(ell): %v", err)
	}
	if _, err := Parse("3", Unit(9)); err == nil {
		t.Error("a number counted in Unit(9)")
	}
}

// International agreement of 1959: 1 yd = 0.9144 m exactly, 1 ft a third of it,
// 1 in a thirty-sixth.
func TestUnitLengths(t *testing.T) {
	yard := Yard.Exact()
	if yard.Cmp(big.NewRat(9144, 10)) != 0 {
		t.Errorf("a yard is %v mm", yard)
	}
	for u, n := range map[Unit]int64{Foot: 3, Inch: 36} {
		if part := new(big.Rat).Mul(u.Exact(), big.NewRat(n, 1)); part.Cmp(yard) != 0 {
			t.Errorf("%d %v are %v mm, not a yard", n, u, part)
		}
	}
}

// Any whole number and fraction, in any spelling, is read to its exact value.
func TestParseAnyMixedNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := rapid.Int64Range(0, 999).Draw(t, "whole")
		bottom := rapid.Int64Range(2, 64).Draw(t, "bottom")
		top := rapid.Int64Range(0, bottom-1).Draw(t, "top")
		unit := Unit(rapid.IntRange(0, int(Metre)).Draw(t, "unit"))
		join := rapid.SampledFrom([]string{" ", "-", "  "}).Draw(t, "join")
		text := big.NewInt(whole).String() + join + big.NewInt(top).String() + "/" + big.NewInt(bottom).String()
		want := new(big.Rat).Add(big.NewRat(whole, 1), big.NewRat(top, bottom))
		want.Mul(want, unit.Exact())
		for _, s := range []string{text, text + unit.String(), " " + text + " " + unit.String()} {
			if got, err := ParseExact(s, unit); err != nil || got.Cmp(want) != 0 {
				t.Fatalf("ParseExact(%q) = %v, %v; want %v", s, got, err, want)
			}
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"35 1/2 in", "3 ft 2 in", `5/8"`, "-1½ yd", "1e99", "1/2/3", "35 1/0",
		"1.2 m", "٣", "\xff"} {
		f.Add(s, 0)
	}
	f.Fuzz(func(t *testing.T, text string, bare int) {
		mm, err := Parse(text, Unit(bare))
		if err != nil {
			var e *Error
			if !errors.As(err, &e) || e.Text != text {
				t.Fatalf("error %v does not carry the text %q", err, text)
			}
			return
		}
		if math.IsNaN(mm) || math.Abs(mm) > Longest {
			t.Fatalf("Parse(%q) = %v", text, mm)
		}
		if again, err := Parse(Format(mm, Millimetre), Inch); err != nil || math.Abs(again-mm) > 0.05+1e-6 {
			t.Fatalf("Parse(%q) = %v, printed and read again %v, %v", text, mm, again, err)
		}
	})
}
