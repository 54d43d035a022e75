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
	for _, side := range []report.SeamSide{s.A, s.B} {
		var names []string // each piece of a side once
		for _, e := range side.Edges {
			if !slices.Contains(names, e.Piece) {
				names = append(names, e.Piece)
			}
		}
		for _, name := range names {
			i, k := find(s.Cloth, name, spreads)
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

// find returns where a piece is cut: in its cloth, or, what a facing of that is sewn to, in
// the first one that has it; k is negative where none has.
func find(cloth, piece string, spreads []plan.Spread) (i, k int) {
	for _, any := range []bool{false, true} {
		for i, s := range spreads {
			if !any && s.Cloth.ID != cloth {
				continue
			}
			if k = slices.IndexFunc(s.Cuts, func(c plan.Cut) bool { return c.Piece.Name == piece }); k >= 0 {
				return i, k
			}
		}
	}
	return 0, -1
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
