package measure

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestFormat(t *testing.T) {
	tests := []struct {
		mm   float64
		unit Unit
		want string
	}{
		{901.7, Inch, "35 1/2 in"},
		{889, Inch, "35 in"},
		{15.875, Inch, "5/8 in"},
		{1.5875, Inch, "1/16 in"},
		{25.3, Inch, "1 in"},
		{26.9875, Inch, "1 1/8 in"}, // 1 1/16 in: half a step goes up
		{890.5875, Inch, "35 1/8 in"},
		{0, Inch, "0 in"},
		{-0.1, Inch, "0 in"},
		{-12.7, Inch, "-1/2 in"},
		{-38.1, Inch, "-1 1/2 in"},
		{965.2, Foot, "3 ft 2 in"},
		{968.375, Foot, "3 ft 2 1/8 in"},
		{-965.2, Foot, "-3 ft 2 in"},
		{304.7, Foot, "1 ft"},
		{254, Foot, "10 in"},
		{12.7, Foot, "1/2 in"},
		{2171.7, Yard, "2 3/8 yd"},
		{4572, Yard, "5 yd"},
		{114.3, Yard, "1/8 yd"},
		{901.7, Centimetre, "90.2 cm"},
		{900, Centimetre, "90.0 cm"},
		{-0.1, Centimetre, "0.0 cm"},
		{12.345, Millimetre, "12.3 mm"},
		{2171.7, Metre, "2.17 m"},
		{7681, Metre, "7.68 m"},
		{math.NaN(), Inch, "NaN in"},
		{math.Inf(-1), Metre, "-Inf m"},
	}
	for _, tt := range tests {
		if got := Format(tt.mm, tt.unit); got != tt.want {
			t.Errorf("Format(%v, %v) = %q, want %q", tt.mm, tt.unit, got, tt.want)
		}
	}
}

func TestFormatUp(t *testing.T) {
	tests := []struct {
		mm   float64
		unit Unit
		want string
	}{
		// Lengths to buy must never be shown short,
		// and an exact 180 in stays 5 yd.
		{180 * Inches, Yard, "5 yd"},
		{180*Inches + 0.009, Yard, "5 yd"},
		{180*Inches + 0.011, Yard, "5 1/8 yd"},
		{180*Inches - 100, Yard, "5 yd"},
		{60 * Inches, Yard, "1 3/4 yd"}, // 1.667 yd
		{64 * Inches, Yard, "1 7/8 yd"}, // 1.778 yd
		{302.4 * Inches, Yard, "8 1/2 yd"},
		{302.4 * Inches, Metre, "7.69 m"}, // 7.68096 m
		{35.01 * Inches, Inch, "35 1/8 in"},
		{25.39, Inch, "1 in"},
		{0.005, Inch, "0 in"},
		{0.005, Centimetre, "0.0 cm"},
		{300, Foot, "11 7/8 in"}, // 11.811 in
	}
	for _, tt := range tests {
		if got := FormatUp(tt.mm, tt.unit); got != tt.want {
			t.Errorf("FormatUp(%v, %v) = %q, want %q", tt.mm, tt.unit, got, tt.want)
		}
	}
}

func TestBoth(t *testing.T) {
	tests := []struct {
		got, want string
	}{
		{Both(901.7, Inch), "35 1/2 in (90.2 cm)"},
		{Both(2171.7, Yard), "2 3/8 yd (2.17 m)"},
		{Both(2171.7, Metre), "2.17 m (2 3/8 yd)"},
		{Both(900, Centimetre), "90.0 cm (35 3/8 in)"},
		{Both(9, Millimetre), "9.0 mm (3/8 in)"},
		{Both(965.2, Foot), "3 ft 2 in (0.97 m)"},
		{BothUp(2171.7, Yard), "2 3/8 yd (2.18 m)"},
		{BothUp(900, Centimetre), "90.0 cm (35 1/2 in)"},
	}
	for _, tt := range tests {
		if tt.got != tt.want {
			t.Errorf("got %q, want %q", tt.got, tt.want)
		}
	}
}

// halfStep is what printing to the nearest may move a length by.
var halfStep = map[Unit]float64{
	Inch: Inches / 16, Foot: Inches / 16, Yard: Yards / 16,
	Millimetre: 0.05, Centimetre: 0.5, Metre: 5,
}

// What is printed reads back to within half a step, and prints the same again;
// what is rounded up reads back no shorter, but for the guard, and less than a
// step longer.
// TestFormatDown: what is shown is longer than what is meant by the guard at most.
func TestFormatDown(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		u    Unit
		want string
	}{
		{180 * Inches, Yard, "5 yd"},
		{180*Inches - 0.009, Inch, "180 in"},
		{180*Inches - 0.02, Inch, "179 7/8 in"},
		{180*Inches + 3, Inch, "180 in"},
		{909.9, Centimetre, "90.9 cm"},
		{999.9, Metre, "0.99 m"},
	} {
		if got := FormatDown(c.mm, c.u); got != c.want {
			t.Errorf("%v mm: %q, want %q", c.mm, got, c.want)
		}
	}
}

func TestFormatReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(-1e5, 1e5).Draw(t, "mm")
		unit := Unit(rapid.IntRange(0, int(Metre)).Draw(t, "unit"))
		other := Unit(rapid.IntRange(0, int(Metre)).Draw(t, "bare"))
		text := Format(mm, unit)
		got, err := Parse(text, other)
		if err != nil || math.Abs(got-mm) > halfStep[unit]+1e-6 {
			t.Fatalf("%v mm prints %q, reads %v, %v", mm, text, got, err)
		}
		if again := Format(got, unit); again != text {
			t.Fatalf("%v mm prints %q, then %q", mm, text, again)
		}
		text = FormatUp(mm, unit)
		got, err = Parse(text, other)
		if err != nil || got < mm-Guard-1e-6 || got >= mm-Guard+2*halfStep[unit]+1e-6 {
			t.Fatalf("%v mm rounds up to %q, reads %v, %v", mm, text, got, err)
		}
		if again := FormatUp(got, unit); again != text {
			t.Fatalf("%v mm rounds up to %q, then %q", mm, text, again)
		}
	})
}

// A tape shows sixteenths of an inch, or millimetres.
func TestFormatTape(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		unit Unit
		want string
	}{
		{0, Inch, "0"}, {25.4 * 57.9375, Inch, "57 15/16"}, {1.5, Inch, "1/16"}, {25.4 * 12.25, Yard, "12 1/4"},
		{25.4 / 32 * 0.99, Inch, "0"}, {147.4, Millimetre, "147"}, {147.5, Millimetre, "148"}, {1473, Centimetre, "147.3"},
		{1470, Metre, "147.0"}, {-3.2, Inch, "-1/8"},
	} {
		if got := FormatTape(c.mm, c.unit); got != c.want {
			t.Errorf("%v mm in %v: %q, want %q", c.mm, c.unit, got, c.want)
		}
	}
}
