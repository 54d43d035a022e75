package draft

import "yardlay/shapes/say"

// HighHip is the girth over the hip bones, between waist and hip. Bodies go out
// faster above it than below, so that what passes waist and hip in a straight line
// may still be too tight there.
type HighHip struct {
	Girth     float64 // to go round, ease included, mm; 0 is not checked
	Depth     float64 // below the waist, mm
	Estimated bool    // from waist and hip, by EstimatedHighHip
}

// EstimatedHighHip returns the high hip of a body of which only waist and hip are
// known: half way down, and 5/7 of what the hip is wider than the waist. In the
// size tables of ASTM D5585 for misses the waist is 10 1/2 in and the high hip 3 in
// less than the hip in every size, (10 1/2 - 3) / 10 1/2 = 5/7 (from memory).
func EstimatedHighHip(waist, hip, depth float64) HighHip {
	return HighHip{Girth: waist + (hip-waist)*5/7, Depth: depth / 2, Estimated: true}
}

// check refuses a high hip that does not lie between waist and hip.
func (h HighHip) check(hipDepth float64) error {
	if h.Girth == 0 {
		return nil
	}
	if err := positive(measured{"high hip", h.Girth}, measured{"high hip's depth", h.Depth}); err != nil {
		return err
	}
	if h.Depth >= hipDepth {
		return say.Errorf("the high hip at %.1f below the waist does not lie above the hip at %.1f", say.MM(h.Depth),
			say.MM(hipDepth))
	}
	return nil
}

// text names it in errors, with what an estimate is made of.
func (h HighHip) text() say.Text {
	if h.Estimated {
		return say.Textf("the high hip of %.1f, estimated from waist and hip", say.MM(h.Girth))
	}
	return say.Textf("the high hip of %.1f", say.MM(h.Girth))
}

// hint is what errors add where the girth is an estimate.
func (h HighHip) hint() string {
	if h.Estimated {
		return ", or measure the high hip"
	}
	return ""
}

// shortfall is a place where a skirt is tighter than what it goes over.
type shortfall struct {
	depth, girth, needs float64  // mm below the waist, mm round as drawn, mm at least
	over                say.Text // what it has to pass there, with that measure
}

// girthSlack is by how much a girth may fall short before it counts, mm: rounding.
const girthSlack = 1e-6

// tightest compares the girth of a skirt, mm by mm below the waist, with the
// straight line from waist to hip, and at its depth with the high hip. It returns
// the place that falls short the most, and whether there is one.
func tightest(girth func(depth float64) float64, waist, hip, hipDepth float64, high HighHip) (shortfall, bool) {
	var worst shortfall
	look := func(depth, needs float64, over say.Text) {
		if g := girth(depth); needs-g > girthSlack && needs-g > worst.needs-worst.girth {
			worst = shortfall{depth, g, needs, over}
		}
	}
	const steps = 64
	for i := 1; i < steps; i++ {
		d := hipDepth * float64(i) / steps
		needs := waist + (hip-waist)*d/hipDepth
		look(d, needs, say.Textf("a straight line from waist to hip, %.1f", say.MM(needs)))
	}
	if high.Girth > 0 {
		look(high.Depth, high.Girth, high.text())
	}
	return worst, worst.needs > 0
}
