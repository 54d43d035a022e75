package compare

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
)

// Measures of the picture, mm of paper.
const (
	edge    = 8.0   // round the picture
	heading = 4.4   // size of the title
	text    = 3.0   // size of names and figures
	small   = 2.7   // size of what stands at axes
	plot    = 130.0 // length of the longer axis
	letter  = 0.66  // width of a letter over its size, seldom more in common faces
	digit   = 0.64  // width of a figure over its size, never more in common faces
)

// Best returns the row that costs least; nil when none was laid.
func (r *Result) Best() *Row {
	for i := range r.Rows {
		if r.Rows[i].Best {
			return &r.Rows[i]
		}
	}
	return nil
}

// Picture draws the comparison: what is bought against a quantity, where a
// single length or number is varied, else a bar for each row.
func (r *Result) Picture() sheet.Drawing {
	p := &picture{Result: r, y: edge}
	p.drawing = sheet.Drawing{Title: r.heading(), Description: r.description(), Scale: 1}
	p.text(sheet.RoleHeading, edge, p.y+heading/2, heading, r.heading())
	p.y += heading * 1.6
	if q := r.quantity(); q != nil {
		p.points(q)
	} else {
		p.bars()
	}
	p.drawing.Width = max(p.right+edge, 2*edge+float64(len(r.heading()))*heading*letter*1.1)
	p.drawing.Height = p.y + edge
	p.drawing.Groups = append(p.drawing.Groups, sheet.Group{Items: p.items})
	return p.drawing
}

func (r *Result) heading() string {
	if r.Title == "" {
		return "Compared"
	}
	return r.Title + ", compared"
}

// description says in a sentence what the picture shows.
func (r *Result) description() string {
	best := r.Best()
	if best == nil {
		return "No row was laid."
	}
	if best.Amount() == "" {
		return fmt.Sprintf("%d rows; the least cloth is bought for: %s.", len(r.Rows), best.Title())
	}
	return fmt.Sprintf("%d rows; the best one costs %s %s: %s.", len(r.Rows), best.Amount(), r.Currency, best.Title())
}

// picture is a drawing that grows downward.
type picture struct {
	*Result
	drawing  sheet.Drawing
	items    []sheet.Item
	y, right float64
}

func (p *picture) add(items ...sheet.Item) { p.items = append(p.items, items...) }

// text writes a line from x on, about y.
func (p *picture) text(role sheet.Role, x, y, size float64, body string) {
	p.add(sheet.Text{Role: role, At: orb.Point{x, y}, Size: size, Body: body})
	p.right = max(p.right, x+float64(len(body))*size*digit)
}

// centred writes a line about (x, y).
func (p *picture) centred(role sheet.Role, x, y, size float64, body string) {
	p.add(sheet.Text{Role: role, At: orb.Point{x, y}, Anchor: sheet.Middle, Size: size, Body: body})
	p.right = max(p.right, x+float64(len(body))*size*digit/2)
}

func (p *picture) line(role sheet.Role, path ...orb.Point) {
	p.add(sheet.Line{Role: role, Path: path})
}

// ring is a rectangle.
func ring(x0, y0, x1, y1 float64) orb.Ring {
	return orb.Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}
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

// inUnit shows a bought length without its unit.
func inUnit(mm float64, per measure.Unit) string {
	return strings.TrimSuffix(measure.FormatUp(mm, per), " "+per.String())
}

// drawn are the rows to draw: all, or the best so many with the job as written.
func (r *Result) drawn(most int) []*Row {
	var rows []*Row
	for i := range r.Rows {
		rows = append(rows, &r.Rows[i])
	}
	if len(rows) <= most {
		return rows
	}
	laid := slices.DeleteFunc(slices.Clone(rows[1:]), func(w *Row) bool { return w.Report == nil })
	slices.SortStableFunc(laid, func(a, b *Row) int {
		switch {
		case precedes(a, b):
			return -1
		case precedes(b, a):
			return 1
		}
		return 0
	})
	keep := append(laid[:min(len(laid), most-1)], rows[0])
	return slices.DeleteFunc(rows, func(w *Row) bool { return !slices.Contains(keep, w) })
}

func number(v float64, decimals int) string { return strconv.FormatFloat(v, 'f', decimals, 64) }
