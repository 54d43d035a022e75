package paper

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
)

// calibration draws the page by which the picture is brought to full size: a grid of whole
// inches or centimetres, every tenth line bold, and a square to measure.
func (p Projector) calibration() *sheet.Drawing {
	pitch, side, unit := measure.Inches, 10*measure.Inches, "10 in"
	if p.Unit.Metric() {
		pitch, side, unit = 10.0, 250.0, "25 cm"
	}
	d := &sheet.Drawing{Title: "calibration", Width: p.Width, Height: p.Height, Scale: 1, Theme: sheet.ThemeLight}
	var fine, bold []sheet.Item
	// The grid is counted from a corner of the square, so that its sides lie on lines.
	corner := orb.Point{pitch * math.Floor((p.Width-side)/2/pitch), pitch * math.Floor((p.Height-side)/2/pitch)}
	grid := func(length float64, from float64, line func(at float64) orb.LineString) {
		for n := -math.Floor(from / pitch); from+n*pitch <= length; n++ {
			l := sheet.Line{Role: sheet.RoleRepeat, Path: line(from + n*pitch)}
			if math.Mod(n, 10) == 0 {
				l.Role = sheet.RoleEdge
				bold = append(bold, l)
				continue
			}
			fine = append(fine, l)
		}
	}
	grid(p.Width, corner[0], func(x float64) orb.LineString { return orb.LineString{{x, 0}, {x, p.Height}} })
	grid(p.Height, corner[1], func(y float64) orb.LineString { return orb.LineString{{0, y}, {p.Width, y}} })
	d.Groups = append(d.Groups, sheet.Group{Title: "grid", Items: append(fine, bold...)})
	d.Groups = append(d.Groups, sheet.Group{Title: "square of " + unit, Items: calibrated(corner, side, unit)})
	return d
}

// calibrated draws the square with its diagonals and what to do with it.
func calibrated(corner orb.Point, side float64, unit string) []sheet.Item {
	a, b := corner, orb.Point{corner[0] + side, corner[1] + side}
	items := []sheet.Item{
		sheet.Shape{Role: sheet.RolePiece, Ring: sheet.Box(a[0], a[1], b[0], b[1])},
		sheet.Line{Role: sheet.RoleSeam, Path: orb.LineString{a, b}},
		sheet.Line{Role: sheet.RoleSeam, Path: orb.LineString{{a[0], b[1]}, {b[0], a[1]}}},
	}
	words, bottom := sheet.Column(orb.Point{}, side*0.8,
		sheet.Paragraph{Role: sheet.RoleHeading, Size: lightText, Body: "each side " + unit, After: 3},
		sheet.Paragraph{Role: sheet.RoleNote, Size: lightText * 0.55, After: 3,
			Body: fmt.Sprintf("Show the page at its own "+
				"size. Move the projector until each side is %s and both diagonals are as long as each other: %.1f "+
				"cm (%.2f in). "+
				"Check the grid at the corners of the picture too.", unit, side*math.Sqrt2/10,
				side*math.Sqrt2/measure.Inches)},
		sheet.Paragraph{Role: sheet.RoleCaution, Size: lightText * 0.55,
			Body: "Do not look into the light. Lay cables where nobody trips over them."})
	top, left := corner[1]+(side-bottom)/2, corner[0]+side*0.1
	items = append(items, sheet.Shape{Role: sheet.RoleGround,
		Ring: sheet.Box(left-4, top-4, left+side*0.8+4, top+bottom+4)})
	for _, it := range words {
		t := it.(sheet.Text)
		t.At = orb.Point{t.At[0] + left, t.At[1] + top}
		items = append(items, t)
	}
	return items
}
