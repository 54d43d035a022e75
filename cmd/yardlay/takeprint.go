package main

import (
	"fmt"
	"math"
	"strings"

	"yardlay/cmd/yardlay/internal/take"
	"yardlay/shapes/measure"
	"yardlay/shapes/outline"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// takePrinter prints what a drawing holds.
type takePrinter struct {
	listPrinter
	*taken
	why bool // the reasons, and what the file calls things
}

// Most faults that are printed where nobody asks why.
const mostFaults = 8

// takeRow is a row of the table of pieces: number, name, size of it, area, role, copies, grain,
// faults.
const takeRow = "%4s  %-24s%19s%10s  %-6s%-9s%-6s"

// print prints the table, the unit, faults and the parts.
func (p takePrinter) print(into bool) {
	fmt.Fprint(p.out, wrapAt(p.heading(), "", p.width))
	p.table()
	p.remarks()
	if p.why {
		p.reasons()
	}
	p.faults()
	switch {
	case len(p.parts) == 0:
		p.paragraph("There is nothing to cut in it.")
	case !into:
		p.paragraph("For the job, with the id of its cloth:")
		fmt.Fprintf(p.out, "\n%s", p.tables)
	}
}

// heading says what is in the file, its size and unit.
func (p takePrinter) heading() string {
	text := fmt.Sprintf("%s: %s", p.File, say.Count(len(p.Pieces), "piece"))
	if p.Size != "" {
		text += fmt.Sprintf(" of size %s (sizes %s)", p.Size, p.SizesInWords())
	}
	text += fmt.Sprintf(" in %s.", say.Count(len(p.Found.Lines), "line"))
	guess := ""
	if p.UnitGuessed {
		guess = ", a guess"
	}
	return fmt.Sprintf("%s One unit is %s%s: %s.", text, unitWords(p.Unit.Millimetres), guess, p.Unit.Because)
}

// unitWords say how long a unit is.
func unitWords(mm float64) string {
	switch mm {
	case measure.Inches:
		return "1 in"
	case measure.Inches / 72:
		return "1/72 in"
	case measure.Inches / 96:
		return "1/96 in"
	}
	return fmt.Sprintf("%.5g mm", mm)
}

// table prints a row for each piece.
func (p takePrinter) table() {
	if len(p.Pieces) == 0 {
		return
	}
	fmt.Fprintln(p.out)
	area := "sq in"
	if p.listPrinter.unit.Metric() {
		area = "cm2"
	}
	p.row("no", "piece", "width x height "+p.listPrinter.unit.String(), area, "drawn", "cut", "grain")
	for _, piece := range p.Pieces {
		ring := piece.Outer()
		b := ring.Bound()
		size := p.shown(b.Max[0]-b.Min[0]) + " x " + p.shown(b.Max[1]-b.Min[1])
		drawn := piece.Outline.String()
		if piece.Cut != nil {
			drawn = "both"
		}
		p.row(fmt.Sprint(piece.Number), piece.Name, size, p.area(plane.Area(ring)), drawn,
			guessed(piece.Copies), grainWords(piece.Shape))
	}
}

// guessed marks what the file does not say.
func guessed(c take.Copies) string {
	if c.Said {
		return c.String()
	}
	return c.String() + " ?"
}

// shown is a size without its unit.
func (p takePrinter) shown(mm float64) string {
	return strings.TrimSuffix(measure.Format(mm, p.listPrinter.unit), " "+p.listPrinter.unit.String())
}

func (p takePrinter) area(mm2 float64) string {
	one := measure.Inches * measure.Inches
	if p.listPrinter.unit.Metric() {
		one = 100
	}
	return fmt.Sprintf("%.1f", mm2/one)
}

// grainWords say which way the grain runs in the drawing.
func grainWords(s outline.Shape) string {
	if len(s.Grain) < 2 {
		if s.Fold >= 0 {
			return "fold"
		}
		return "-"
	}
	a, b := s.Grain[0], s.Grain[len(s.Grain)-1]
	angle := math.Round(math.Atan2(b[1]-a[1], b[0]-a[0]) * 180 / math.Pi)
	switch angle = math.Mod(angle+360, 180); angle {
	case 90:
		return "up"
	case 0:
		return "level"
	}
	return fmt.Sprintf("%.0f deg", angle)
}

// row prints a row; a name too long for its column gets a line of its own.
func (p takePrinter) row(number string, cells ...string) {
	if p.width < usualColumns {
		fmt.Fprint(p.out, wrapAt(number+" "+cells[0], "", p.width), wrapAt(strings.Join(cells[1:], "; "), "    ",
			p.width))
		return
	}
	row := []any{number}
	for _, c := range cells {
		row = append(row, c)
	}
	if len([]rune(cells[0])) > 23 {
		fmt.Fprintf(p.out, "%4s  %s\n", number, cells[0])
		row[0], row[1] = "", ""
	}
	fmt.Fprintln(p.out, strings.TrimRight(fmt.Sprintf(takeRow, row...), " "))
}

// remarks say what the table leaves open.
func (p takePrinter) remarks() {
	for _, c := range p.Pieces {
		if !c.Copies.Said {
			p.paragraph("? is a guess; --why says why.")
			break
		}
	}
	if p.more > 0 {
		p.paragraph(fmt.Sprintf("The PDF has %s more: --page takes another one.", say.Count(p.more, "page")))
	}
	for _, note := range p.LeftOut[:min(len(p.LeftOut), mostFaults)] {
		p.paragraph("Left out: " + note + ".")
	}
}

// reasons print, a piece after the other, what the file calls it and why it is read so.
func (p takePrinter) reasons() {
	for _, piece := range p.Pieces {
		text := fmt.Sprintf("%d %s: %s", piece.Number, piece.Name, piece.Place)
		if m := piece.Marked(); m != "" {
			text += ", " + m
		}
		text += fmt.Sprintf(", %s, %s; %s, %s", say.Count(piece.Lines, "line"), say.Count(piece.Corners, "corner"),
			notchesIn(len(piece.Notches)), say.Count(len(piece.Darts), "dart"))
		p.paragraph(text + ".")
		for _, why := range piece.Because {
			fmt.Fprint(p.out, wrapAt(why, "  ", p.width))
		}
		fmt.Fprint(p.out, wrapAt(fmt.Sprintf("Cut %s: %s.", piece.Copies, piece.Copies.Because), "  ", p.width))
		var edges []string
		for _, e := range piece.Edges[:min(len(piece.Edges), mostEdges)] {
			edges = append(edges, fmt.Sprintf("%s %s", e.Name, measure.Format(plane.Length(e.Line), p.listPrinter.unit)))
		}
		if n := len(piece.Edges) - mostEdges; n > 0 {
			edges = append(edges, fmt.Sprintf("%d more", n))
		}
		fmt.Fprint(p.out, wrapAt("Edges: "+strings.Join(edges, ", ")+".", "  ", p.width))
	}
}

// mostEdges is how many edges of a piece are listed.
const mostEdges = 40

func notchesIn(n int) string {
	if n == 1 {
		return "1 notch"
	}
	return fmt.Sprintf("%d notches", n)
}

// faults prints what is wrong and what was mended, by the numbers of the picture: what stops
// first. Ends that were joined are many in what is traced, and told in one line.
func (p takePrinter) faults() {
	shown, left, joined := 0, 0, 0
	for _, stops := range []bool{true, false} {
		for i, f := range p.Faults {
			switch {
			case f.Kind.Stops() != stops:
			case f.Kind == outline.Joined && !p.why:
				joined++
			case !p.why && shown == mostFaults:
				left++
			default:
				if shown == 0 {
					fmt.Fprintln(p.out)
				}
				shown++
				p.fault(i+1, f)
			}
		}
	}
	if left > 0 {
		fmt.Fprint(p.out, wrapAt(fmt.Sprintf("(%d more: --why tells all)", left), "", p.width))
	}
	if joined > 0 {
		p.paragraph(fmt.Sprintf("Joined where ends nearly met: %s (--why tells where).",
			say.Count(joined, "place")))
	}
}

func (p takePrinter) fault(n int, f outline.Fault) {
	text := fmt.Sprintf("fault %d, %v: %s", n, f.Kind, f.What.In(p.show()))
	if f.Place != "" {
		text += fmt.Sprintf(", at %s (%s)", plane.Place(f.At).In(p.show()), f.Place)
	}
	fmt.Fprint(p.out, wrapAt(text, "", p.width))
	if f.Hint != "" {
		fmt.Fprint(p.out, wrapAt(f.Hint, "  ", p.width))
	}
}
