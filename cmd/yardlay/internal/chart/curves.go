package chart

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
)

// Measures of points, mm of paper.
const (
	dot  = 1.5 // half the size of a point
	tall = 3.6 // of a label beside it
)

// Roles and shapes that tell the series apart, in turn: shapes differ as well as
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

// curves draws the points of every series, joined by lines, with their labels
// beside them, none above the top, and a dash where the least is lower.
func (c *canvas) curves(all []Series, xs []float64, up func(v float64) float64, top float64) {
	for k, s := range all {
		var path orb.LineString
		for i, v := range s.Values {
			if !math.IsNaN(v) {
				path = append(path, orb.Point{xs[i], up(v)})
			}
		}
		c.line(dotRoles[k%len(dotRoles)], path...)
	}
	for i, x := range xs {
		var labels []label
		for k, s := range all {
			if math.IsNaN(s.Values[i]) {
				continue
			}
			y := up(s.Values[i])
			c.add(dotAt(k, x, y))
			if s.Least[i] < s.Values[i] {
				low := up(s.Least[i])
				c.line(sheet.RoleMark, orb.Point{x - 5, low}, orb.Point{x + 2, low})
			}
			labels = append(labels, label{y - 1.2, s.Labels[i]})
		}
		for _, l := range spread(labels, top) {
			w := float64(len(l.body)) * small * digit
			c.add(sheet.Shape{Role: sheet.RoleGround, Ring: sheet.Box(x+2.2, l.y-small*0.55, x+2.8+w, l.y+small*0.55)})
			c.text(sheet.RoleNote, x+2.5, l.y, small, l.body)
		}
	}
}

// label is a text beside a point.
type label struct {
	y    float64
	body string
}

// spread moves labels apart until none covers another: upward, and down again from the
// top where they would go above it.
func spread(labels []label, top float64) []label {
	slices.SortStableFunc(labels, func(a, b label) int { return cmp.Compare(b.y, a.y) })
	for i := 1; i < len(labels); i++ {
		labels[i].y = min(labels[i].y, labels[i-1].y-tall)
	}
	for i := len(labels) - 1; i >= 0; i-- {
		labels[i].y, top = max(labels[i].y, top), max(labels[i].y, top)+tall
	}
	return labels
}
