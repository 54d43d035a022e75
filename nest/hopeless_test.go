package nest

import (
	"math"
	"testing"
)

// From half of the budget on a layout shortens by less than 1.5 %: of 550 mm none comes to
// 500, what the counter sells next, of 505 mm it may.
func TestHopeless(t *testing.T) {
	if (Options{}).hopeless() != nil {
		t.Error("a search is given up that nobody compares")
	}
	hopeless := Options{Purchase: true,
		Bought: func(used float64) float64 { return 100 * math.Ceil(used/100) }}.hopeless()
	for _, c := range []struct {
		length, done float64
		want         bool
	}{{550, 0.5, true}, {505, 0.5, false}, {505, 0.9, true}, {550, 0.49, false}, {550, 1, false}} {
		if got := hopeless(c.length, c.done); got != c.want {
			t.Errorf("%v mm after %v of the budget: %v, want %v", c.length, c.done, got, c.want)
		}
	}
}
