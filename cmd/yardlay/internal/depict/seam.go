package depict

import (
	"fmt"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
)

// Seam describes the pieces on both sides of a seam beside each other, each as drafted,
// with the edges that are sewn lit up. A side that is a line of another part has no piece.
func Seam(s report.Seam, spreads []plan.Spread, unit measure.Unit) sheet.Pieces {
	drawn := sheet.Pieces{Title: s.Name, Unit: unit}
	i := slices.IndexFunc(spreads, func(p plan.Spread) bool { return p.Cloth.ID == s.Cloth })
	if i < 0 {
		return drawn
	}
	for _, side := range []report.SeamSide{s.A, s.B} {
		var names []string // each piece of a side once
		for _, e := range side.Edges {
			if !slices.Contains(names, e.Piece) {
				names = append(names, e.Piece)
			}
		}
		for _, name := range names {
			k := slices.IndexFunc(spreads[i].Cuts, func(c plan.Cut) bool { return c.Piece.Name == name })
			if k < 0 {
				continue
			}
			p := Pattern(spreads[i], k, unit)
			p.Lit, p.Facts = lit(side, name, spreads[i].Cuts[k], unit)
			drawn.Pieces = append(drawn.Pieces, p)
		}
	}
	return drawn
}

// lit are the edges of a piece that lie on a side of a seam, and what they are called.
func lit(side report.SeamSide, name string, cut plan.Cut, unit measure.Unit) (lines []orb.LineString, facts []string) {
	for _, e := range side.Edges {
		if e.Piece != name {
			continue
		}
		edge, ok := cut.Piece.Edge(e.Edge)
		if !ok {
			continue
		}
		fact := fmt.Sprintf("sew %s, %s", edge.Name, measure.Format(edge.Length(), unit))
		if e.Copies > 1 {
			fact = fmt.Sprintf("%s, of %d copies", fact, e.Copies)
		}
		if !slices.Contains(facts, fact) {
			lines, facts = append(lines, edge.Line), append(facts, fact)
		}
	}
	return lines, facts
}
