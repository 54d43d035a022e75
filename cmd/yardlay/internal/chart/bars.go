package chart

import (
	"slices"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
)

// Measures of the bars, mm of paper.
const (
	barHeight = 5.0
	barPitch  = 8.0
	nameWide  = 30 // letters of a bar's name in a line
	whyWide   = 72 // and of what is written in place of it: plot over small x letter
)

// Bars is a table of which every row is drawn as a bar of several parts.
type Bars struct {
	Title, Description string
	Axis               string   // what the bars measure, with its unit
	Parts              []string // what the parts of bars are called
	Rows               []Bar
	Notes              []string // a line each, at the foot
}

// Bar is one row.
type Bar struct {
	Name  string
	Best  bool
	Parts []Part
	Total string  // written at its end
	Least float64 // the dashed line, where it is below the sum of the parts; NaN for none
	Why   string  // written in place of a bar that there is none of
}

// Part is a stretch of a bar.
type Part struct {
	Of    int // into Bars.Parts
	Value float64
	Label string // written in it where there is room
}

// Drawing draws the bars, from the top down in the order of the rows.
func (b Bars) Drawing() sheet.Drawing {
	c := begin(b.Title, b.Description)
	c.key(b.Parts, text/2-0.2, nameWide*text*letter+plot, func(i int, x float64) sheet.Item {
		return sheet.Shape{Role: sheet.RolePiece, Ring: sheet.Box(x, c.y-0.4, x+4, c.y+text), Tint: i}
	})
	c.y += text * 2
	at, decimals := ticks(b.most())
	x0 := edge + nameWide*text*letter + 2
	per := plot / at[len(at)-1]
	top := c.y
	mark := len(c.items) // the lines of the axis lie under the bars
	for _, row := range b.Rows {
		c.bar(row, x0, per)
	}
	var under []sheet.Item
	for _, v := range at {
		x := x0 + v*per
		under = append(under, sheet.Line{Role: sheet.RoleDim, Path: orb.LineString{{x, top}, {x, c.y + 1}}})
		c.centred(sheet.RoleNote, x, c.y+3, small, number(v, decimals))
	}
	c.items = slices.Insert(c.items, mark, under...)
	c.centred(sheet.RoleNote, x0+plot/2, c.y+7.5, text, b.Axis)
	c.y += 10
	c.notes(b.Notes)
	c.right = max(c.right, x0+plot)
	return c.end()
}

// most is what the longest bar sums to.
func (b Bars) most() float64 {
	most := 0.0
	for _, row := range b.Rows {
		sum := 0.0
		for _, part := range row.Parts {
			sum += part.Value
		}
		most = max(most, sum)
	}
	return most
}

// bar draws one row.
func (c *canvas) bar(b Bar, x0, per float64) {
	names := fold(b.Name, nameWide)
	var why []string
	if b.Why != "" {
		why = fold(b.Why, whyWide)
	}
	pitch := max(barPitch, float64(len(names))*text*1.25+2, float64(len(why))*small*1.2+2)
	mid := c.y + pitch/2
	role := sheet.RoleNote
	if b.Best {
		role = sheet.RoleHeading
	}
	for i, name := range names {
		c.text(role, edge, mid+(float64(i)-float64(len(names)-1)/2)*text*1.25, text, name)
	}
	defer func() { c.y += pitch }()
	if why != nil {
		c.why(why, x0+2, mid)
		return
	}
	x := x0
	for _, part := range b.Parts {
		w := part.Value * per
		c.add(sheet.Shape{Role: sheet.RolePiece, Ring: sheet.Box(x, mid-barHeight/2, x+w, mid+barHeight/2),
			Tint: part.Of})
		if float64(len(part.Label))*small*digit < w-1 {
			c.centred(sheet.RoleNote, x+w/2, mid, small, part.Label)
		}
		x += w
	}
	if least := x0 + b.Least*per; least < x-0.2 {
		c.line(sheet.RoleMark, orb.Point{least, mid - barHeight/2 - 0.8}, orb.Point{least, mid + barHeight/2 + 0.8})
	}
	total := b.Total
	if b.Best {
		total += ", the best"
	}
	under := sheet.Box(x+1, mid-text*0.6, x+2+float64(len(total))*text*letter, mid+text*0.6)
	c.add(sheet.Shape{Role: sheet.RoleGround, Ring: under})
	c.text(role, x+2, mid, text, total)
}

// why writes what there is to say in place of a bar.
func (c *canvas) why(lines []string, x, mid float64) {
	h := float64(len(lines)) * small * 1.2
	c.add(sheet.Shape{Role: sheet.RoleGround, Ring: sheet.Box(x-1, mid-h/2, x+plot, mid+h/2)})
	for i, line := range lines {
		c.text(sheet.RoleNote, x, mid+(float64(i)-float64(len(lines)-1)/2)*small*1.2, small, line)
	}
}
