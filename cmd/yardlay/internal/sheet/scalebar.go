package sheet

import (
	"fmt"

	"github.com/paulmach/orb"

	"yardlay/shapes/measure"
)

// bar is one choice of scale bar: how long, in how many parts.
type bar struct {
	count, parts int
	unit         measure.Unit
}

// Bars in rising order; the longest that is at most 70 mm of paper is drawn.
var (
	inchBars = []bar{{1, 4, measure.Inch}, {2, 4, measure.Inch}, {6, 6, measure.Inch}, {12, 6, measure.Inch},
		{18, 6, measure.Inch}, {36, 6, measure.Inch}, {2, 8, measure.Yard}, {4, 8, measure.Yard}}
	metricBars = []bar{{5, 5, measure.Centimetre}, {10, 5, measure.Centimetre}, {20, 4, measure.Centimetre},
		{50, 5, measure.Centimetre}, {100, 10, measure.Centimetre}, {2, 8, measure.Metre}, {5, 10, measure.Metre}}
)

// scaleBar draws, at a height, a bar in the job's unit, ticked, with the scale of the drawing.
func (p *page) scaleBar(y float64) []Item {
	return scaleBar(orb.Point{marginLeft * p.k, y}, p.k, p.marker.Unit)
}

// scaleBar draws a bar from a place to the right, at a scale of 1 : k.
func scaleBar(at orb.Point, k float64, unit measure.Unit) []Item {
	bars := inchBars
	if unit.Metric() {
		bars = metricBars
	}
	b := bars[0]
	for _, next := range bars {
		if float64(next.count)*next.unit.Millimetres() <= 70*k {
			b = next
		}
	}
	length := float64(b.count) * b.unit.Millimetres()
	x0, y := at[0], at[1]
	items := []Item{Line{RoleDim, orb.LineString{{x0, y}, {x0 + length, y}}}}
	for i := 0; i <= b.parts; i++ {
		tick := 1.2 * k
		if i%b.parts == 0 {
			tick = 2 * k
		}
		x := x0 + length*float64(i)/float64(b.parts)
		items = append(items, Line{RoleDim, orb.LineString{{x, y}, {x, y - tick}}})
		if i < b.parts && i%2 == 0 {
			items = append(items, Shape{Role: RoleDim, Ring: Box(x, y-0.6*k, x+length/float64(b.parts), y)})
		}
	}
	note := func(x, dy float64, anchor Anchor, s string) Item {
		return Text{Role: RoleNote, At: orb.Point{x, y + dy*k}, Anchor: anchor, Size: textDim * k, Body: s}
	}
	return append(items, note(x0, 2.6, Middle, "0"),
		note(x0+length, 2.6, Middle, fmt.Sprintf("%d %v", b.count, b.unit)),
		note(x0+length+8*k, 0, Start, fmt.Sprintf("1 : %.0f", k)))
}
