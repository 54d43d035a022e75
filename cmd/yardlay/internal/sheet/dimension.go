package sheet

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/measure"
)

// Dimensions along a lay stand in levels below it, mm of paper.
const (
	levelFirst = 6.5
	levelStep  = 5.5
)

// level is one dimension along a lay, between two x of the page. A line stands
// across the cloth at its end, unless it has none.
type level struct {
	from, to float64
	role     Role
	line     bool
	text     string
}

// dimensions lists the lengths of a lay from the shortest: what the pieces use,
// what the lay takes with its ends, what is needed in all, what there is. With
// several stretches off the bolt the last two are said in the heading only.
func (l lay) dimensions(m Marker, bought int) []level {
	start, far, end := l.start(), l.far(), l.used()+l.Ends
	show := func(mm float64) string { return measure.BothUp(mm, l.unit) }
	each, both, layers := "", "", 1.0
	if l.Lay.crosswise() {
		each, both, layers = ", each layer", ", both layers", 2
	}
	levels := []level{{l.origin[0], l.used(), RoleMark, true, "used " + show(l.Used) + each}}
	if l.Ends > 0 {
		levels = append(levels, level{from: start, to: end, text: "with ends " + show(l.Used+2*l.Ends) + each})
	}
	single := !l.Shelf && bought == 1 && m.Bought > l.Skew
	if needed := show(m.Needed); single && m.Needed > 0 && needed != show(l.Used) {
		// The length drawn stands for the bought one: shrunk, or in two layers.
		at := start + (far-start)*math.Min(1, (m.Needed-l.Skew)/(m.Bought-l.Skew))
		if l.Ends > 0 && l.Skew == 0 && math.Abs(at-end) < 0.3*l.k { // the same again
			levels = levels[:1]
		}
		levels = append(levels, level{start - l.Skew, at, RoleMark, true, "needed " + needed + both})
	}
	last := func(what string) { levels = append(levels, level{start - l.Skew, far, RoleEdge, true, what}) }
	switch {
	case single || bought == 1 && len(m.Stretches) == 0:
		last("to buy " + m.toBuy() + both)
	case l.Shelf:
		last("on the shelf " + show(l.Skew+layers*(l.length()-l.Skew)) + both)
	case l.Skew > 0 || far-end > 0.3*l.k:
		last("spread " + show(l.Skew+layers*(l.length()-l.Skew)) + both)
	}
	levels[len(levels)-1].role, levels[len(levels)-1].line = RoleEdge, true
	return levels
}

// farRoom is the room for what stands at the far end of a lay, before the
// dimension of its width, mm of paper.
func (s Stretch) farRoom() float64 {
	if s.Lay.crosswise() || s.Lay == DoubleFold {
		return 5
	}
	return 0
}

// marks draws the dimensions of a lay and the lines across it at their ends.
func (l lay) marks() []Item {
	k, top, bottom := l.k, l.top(), l.bottom()
	var items, over []Item
	for i, v := range l.levels {
		y := bottom + levelFirst*k + float64(i)*levelStep*k
		if v.line {
			items = append(items, Line{v.role, orb.LineString{{v.to, top}, {v.to, bottom}}})
		}
		items = append(items, Line{RoleDim, orb.LineString{{v.to, bottom + k}, {v.to, y + k}}},
			Line{RoleDim, orb.LineString{{v.from, bottom + k}, {v.from, y + k}}})
		items = append(items, arrow(RoleDim, orb.Point{v.from, y}, orb.Point{v.to, y}, 2*k, true)...)
		said, crossed := l.say(i, y)
		if crossed {
			over = append(over, said...)
		} else {
			items = append(items, said...)
		}
	}
	items = append(items, over...)
	x := l.far() + (5+l.farRoom())*k
	items = append(items, Line{RoleDim, orb.LineString{{x - 4*k, top}, {x + k, top}}},
		Line{RoleDim, orb.LineString{{x - 4*k, bottom}, {x + k, bottom}}})
	items = append(items, arrow(RoleDim, orb.Point{x, top}, orb.Point{x, bottom}, 2*k, true)...)
	width := "width "
	if l.folded() < l.Width {
		width = "folded "
	}
	items = append(items, l.folds()...)
	return append(items, l.upright(x+3.5*k, textDim, width+measure.Both(l.folded(), l.unit)))
}

// say writes the text of a dimension at its height: in a break in its middle or,
// where it is too short for that, after its end; crossed tells that lines of the
// dimensions below run there, to be drawn before it.
func (l lay) say(i int, y float64) (items []Item, crossed bool) {
	v, size := l.levels[i], textDim*l.k
	w := textWidth(v.text, size)
	ground := func(x float64) Item { return Shape{Role: RoleGround, Ring: Box(x, y-size*0.6, x+w, y+size*0.6)} }
	if w <= 0.8*(v.to-v.from) {
		mid := (v.from + v.to) / 2
		return []Item{ground(mid - w/2), Text{Role: RoleNote, At: orb.Point{mid, y}, Anchor: Middle, Size: size,
			Body: v.text}}, false
	}
	x := v.to + 2*l.k
	for _, below := range l.levels[i+1:] {
		crossed = crossed || below.to > v.to && below.to < x+w+l.k
	}
	text := Text{Role: RoleNote, At: orb.Point{x, y}, Size: size, Body: v.text}
	if crossed {
		return []Item{ground(x), text}, true
	}
	return []Item{text}, false
}
