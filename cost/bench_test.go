package cost

import (
	"testing"

	"yardlay/shapes/measure"
)

// BenchmarkBuy prices a length within a search, where it is asked for often.
func BenchmarkBuy(b *testing.B) {
	offers := map[string]Offer{
		"cut":  {Price: usd(300), Per: measure.Yard},
		"bolt": {Price: usd(300), Per: measure.Yard, Bolt: &Bolt{50 * measure.Yards, usd(8500)}},
		"three sizes, two breaks": {
			Price: usd(300), Per: measure.Yard, Breaks: []Break{{9144, usd(280)}, {18288, usd(250)}},
			Bolt: &Bolt{50 * measure.Yards, usd(10000)}, More: []Bolt{{25 * measure.Yards, usd(5000)}, {10 * measure.Yards, usd(2100)}},
		},
		"three sizes of one value": {
			Bolt: &Bolt{50 * measure.Yards, usd(10000)}, More: []Bolt{{25 * measure.Yards, usd(5000)}, {10 * measure.Yards, usd(2000)}},
		},
	}
	for name, o := range offers {
		for _, used := range []float64{17123.4, 171234.5} {
			b.Run(name+" "+measure.Format(used, measure.Metre), func(b *testing.B) {
				for b.Loop() {
					if _, err := o.Buy(used); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
