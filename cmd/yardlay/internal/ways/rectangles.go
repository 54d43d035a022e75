package ways

import (
	"fmt"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// sparingPaper says which cloths are cut in plain rectangles alone: strips of net take
// metres of paper and are sooner measured straight onto the cloth.
func sparingPaper(spreads []plan.Spread) []string {
	var plain, other []string
	for _, s := range spreads {
		if slices.ContainsFunc(s.Cuts, func(c plan.Cut) bool { return !rectangular(c.Piece) }) {
			other = append(other, s.Cloth.ID)
		} else {
			plain = append(plain, s.Cloth.Title)
		}
	}
	if len(plain) == 0 || len(other) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("Cut in plain rectangles alone: %s. They are sooner measured straight onto the cloth. "+
		"To spare the paper add --cloth %s.", strings.Join(plain, "; "), strings.Join(other, ","))}
}

// rectangular says whether a piece is cut along the grain and square to it.
func rectangular(p shapes.Piece) bool {
	b := plane.Bounds(p.Cut)
	return plane.Area(p.Cut) == (b.Max[0]-b.Min[0])*(b.Max[1]-b.Min[1]) && len(p.Darts) == 0
}
