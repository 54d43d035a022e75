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
	start, far := l.start(), l.far()
	show := func(mm float64) string { return measure.BothUp(mm, l.unit) }
	levels := []level{{l.origin[0], l.used(), RoleMark, true, "used " + show(l.Used)}}
	layers := ""
	if l.Lay.crosswise() {
		layers = ", in two layers"
	}
	if with := l.Used + 2*l.Ends; l.Ends > 0 {
		levels = append(levels, level{from: start, to: l.used() + l.Ends, text: "with ends " + show(with) + layers})
	}
	single := !l.Shelf && bought == 1 && m.Bought > 0
	if said := show(m.Needed); single && m.Needed > 0 && said != show(l.Used) {
		// The drawn length stands for the bought one: shrunk, or in two layers.
		at := start - l.Skew + l.length()*math.Min(1, m.Needed/m.Bought)
		levels = append(levels, level{start - l.Skew, at, RoleMark, true, "needed " + said + layers})
	}
	switch {
	case single || bought == 1 && len(m.Stretches) == 0:
		levels = append(levels, level{start - l.Skew, far, RoleEdge, true, "to buy " + m.toBuy() + layers})
	case l.Shelf:
		levels = append(levels, level{start - l.Skew, far, RoleEdge, true, "on the shelf " + show(l.length()) + layers})
	case l.Skew > 0 || l.length() > l.Used+2*l.Ends:
		levels = append(levels, level{start - l.Skew, far, RoleEdge, true, "spread " + show(l.length()) + layers})
	case l.Ends > 0:
		levels[1].role, levels[1].line = RoleEdge, true
	default:
		levels[0].role, levels[0].text = RoleEdge, levels[0].text+layers
	}
	if l.Lay.crosswise() {
		levels[len(levels)-1].role = RoleFoldEdge
	}
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
	var items []Item
	for i, v := range l.levels {
		y := bottom + levelFirst*k + float64(i)*levelStep*k
		if v.line {
			items = append(items, Line{v.role, orb.LineString{{v.to, top}, {v.to, bottom}}})
		}
		items = append(items, Line{RoleDim, orb.LineString{{v.to, bottom + k}, {v.to, y + k}}},
			Line{RoleDim, orb.LineString{{v.from, bottom + k}, {v.from, y + k}}})
		items = append(items, arrow(RoleDim, orb.Point{v.from, y}, orb.Point{v.to, y}, 2*k, true)...)
		items = append(items, l.beside(v, y)...)
	}
	x := l.far() + (5+l.farRoom())*k
	items = append(items, Line{RoleDim, orb.LineString{{x - 4*k, top}, {x + k, top}}}, Line{RoleDim, orb.LineString{{x - 4*k, bottom}, {x + k, bottom}}})
	items = append(items, arrow(RoleDim, orb.Point{x, top}, orb.Point{x, bottom}, 2*k, true)...)
	width := "width "
	if l.folded() < l.Width {
		width = "folded "
	}
	return append(items, l.upright(x+3.5*k, textDim, width+measure.Both(l.folded(), l.unit)))
}

// beside writes the text of a dimension: in a break in its middle or, where it is
// too short for that, behind all of the dimensions.
func (l lay) beside(v level, y float64) []Item {
	size := textDim * l.k
	w := textWidth(v.text, size)
	if w > 0.8*(v.to-v.from) {
		return []Item{Text{Role: RoleNote, At: orb.Point{l.levels[len(l.levels)-1].to + 2*l.k, y}, Size: size, Body: v.text}}
	}
	mid := (v.from + v.to) / 2
	ground := box(mid-w/2, y-size*0.6, mid+w/2, y+size*0.6)
	return []Item{
		Shape{Role: RoleGround, Ring: ground},
		Text{Role: RoleNote, At: orb.Point{mid, y}, Anchor: Middle, Size: size, Body: v.text},
	}
}
