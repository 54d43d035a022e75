package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
)

// Roles and shapes that tell the cloths apart, in turn: shapes differ as well as
// colours, so that grey prints lose nothing.
var (
	dotRoles  = []sheet.Role{sheet.RoleGrain, sheet.RoleFold, sheet.RoleDim}
	dotShapes = [][]orb.Point{
		{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}},       // square
		{{0, -1.3}, {1.3, 0}, {0, 1.3}, {-1.3, 0}}, // diamond
		{{0, -1.2}, {1.2, 1}, {-1.2, 1}},           // triangle
		{{-1.3, -0.4}, {-0.4, -0.4}, {-0.4, -1.3}, {0.4, -1.3}, {0.4, -0.4}, {1.3, -0.4},
			{1.3, 0.4}, {0.4, 0.4}, {0.4, 1.3}, {-0.4, 1.3}, {-0.4, 0.4}, {-1.3, 0.4}}, // cross
	}
)

func dotAt(series int, x, y float64) sheet.Item {
	var shape orb.Ring
	for _, v := range dotShapes[series%len(dotShapes)] {
		shape = append(shape, orb.Point{x + v[0]*dot, y + v[1]*dot})
	}
	return sheet.Shape{Role: dotRoles[series%len(dotRoles)], Ring: append(shape, shape[0])}
}

// curves draws the points of every cloth, joined by lines, with what is bought
// beside each and a dash where a bound is lower.
func (p *picture) curves(all []series, xs []float64, up func(mm float64) float64) {
	for k, s := range all {
		var path orb.LineString
		for i, b := range s.bought {
			if !math.IsNaN(b) {
				path = append(path, orb.Point{xs[i], up(b)})
			}
		}
		p.line(dotRoles[k%len(dotRoles)], path...)
	}
	for i, x := range xs {
		var labels []label
		for k, s := range all {
			if math.IsNaN(s.bought[i]) {
				continue
			}
			y := up(s.bought[i])
			p.add(dotAt(k, x, y))
			if s.least[i] < s.bought[i] {
				low := up(s.least[i])
				p.line(sheet.RoleMark, orb.Point{x - 5, low}, orb.Point{x + 2, low})
			}
			labels = append(labels, label{y - 1.2, inUnit(s.bought[i], s.per)})
		}
		for _, l := range spread(labels) {
			w := float64(len(l.body)) * small * digit
			p.add(sheet.Shape{Role: sheet.RoleGround, Ring: ring(x+2.2, l.y-small*0.55, x+2.8+w, l.y+small*0.55)})
			p.text(sheet.RoleNote, x+2.5, l.y, small, l.body)
		}
	}
}

// label is a text beside a point.
type label struct {
	y    float64
	body string
}

// spread moves labels apart, upward, until none covers another.
func spread(labels []label) []label {
	slices.SortStableFunc(labels, func(a, b label) int {
		switch {
		case a.y > b.y:
			return -1
		case a.y < b.y:
			return 1
		}
		return 0
	})
	for i := 1; i < len(labels); i++ {
		labels[i].y = min(labels[i].y, labels[i-1].y-tall)
	}
	return labels
}

// under writes below the axis what each value is, what it costs, and why it was
// not laid.
func (p *picture) under(q *quantity, xs []float64) {
	rows := 2
	for i, v := range q.values {
		p.line(sheet.RoleDim, orb.Point{xs[i], p.y}, orb.Point{xs[i], p.y + 1.2})
		role := sheet.RoleNote
		lines := []string{v.name}
		switch {
		case v.row.Report == nil:
			lines = append(lines, "not laid")
		case v.row.Amount() != "":
			lines = append(lines, v.row.Amount())
		}
		if change := v.row.change(); change != "" {
			lines = append(lines, change)
		}
		if v.row.Best {
			role = sheet.RoleHeading
			lines = append(lines, "best")
		}
		rows = max(rows, len(lines))
		for n, line := range lines {
			p.centred(role, xs[i], p.y+3.2+float64(n)*text*1.25, small, line)
		}
	}
	p.y += 2.5 + float64(rows)*text*1.25
}

// tell names the cloths by their points, and what is to know about the picture.
func (p *picture) tell(all, same []series, even bool) {
	x := edge
	for k, s := range all {
		w := 5 + float64(len(s.id))*text*letter + 4
		if x > edge && x+w > edge+plot {
			x, p.y = edge, p.y+text*1.6
		}
		p.add(dotAt(k, x+dot*1.3, p.y))
		p.text(sheet.RoleNote, x+5, p.y, text, s.id)
		x += w
	}
	p.y += text * 1.6
	var notes []string
	var kept []string
	for _, s := range same {
		laid := slices.IndexFunc(s.bought, func(b float64) bool { return !math.IsNaN(b) })
		kept = append(kept, fmt.Sprintf("%s %s", s.id, measure.FormatUp(s.bought[laid], s.per)))
	}
	if kept != nil {
		notes = append(notes, "The same everywhere: "+strings.Join(kept, ", ")+".")
	}
	switch counts := func(of func(Row) string) bool {
		return slices.ContainsFunc(p.Rows, func(w Row) bool { return of(w) != "" })
	}; {
	case counts(func(w Row) string { return w.Price }):
		notes = append(notes, "Below each value: what the gown costs, "+p.Currency+".")
	case counts(func(w Row) string { return w.Cost }):
		notes = append(notes, "Below each value: what all cloth costs, "+p.Currency+".")
	}
	if slices.ContainsFunc(all, func(s series) bool {
		for i := range s.bought {
			if s.least[i] < s.bought[i] {
				return true
			}
		}
		return false
	}) {
		notes = append(notes, "Dashes: no layout could undercut this. Where there is none the purchase is proved minimal.")
	}
	if even {
		notes = append(notes, "The values stand evenly, not to scale.")
	}
	for i := range p.Rows {
		if w := &p.Rows[i]; w.Report == nil {
			notes = append(notes, w.Name+" was not laid: "+w.Brief+".")
		}
	}
	for _, note := range notes {
		for _, line := range fold(note, 90) {
			p.text(sheet.RoleNote, edge, p.y+small/2, small, line)
			p.y += small * 1.4
		}
	}
}
