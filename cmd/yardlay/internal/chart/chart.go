// Package chart draws plain tables of numbers: bars of several parts, and points
// against a quantity, joined by lines. What the numbers are of the caller says.
package chart

import (
	"math"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
)

// Measures of a chart, mm of paper.
const (
	edge    = 8.0   // round the chart
	heading = 4.4   // size of the title
	text    = 3.0   // size of names and figures
	small   = 2.7   // size of what stands at axes
	plot    = 130.0 // length of the longer axis
	letter  = 0.66  // width of a letter over its size, seldom more in common faces
	digit   = 0.64  // width of a figure over its size, never more in common faces
)

// canvas is a drawing that grows downward.
type canvas struct {
	drawing  sheet.Drawing
	items    []sheet.Item
	y, right float64
}

// begin heads a drawing with its title.
func begin(title, description string) *canvas {
	c := &canvas{y: edge}
	c.drawing = sheet.Drawing{Title: title, Description: description, Scale: 1}
	c.text(sheet.RoleHeading, edge, c.y+heading/2, heading, title)
	c.y += heading * 1.6
	return c
}

// end closes a drawing that is as large as what stands in it.
func (c *canvas) end() sheet.Drawing {
	d := c.drawing
	d.Width = max(c.right+edge, 2*edge+float64(len(d.Title))*heading*letter*1.1)
	d.Height = c.y + edge
	d.Groups = []sheet.Group{{Items: c.items}}
	return d
}

func (c *canvas) add(items ...sheet.Item) { c.items = append(c.items, items...) }

// text writes a line from x on, about y.
func (c *canvas) text(role sheet.Role, x, y, size float64, body string) {
	c.add(sheet.Text{Role: role, At: orb.Point{x, y}, Size: size, Body: body})
	c.right = max(c.right, x+float64(len(body))*size*digit)
}

// centred writes a line about (x, y).
func (c *canvas) centred(role sheet.Role, x, y, size float64, body string) {
	c.add(sheet.Text{Role: role, At: orb.Point{x, y}, Anchor: sheet.Middle, Size: size, Body: body})
	c.right = max(c.right, x+float64(len(body))*size*digit/2)
}

func (c *canvas) line(role sheet.Role, path ...orb.Point) {
	c.add(sheet.Line{Role: role, Path: path})
}

// key names what stands in a chart by its mark, side by side up to a width, and
// returns with y at its last line. mark draws that of the i-th name from x on.
func (c *canvas) key(names []string, below, width float64, mark func(i int, x float64) sheet.Item) {
	x := edge
	for i, name := range names {
		w := 5 + float64(len(name))*text*letter + 4
		if x > edge && x+w > edge+width {
			x, c.y = edge, c.y+text*1.6
		}
		c.add(mark(i, x))
		c.text(sheet.RoleNote, x+5, c.y+below, text, name)
		x += w
	}
}

// notes writes lines at the foot.
func (c *canvas) notes(lines []string) {
	for _, line := range lines {
		c.text(sheet.RoleNote, edge, c.y+small/2, small, line)
		c.y += small * 1.4
	}
}

// fold breaks a text between words into lines of at most so many letters.
func fold(s string, letters int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		if line != "" && len(line)+1+len(word) > letters {
			lines = append(lines, line)
			line = ""
		}
		line = strings.TrimSpace(line + " " + word)
	}
	return append(lines, line)
}

// ticks returns round values from 0 to at least most, at most seven of them,
// with the decimals they take.
func ticks(most float64) (at []float64, decimals int) {
	if !(most > 0) {
		most = 1
	}
	unit := math.Pow(10, math.Floor(math.Log10(most/6)))
	step := unit
	for _, times := range []float64{1, 2, 5, 10} {
		if step = times * unit; step*6 >= most {
			break
		}
	}
	for i := range int(math.Ceil(most/step-1e-9)) + 1 {
		at = append(at, float64(i)*step)
	}
	return at, max(0, -int(math.Floor(math.Log10(step)+1e-9)))
}

func number(v float64, decimals int) string { return strconv.FormatFloat(v, 'f', decimals, 64) }
