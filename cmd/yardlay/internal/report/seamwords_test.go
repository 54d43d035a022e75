package report

import (
	"testing"

	"yardlay/shapes/measure"
)

func TestLeftOver(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		unit measure.Unit
		want string
	}{
		{0.05, measure.Inch, "0"}, {-0.4, measure.Inch, "-0.016 in"}, {-0.4, measure.Centimetre, "-0.4 mm"}, {25.4,
			measure.Inch, "1"},
		{-25.4, measure.Inch, "-1"}, {-31, measure.Centimetre, "-3.1"},
	} {
		if got := leftOver(c.mm, c.unit); got != c.want {
			t.Errorf("%g mm: %q, want %q", c.mm, got, c.want)
		}
	}
}
