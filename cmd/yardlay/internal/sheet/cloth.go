package sheet

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/measure"
)

// lay is a stretch in its place on the page.
type lay struct {
	Stretch
	k      float64
	unit   measure.Unit
	cloth  string
	origin orb.Point // where the stretch's (0, 0) lies
	head   *column   // says what it is; empty for a plain marker
	levels []level   // dimensions along it
}

// lay places a stretch below what is on the page; corner is the x of its origin
// and the least y it may take up.
func (p *page) lay(s Stretch, corner orb.Point, all []Stretch) lay {
	k := p.k
	l := lay{Stretch: s, k: k, unit: p.marker.Unit, cloth: p.marker.Cloth, head: p.column(corner[1])}
	if said := s.said(p.marker, len(all) > 1); said != "" {
		l.head.y += 2 * k
		l.head.add(RoleHeading, textNote*k, said)
		notes := s.Notes
		if len(notes) == 0 {
			notes = []string{layHints[s.Lay]}
		}
		for _, n := range notes {
			l.head.add(RoleNote, textDim*k, n)
		}
		l.head.y += k
	}
	l.origin = orb.Point{corner[0], l.head.y + (3+textSelvedge)*k + s.folded() - s.below()}
	l.levels = l.dimensions(p.marker, bought(all))
	return l
}

// said names a stretch over its drawing, where there is anything to tell.
func (s Stretch) said(m Marker, several bool) string {
	if !several && s.Name == "" && s.Lay == Open && len(s.Notes) == 0 && !s.Shelf {
		return ""
	}
	said := layNames[s.Lay]
	switch {
	case s.Shelf:
		said = "from the shelf: " + said
	case several && s.Name == "":
		said = "off the bolt: " + said
	}
	if s.Name != "" {
		said = s.Name + ", " + said
	}
	if width := measure.Both(s.Width, m.Unit); width != measure.Both(m.Width, m.Unit) {
		said += ", cloth " + width + " wide"
	}
	return said
}

// groups draws the lay from the ground up.
func (l lay) groups(p *page) []Group {
	title := "cloth: " + l.cloth
	if l.Name != "" {
		title += ", " + l.Name
	}
	var groups []Group
	if len(l.head.items) > 0 {
		groups = append(groups, Group{Items: l.head.items})
	}
	groups = append(groups, Group{Title: title, Items: l.ground(), Origin: &l.origin})
	for _, f := range l.Flaws {
		groups = append(groups, l.flaw(f))
	}
	for _, pl := range l.Pieces {
		groups = append(groups, p.piece(pl, l))
	}
	return append(groups, Group{Items: l.marks()})
}

// onto moves a point of the stretch to the page.
func (l lay) onto(p orb.Point) orb.Point { return orb.Point{l.origin[0] + p[0], l.origin[1] - p[1]} }

// Edges of the lay on the page: top and bottom are the outer ones, start is
// where the squared cut end lies and far the other end of the cloth.
func (l lay) bottom() float64 { return l.origin[1] + l.below() }
func (l lay) top() float64    { return l.bottom() - l.folded() }
func (l lay) start() float64  { return l.origin[0] - l.Ends }
func (l lay) far() float64    { return l.start() - l.Skew + l.length() }
func (l lay) used() float64   { return l.origin[0] + l.Used }

// end is the height below which the page is free again.
func (l lay) end() float64 {
	return l.bottom() + levelFirst*l.k + float64(len(l.levels)-1)*levelStep*l.k
}

// ground draws the cloth, what of it is not laid on, the edges and their names.
func (l lay) ground() []Item {
	top, bottom, start, end, far := l.top(), l.bottom(), l.start(), l.used()+l.Ends, l.far()
	items := []Item{Shape{Role: RoleCloth, Ring: Box(start, top, end, bottom)}}
	if far > end {
		items = append(items, Shape{Role: RoleSpare, Ring: Box(end, top, far, bottom)})
	}
	if l.Skew > 0 {
		items = append(items, Shape{Role: RoleSpare,
			Ring: orb.Ring{{start, bottom}, {start, top}, {start - l.Skew, top}, {start, bottom}}})
	}
	if l.above() > 0 {
		items = append(items, Shape{Role: RoleSelvedge, Ring: Box(start, top, far, top+l.above())})
	}
	if l.below() > 0 {
		items = append(items, Shape{Role: RoleSelvedge, Ring: Box(start, bottom-l.below(), far, bottom)})
	}
	laid := Box(start, top+l.above(), far, bottom-l.below())
	items = append(items, l.Repeat.ruling(laid, l.origin, l.k)...)
	if l.Ends > 0 {
		items = append(items, hatched(RoleHatch, Box(start, top, l.origin[0], bottom), endStep*l.k, 45)...)
		items = append(items, hatched(RoleHatch, Box(l.used(), top, end, bottom), endStep*l.k, 45)...)
	}
	items = append(items, l.middle()...)
	return append(items, l.edges()...)
}

// middle draws the band of a double fold where the selvedges meet, and names it.
func (l lay) middle() []Item {
	if l.Lay != DoubleFold {
		return nil
	}
	k, start, far, y := l.k, l.start(), l.far(), (l.top()+l.bottom())/2
	var items []Item
	if l.Selvedge > 0 {
		items = append(items, Shape{Role: RoleSelvedge, Ring: Box(start, y-l.Selvedge, far, y+l.Selvedge)})
	}
	items = append(items, Line{RoleEdge, orb.LineString{{start, y}, {far, y}}})
	items = append(items, arrow(RoleDim, orb.Point{far + 3.2*k, y}, orb.Point{far + 0.4*k, y}, 1.6*k, false)...)
	return append(items, l.upright(far+5*k, textSelvedge, "selvedges meet: do not cut across"))
}

// edges draws the edges along the cloth and its cut end, and names them.
func (l lay) edges() []Item {
	k, top, bottom, start, far := l.k, l.top(), l.bottom(), l.start(), l.far()
	upper, lower := "edge of the cloth", "edge of the cloth"
	if l.Selvedge > 0 {
		upper, lower = "selvedge", "selvedge"
	}
	if l.Lay.double() {
		upper, lower = plural(upper), plural(lower)
	}
	if l.Lay == LengthwiseFold || l.Lay == DoubleFold {
		lower = "fold"
	}
	if l.Lay == DoubleFold {
		upper = "fold"
	}
	items := []Item{Line{RoleEdge, orb.LineString{{start, top}, {far, top}}},
		Line{RoleEdge, orb.LineString{{start, bottom}, {far, bottom}}}}
	cut := "cut end"
	if l.Lay.crosswise() {
		cut = "cut ends"
	}
	if l.Skew > 0 {
		items = append(items, Line{RoleEdge, orb.LineString{{start, bottom}, {start - l.Skew, top}, {start, top}}})
		cut += ", " + measure.Format(l.Skew, l.unit) + " off square"
	}
	name := func(y float64, s string) Item {
		return Text{Role: RoleNote, At: orb.Point{l.origin[0] + k, y}, Size: textSelvedge * k, Body: s}
	}
	items = append(items, Line{RoleEdge, orb.LineString{{start, top}, {start, bottom}}},
		name(top-textSelvedge*0.8*k, upper))
	items = append(items, l.warp(l.origin[0]+textWidth(upper, textSelvedge*k)+5*k, top-textSelvedge*0.8*k)...)
	items = append(items, name(bottom+textSelvedge*0.8*k, lower), l.upright(start-l.Skew-3*k, textDim, cut))
	switch l.Lay {
	case CrosswiseFold:
		items = append(items, l.upright(far+3*k, textSelvedge, "fold"))
	case CrosswiseTurned:
		items = append(items, l.upright(far+3*k, textSelvedge, "fold: cut along it, turn the upper layer"))
	}
	return items
}

// warpArrow is the length of the arrow that shows the warp, mm of paper.
const warpArrow = 12.0

// warp shows which way the warp of the cloth runs, from x on beside the name of its
// upper edge.
func (l lay) warp(x, y float64) []Item {
	end := x + warpArrow*l.k
	return append(arrow(RoleGrain, orb.Point{x, y}, orb.Point{end, y}, 1.6*l.k, true),
		Text{Role: RoleNote, At: orb.Point{end + l.k, y}, Size: textSelvedge * l.k, Body: "warp"})
}

// folds draws the edges that are folds, over what lies against them: nobody is to
// cut there.
func (l lay) folds() []Item {
	top, bottom, start, far := l.top(), l.bottom(), l.start(), l.far()
	lower, upper := Line{RoleFoldEdge, orb.LineString{{start, bottom}, {far, bottom}}}, Line{RoleFoldEdge,
		orb.LineString{{start, top}, {far, top}}}
	switch l.Lay {
	case LengthwiseFold:
		return []Item{lower}
	case DoubleFold:
		return []Item{lower, upper}
	case CrosswiseFold, CrosswiseTurned:
		return []Item{Line{RoleFoldEdge, orb.LineString{{far, top}, {far, bottom}}}}
	}
	return nil
}

func plural(edge string) string {
	if edge == "selvedge" {
		return "selvedges"
	}
	return "edges of the cloth"
}

// upright is a text along an end of the cloth, size in mm of paper; it is made
// smaller where it would be longer than the lay is wide.
func (l lay) upright(x, size float64, s string) Text {
	size = math.Min(size*l.k, l.folded()/textWidth(s, 1))
	return Text{Role: RoleNote, At: orb.Point{x, (l.top() + l.bottom()) / 2}, Anchor: Middle, Size: size,
		Turn: 90, Body: s}
}
