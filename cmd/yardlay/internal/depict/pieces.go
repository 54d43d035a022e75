package depict

import (
	"fmt"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
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
	o := sheet.Outline{Cut: p.Cut, Seam: p.Seam, Grain: p.Grain}
	o.Inside = append(o.Inside, p.Inside...)
	for _, n := range p.Names {
		o.Names = append(o.Names, sheet.LineName{Line: n.Line, Name: n.Name})
	}
	for _, n := range p.Notches {
		o.Notches = append(o.Notches, sheet.Notch{At: n.At, Outward: n.Outward})
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
