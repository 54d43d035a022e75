package depict

import (
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// Sizes describes the pieces of a cloth that several bodies have, each in all its sizes. The
// start of its first edge is where the sizes meet: drafts draw each piece from the same one.
func Sizes(s plan.Spread, unit measure.Unit) []sheet.Graded {
	var all []sheet.Graded
	at := map[string]int{}
	for _, c := range s.Cuts {
		if c.Part.Body == "" || len(c.Piece.Edges) == 0 {
			continue
		}
		name := c.Part.Called + strings.TrimPrefix(c.Piece.Name, c.Part.Name)
		i, known := at[name]
		if !known {
			i = len(all)
			at[name] = i
			all = append(all, sheet.Graded{Name: name, Point: "start of the " + c.Piece.Edges[0].Name})
		}
		all[i].Sizes = append(all[i].Sizes, sheet.Size{
			Name: c.Part.Body + ": " + cutSize(c.Piece, unit), Outline: fromStart(c.Piece)})
	}
	return slices.DeleteFunc(all, func(g sheet.Graded) bool { return len(g.Sizes) < 2 })
}

// fromStart is the outline of a piece, moved so that its first edge starts at (0, 0).
func fromStart(p shapes.Piece) sheet.Outline {
	start := p.Edges[0].Line[0]
	return Posed(Outline(p), plane.Pose{At: orb.Point{-start[0], -start[1]}})
}
