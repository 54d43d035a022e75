package sheet

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/measure"
)

// cloth draws the ground, the selvedge strips, the edges and their names.
func (p page) cloth() []Item {
	m, k := p.marker, p.k
	x0, used, end := p.origin[0], p.origin[0]+m.Used, p.origin[0]+m.length()
	top, bottom := p.top(), p.bottom()
	items := []Item{Shape{Role: RoleCloth, Ring: box(x0, top, used, bottom)}}
	if end > used {
		items = append(items, Shape{Role: RoleSpare, Ring: box(used, top, end, bottom)})
	}
	upper, lower := "edge of the cloth", "edge of the cloth"
	if m.Selvedge > 0 {
		upper, lower = "selvedge", "selvedge"
		items = append(items,
			Shape{Role: RoleSelvedge, Ring: box(x0, top, end, top+m.Selvedge)},
			Shape{Role: RoleSelvedge, Ring: box(x0, bottom-m.Selvedge, end, bottom)})
	}
	label := func(y float64, s string) Item {
		return Text{Role: RoleNote, At: orb.Point{x0 + k, y}, Size: textSelvedge * k, Body: s}
	}
	return append(items,
		Line{RoleEdge, orb.LineString{{x0, top}, {end, top}}},
		Line{RoleEdge, orb.LineString{{x0, bottom}, {end, bottom}}},
		Line{RoleEdge, orb.LineString{{x0, top}, {x0, bottom}}},
		label(top-textSelvedge*0.8*k, upper), label(bottom+textSelvedge*0.8*k, lower),
		Text{Role: RoleNote, At: orb.Point{x0 - 3*k, (top + bottom) / 2}, Anchor: Middle, Size: textDim * k, Turn: 90, Body: "cut end"})
}

// marks draws the lines at the used and the bought length, dimensions both from
// the cut end, and dimensions the width.
func (p page) marks() []Item {
	m, k := p.marker, p.k
	x0, top, bottom := p.origin[0], p.top(), p.bottom()
	var items []Item
	level := func(y, length float64, role Role, text string) {
		x := x0 + length
		items = append(items, Line{role, orb.LineString{{x, top}, {x, bottom}}},
			Line{RoleDim, orb.LineString{{x, bottom + k}, {x, y + k}}},
			Line{RoleDim, orb.LineString{{x0, bottom + k}, {x0, y + k}}})
		items = append(items, arrow(RoleDim, orb.Point{x0, y}, orb.Point{x, y}, 2*k, true)...)
		items = append(items, p.beside(x0, x, y, text)...)
	}
	level(bottom+6.5*k, m.Used, RoleMark, "used "+m.used())
	level(bottom+12*k, m.length(), RoleEdge, "to buy "+m.toBuy())
	x := x0 + m.length() + 5*k
	items = append(items, Line{RoleDim, orb.LineString{{x - 4*k, top}, {x + k, top}}}, Line{RoleDim, orb.LineString{{x - 4*k, bottom}, {x + k, bottom}}})
	items = append(items, arrow(RoleDim, orb.Point{x, top}, orb.Point{x, bottom}, 2*k, true)...)
	width := "width " + measure.Both(m.Width, m.Unit)
	size := math.Min(textDim*k, m.Width/textWidth(width, 1))
	return append(items, Text{Role: RoleNote, At: orb.Point{x + 3.5*k, (top + bottom) / 2}, Anchor: Middle, Size: size, Turn: 90, Body: width})
}

// beside writes the text of a level dimension line: in a break in its middle or,
// where it is too short for that, after its end.
func (p page) beside(x0, x1, y float64, text string) []Item {
	size := textDim * p.k
	w := textWidth(text, size)
	if w > 0.8*(x1-x0) {
		return []Item{Text{Role: RoleNote, At: orb.Point{x1 + 2*p.k, y}, Size: size, Body: text}}
	}
	mid := (x0 + x1) / 2
	ground := box(mid-w/2, y-size*0.6, mid+w/2, y+size*0.6)
	return []Item{
		Shape{Role: RoleGround, Ring: ground},
		Text{Role: RoleNote, At: orb.Point{mid, y}, Anchor: Middle, Size: size, Body: text},
	}
}

// bar is one choice of scale bar: how long, in how many parts.
type bar struct {
	count, parts int
	unit         measure.Unit
}

// Bars in rising order; the longest that is at most 70 mm of paper is drawn.
var (
	inchBars   = []bar{{1, 4, measure.Inch}, {2, 4, measure.Inch}, {6, 6, measure.Inch}, {12, 6, measure.Inch}, {18, 6, measure.Inch}, {36, 6, measure.Inch}, {2, 8, measure.Yard}, {4, 8, measure.Yard}}
	metricBars = []bar{{5, 5, measure.Centimetre}, {10, 5, measure.Centimetre}, {20, 4, measure.Centimetre}, {50, 5, measure.Centimetre}, {100, 10, measure.Centimetre}, {2, 8, measure.Metre}, {5, 10, measure.Metre}}
)

// scaleBar draws a bar in the job's unit, ticked, with the scale of the drawing.
func (p page) scaleBar() []Item {
	k, bars := p.k, inchBars
	if p.marker.Unit.Metric() {
		bars = metricBars
	}
	b := bars[0]
	for _, next := range bars {
		if float64(next.count)*next.unit.Millimetres() <= 70*k {
			b = next
		}
	}
	length := float64(b.count) * b.unit.Millimetres()
	x0, y := p.origin[0], p.bottom()+20.5*k
	items := []Item{Line{RoleDim, orb.LineString{{x0, y}, {x0 + length, y}}}}
	for i := 0; i <= b.parts; i++ {
		tick := 1.2 * k
		if i%b.parts == 0 {
			tick = 2 * k
		}
		x := x0 + length*float64(i)/float64(b.parts)
		items = append(items, Line{RoleDim, orb.LineString{{x, y}, {x, y - tick}}})
		if i < b.parts && i%2 == 0 {
			items = append(items, Shape{Role: RoleDim, Ring: box(x, y-0.6*k, x+length/float64(b.parts), y)})
		}
	}
	note := func(x, dy float64, anchor Anchor, s string) Item {
		return Text{Role: RoleNote, At: orb.Point{x, y + dy*k}, Anchor: anchor, Size: textDim * k, Body: s}
	}
	return append(items, note(x0, 2.6, Middle, "0"),
		note(x0+length, 2.6, Middle, fmt.Sprintf("%d %v", b.count, b.unit)),
		note(x0+length+8*k, 0, Start, fmt.Sprintf("1 : %.0f", k)))
}
