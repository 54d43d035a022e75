package main

import (
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cost"
	"yardlay/shapes/measure"
)

// What is bought fits its column, bolts with a cut beside them too.
func TestToBuyTellsBoltsFromCuts(t *testing.T) {
	yd := func(n float64) float64 { return n * measure.Yards }
	cut, bolt := cost.Part{Count: 1, Length: yd(9)}, cost.Part{Count: 1, Length: yd(25), Bolt: true}
	for want, c := range map[string]plan.Cloth{
		"nothing":         {},
		"9 yd (8.23 m)":   {Bought: yd(9), Buy: cost.Purchase{Parts: []cost.Part{cut}}},
		"1 bolt, 25 yd":   {Bought: yd(25), Bolts: 1, Buy: cost.Purchase{Parts: []cost.Part{bolt}}},
		"2 bolts, 50 yd":  {Bought: yd(50), Bolts: 2, Buy: cost.Purchase{Parts: []cost.Part{bolt}}},
		"1 bolt + 9 yd":   {Bought: yd(34), Bolts: 1, Buy: cost.Purchase{Parts: []cost.Part{bolt, cut}}},
		"12 bolts + 9 yd": {Bought: yd(309), Bolts: 12, Buy: cost.Purchase{Parts: []cost.Part{bolt, cut}}},
	} {
		c.Spread.Cloth = job.Cloth{Offer: cost.Offer{Per: measure.Yard}}
		if got := toBuy(c); got != want || len(got) > 20 {
			t.Errorf("%q, want %q in 20 letters", got, want)
		}
	}
}
