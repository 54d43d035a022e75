package draft

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// maxFraction is the most circles that one skirt, cape or flounce may go round.
const maxFraction = 10.0

// checkFraction refuses fractions of a circle that nobody wears.
func checkFraction(f float64) error {
	if !(f > 0 && f <= maxFraction) {
		return fmt.Errorf("fraction of a circle is %g, must be above 0 and at most %g", f, maxFraction)
	}
	return nil
}

// sector is a ring sector about a centre on the x axis, put so that the inner
// arc meets the axis at 0: the inner edge lies towards low x, the grain along +x
// runs out along the radius at angle 0.
type sector struct {
	inner, outer float64 // radii, mm
	from, to     float64 // radians, at most pi apart
	chord        float64 // chord error, mm
}

// edges returns the finished outline, counter-clockwise from the inner end of
// the lower straight side, the one at angle from.
func (s sector) edges(lower, hem, upper, top side) []shapes.Edge {
	centre := orb.Point{-s.inner, 0}
	outer := plane.Arc(centre, s.outer, s.from, s.to, s.chord)
	inner := plane.Arc(centre, s.inner, s.to, s.from, s.chord)
	return between(outer, inner, lower, hem, upper, top)
}

// between closes an outer and an inner line, drawn counter-clockwise round the
// piece between them, by straight sides.
func between(outer, inner orb.LineString, lower, hem, upper, top side) []shapes.Edge {
	edge := func(s side, line ...orb.Point) shapes.Edge {
		return shapes.Edge{Name: s.name, Kind: s.kind, Line: line, Allowance: s.allowance}
	}
	return []shapes.Edge{
		edge(lower, inner[len(inner)-1], outer[0]),
		edge(hem, outer...),
		edge(upper, outer[len(outer)-1], inner[0]),
		edge(top, inner...),
	}
}

// sections returns how many equal sections an angle (radians) is cut in: as
// asked, or when asked is 0 the fewest of which none is over 180 degrees.
func sections(angle float64, asked int) (int, error) {
	// The guard keeps exact half turns whole.
	least := max(1, int(math.Ceil(angle/math.Pi-1e-9)))
	switch {
	case asked == 0:
		return least, nil
	case asked < least:
		return 0, say.Errorf("%d section(s) of a sector of %.1f degrees are over 180 degrees each", asked,
			angle*180/math.Pi).
			Hint("at least %d sections", least)
	case asked > MaxCount:
		return 0, fmt.Errorf("sections: %d, must be at most %d", asked, MaxCount)
	}
	return asked, nil
}

// checkHemRadius refuses a part of a circle wider than any piece can be.
func checkHemRadius(fraction, waist, hem float64) error {
	if hem > shapes.MaxExtent/2 {
		return say.Errorf("%g of a circle with a waist of %.1f has a hem radius of %.0f, the most is %v", fraction,
			say.MM(waist), say.MM(hem), say.MM(shapes.MaxExtent/2))
	}
	return nil
}

// checkInnerRadius refuses an inner edge curved so tightly that its allowance
// reaches the centre.
func checkInnerRadius(edge string, radius, allowance float64) error {
	if radius <= allowance {
		return say.Errorf("the %s is cut on a radius of %.1f, its allowance of %.6g leaves nothing", edge,
			say.MM(radius), say.MM(allowance)).
			Hint("a smaller allowance or less flare")
	}
	return nil
}
