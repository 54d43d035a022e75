package depict

import (
	"fmt"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/nest"
	"yardlay/shapes"
	"yardlay/shapes/measure"
)

// cutSize shows the cut size of a piece along and across the grain: what is
// measured on the table.
func cutSize(p shapes.Piece, unit measure.Unit) string {
	along, across := p.CutSize()
	return fmt.Sprintf("%s x %s", report.Bare(along, unit), measure.Format(across, unit))
}

// Outline takes the lines of a piece over for drawing.
func Outline(p shapes.Piece) sheet.Outline {
	o := sheet.Outline{Cut: p.Cut, Seam: p.Seam, Grain: p.Grain, Darts: darts(p)}
	o.Inside = append(o.Inside, p.Inside...)
	for _, n := range p.Names {
		o.Names = append(o.Names, sheet.LineName{Line: n.Line, Name: n.Name})
	}
	for _, n := range p.Notches {
		o.Notches = append(o.Notches, sheet.Notch{At: n.At, Outward: n.Outward})
	}
	return o
}

// darts are the lines inside a piece that mark darts.
func darts(p shapes.Piece) []int {
	var lines []int
	for _, d := range p.Darts {
		e, ok := p.Edge(d.Edge)
		if !ok {
			continue
		}
		first, _ := e.At(d.Mouth.From)
		last, _ := e.At(d.Mouth.From + d.Mouth.Width)
		for i, l := range p.Inside {
			if len(l) == 3 && l[0] == first && l[2] == last {
				lines = append(lines, i)
			}
		}
	}
	return lines
}

// opened is the outline of a piece that is opened out, as some copies bear its notches.
func opened(p, whole shapes.Piece, cuts []nest.Placed) sheet.Outline {
	o := Outline(OnCopies(whole, cuts))
	if p.OnFold { // its lines stand a second time behind the first ones, mirrored
		o.Darts = darts(p)
		for _, i := range darts(p) {
			o.Darts = append(o.Darts, i+len(p.Inside))
		}
	}
	return o
}

// Pattern describes the drawing of piece i of a cloth as drafted, its grain arrow
// along the warp.
func Pattern(s plan.Spread, i int, unit measure.Unit) sheet.Pattern {
	p := s.Cuts[i].Piece
	drawn := sheet.Pattern{
		Name: p.Name,
		Facts: []string{"cut " + report.Copies(p.Count, p.Pair,
			p.OnFold) + report.CutOn(s.CutOn(i)) + ", cut size " + cutSize(p, unit)},
		Outline: Outline(p),
	}
	drawn.Outline.Grain = p.GrainLine(s.Grain(i))
	drawn.Along, drawn.Across = p.Finished()
	drawn.Fold = Fold(p)
	return drawn
}
