package cost

import (
	"testing"

	"yardlay/shapes/measure"
)

// BenchmarkBuy prices a length within a search, where it is asked for often.
func BenchmarkBuy(b *testing.B) {
	offers := map[string]Offer{
		"cut":  {Price: usd(300), Per: measure.Yard},
		"bolt": {Price: usd(300), Per: measure.Yard, Bolt: &Bolt{Length: 50 * measure.Yards, Price: usd(8500)}},
		"three sizes, two breaks": {
			Price: usd(300), Per: measure.Yard, Breaks: []Break{{9144, usd(280)}, {18288, usd(250)}},
			Bolt: &Bolt{Length: 50 * measure.Yards, Price: usd(10000)}, More: []Bolt{{Length: 25 * measure.Yards,
				Price: usd(5000)}, {Length: 10 * measure.Yards, Price: usd(2100)}},
		},
		"three sizes of one value": {
			Bolt: &Bolt{Length: 50 * measure.Yards, Price: usd(10000)}, More: []Bolt{{Length: 25 * measure.Yards,
				Price: usd(5000)}, {Length: 10 * measure.Yards, Price: usd(2000)}},
		},
	}
	for name, o := range offers {
		for _, used := range []float64{17123.4, 41234.5} {
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
