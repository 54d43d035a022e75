package draft

import (
	"cmp"
	"math"

	"yardlay/shapes/say"
)

// checkClears refuses a part of a circle that does not go round hip or high hip: at
// a depth d below the waist it measures W + 2 pi f d. A hip of 0 is not asked about.
func checkClears(waist, fraction, hip, depth float64, high HighHip) error {
	if hip == 0 {
		return nil
	}
	if err := cmp.Or(
		positive(measured{"hip", hip}, measured{"hip depth", depth}),
		high.check(depth),
	); err != nil {
		return err
	}
	least := math.Ceil(1000*leastFraction(waist, hip, depth, high)) / 1000
	girth := func(d float64) float64 { return waist + 2*math.Pi*fraction*d }
	if g := girth(depth); g < hip-girthSlack {
		return say.Errorf("%g of a circle goes %.1f round at %.1f below the waist and does not clear the hip of %.1f",
			fraction, say.MM(g), say.MM(depth), say.MM(hip)).
			Hint("at least %.3f of a circle", least)
	}
	if g := girth(high.Depth); g < high.Girth-girthSlack {
		return say.Errorf("%g of a circle goes %.1f round at %.1f below the waist and does not clear %s", fraction,
			say.MM(g), say.MM(high.Depth), high.text()).
			Hint("at least %.3f of a circle%s", least, high.hint())
	}
	return nil
}

// leastFraction returns the least part of a circle that goes round both hip and
// high hip.
func leastFraction(waist, hip, depth float64, high HighHip) float64 {
	least := (hip - waist) / (2 * math.Pi * depth)
	if high.Girth > 0 {
		least = max(least, (high.Girth-waist)/(2*math.Pi*high.Depth))
	}
	return least
}

// checkWorn refuses a skirt that cannot be put on, and one that does not stay up.
func checkWorn(rings []Ring, opening bool, waist, hip float64) error {
	return cmp.Or(checkRings(rings...), checkHeld(opening, waist, hip))
}

// checkHeld refuses a skirt without an opening that the hip cannot hold up.
func checkHeld(opening bool, waist, hip float64) error {
	if !opening && hip != 0 && waist > hip {
		return say.Errorf("waist of %.1f is larger than the hip of %.1f: without an opening to fit it by, nothing "+
			"holds the skirt up", say.MM(waist), say.MM(hip)).
			Hint(openBack)
	}
	return nil
}
