package strict

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes/measure"
)

func TestLengthsAreShownAsACounterWould(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		want string
	}{
		{0, "0 in"}, {25.4, "1 in"}, {3.175, "1/8 in"}, {901.7, "35 1/2 in"}, {-12.7, "-1/2 in"},
		{1000, "39.37 in"}, {0.001, "4e-05 in"}, {-0.009, "-0.0004 in"}, {1, "0.04 in"},
		{9118.6, "359 in"},
		{9144, "10 yd"}, {9144.005, "10 yd"}, {9147.175, "10 yd 1/8 in"}, {82208.878, "89 yd 32.57 in"},
		{-82208.878, "-89 yd 32.57 in"}, {91440 - 0.005, "100 yd"}, {math.Inf(1), "+Inf in"},
	} {
		if got := Show(measure.Yard)(c.mm); got != c.want {
			t.Errorf("%v mm is shown as %q, want %q", c.mm, got, c.want)
		}
	}
	for _, c := range []struct {
		mm   float64
		want string
	}{
		{0, "0.0 cm"}, {8, "0.8 cm"}, {355, "35.5 cm"}, {59.6, "5.96 cm"}, {60, "6.0 cm"}, {-12.7, "-1.27 cm"},
		{0.001, "0.001 mm"}, {0.25, "0.25 mm"}, {9999, "999.9 cm"}, {10_000, "10.0 m"}, {12_345, "12.35 m"},
		{math.Inf(1), "+Inf m"},
	} {
		for _, unit := range []measure.Unit{measure.Centimetre, measure.Metre} {
			if got := Show(unit)(c.mm); got != c.want {
				t.Errorf("%v mm is shown as %q, want %q", c.mm, got, c.want)
			}
		}
	}
	if Show(measure.Millimetre) != nil {
		t.Error("who measures in mm is told otherwise")
	}
}

// What an error shows can be typed into a job: it reads back as the length, to half a
// hundredth of an inch.
func TestShownLengthsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(-1e5, 1e5).Draw(t, "mm")
		if rapid.Bool().Draw(t, "eighths") {
			mm = math.Round(mm/eighth) * eighth
		}
		if math.Abs(mm) < 2.54 {
			t.Skip("told by its order alone")
		}
		shown := Show(measure.Inch)(mm)
		if back, err := measure.Parse(shown, measure.Centimetre); err != nil ||
			math.Abs(back-mm) > 0.005*measure.Inches+1e-9 {
			t.Fatalf("%v mm is shown as %q, which reads %v, %v", mm, shown, back, err)
		}
	})
}

// A file in inches reads of lengths of cloth in yards, one in yards or centimetres in its own.
func TestReadersShowTheFilesUnit(t *testing.T) {
	for unit, want := range map[measure.Unit][2]string{
		measure.Inch: {"35 1/2 in", "65 yd 22.2 in"}, measure.Yard: {"1 yd", "65 5/8 yd"},
		measure.Centimetre: {"90.2 cm", "6000.0 cm"},
	} {
		r := Reader{Unit: unit}
		if got := [2]string{r.Show(901.7), r.Show(60000)}; got != want {
			t.Errorf("in %v: %q, want %q", unit, got, want)
		}
	}
}
