package chart

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
)

// Measures of the points, mm of paper.
const (
	high      = 90.0 // of the upright axis
	leastStep = 17.0 // between two values
	noteWide  = 90   // letters of a note in a line
)

// Points is a table of which every column is drawn as points against a quantity.
type Points struct {
	Title, Description string
	Across, Up         string  // what the axes measure, with the unit
	Places             []Place // rising; two at least
	Series             []Series
	Notes              []string // at the foot
}

// Place is a value of the quantity.
type Place struct {
	Value float64
	Best  bool
	Lines []string // written below it, the value itself first
}

// Series is what is measured at each place.
type Series struct {
	Name   string
	Values []float64 // NaN: none
	Least  []float64 // a dash where it is below the value
	Labels []string  // written beside the points
}

// Drawing draws the points.
func (p Points) Drawing() sheet.Drawing {
	c := begin(p.Title, p.Description)
	xs, _ := p.spaced()
	at, decimals := ticks(p.most())
	x0, top := edge+14, c.y+4
	bottom := top + high
	up := func(v float64) float64 { return bottom - v*high/at[len(at)-1] }
	width := xs[len(xs)-1] + 12
	for _, v := range at {
		y := up(v)
		c.line(sheet.RoleDim, orb.Point{x0, y}, orb.Point{x0 + width, y})
		label := number(v, decimals)
		c.text(sheet.RoleNote, x0-2-float64(len(label))*small*digit, y, small, label)
	}
	c.add(sheet.Text{
		Role: sheet.RoleNote, At: orb.Point{edge, (top + bottom) / 2}, Anchor: sheet.Middle, Size: text, Turn: 90,
		Body: p.Up,
	})
	for i := range xs {
		xs[i] += x0
	}
	c.curves(p.Series, xs, up, top)
	c.y = bottom
	c.under(p.Places, xs)
	c.centred(sheet.RoleNote, x0+width/2, c.y+text/2, text, p.Across)
	c.y += text * 2.2
	c.right = max(c.right, x0+width)
	var names []string
	for _, s := range p.Series {
		names = append(names, s.Name)
	}
	c.key(names, 0, plot, func(i int, x float64) sheet.Item { return dotAt(i, x+dot*1.3, c.y) })
	c.y += text * 1.6
	for _, note := range p.Notes {
		c.notes(fold(note, noteWide))
	}
	return c.end()
}

// most is the greatest value.
func (p Points) most() float64 {
	most := 0.0
	for _, s := range p.Series {
		for _, v := range s.Values {
			if !math.IsNaN(v) {
				most = max(most, v)
			}
		}
	}
	return most
}

// Even says that the places stand at even steps, not to scale: the closest of them would
// not stand apart.
func (p Points) Even() bool {
	_, even := p.spaced()
	return even
}

// spaced spaces the places out: in proportion when the closest then still stand
// apart, else evenly, as where all are equal.
func (p Points) spaced() (at []float64, even bool) {
	const first = 12.0
	from := p.Places[0].Value
	closest := math.Inf(1)
	for i := range p.Places[1:] {
		closest = min(closest, p.Places[i+1].Value-p.Places[i].Value)
	}
	span := p.Places[len(p.Places)-1].Value - from
	at = make([]float64, len(p.Places))
	even = span == 0 || leastStep*float64(len(at)-1) > plot || closest*plot/span < leastStep
	for i, v := range p.Places {
		if at[i] = first + (v.Value-from)/span*plot; even {
			at[i] = first + float64(i)*max(leastStep, plot/float64(len(at)-1))
		}
	}
	return at, even
}

// under writes below the axis what belongs to each place.
func (c *canvas) under(places []Place, xs []float64) {
	rows := 2
	for i, v := range places {
		c.line(sheet.RoleDim, orb.Point{xs[i], c.y}, orb.Point{xs[i], c.y + 1.2})
		role, lines := sheet.RoleNote, v.Lines
		if v.Best {
			role, lines = sheet.RoleHeading, append(lines[:len(lines):len(lines)], "best")
		}
		rows = max(rows, len(lines))
		for n, line := range lines {
			c.centred(role, xs[i], c.y+3.2+float64(n)*text*1.25, small, line)
		}
	}
	c.y += 2.5 + float64(rows)*text*1.25
}
