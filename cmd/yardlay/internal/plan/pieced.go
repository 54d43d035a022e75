package plan

import (
	"fmt"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// pieced says how piece i would fit the cloth with its corners pieced: "pieced = {} sews on 2
// corners of 4 x 14 1/2 in, or larger where that saves"; "" where it would not.
func (s Spread) pieced(i int, unit measure.Unit) string {
	part := s.Cuts[i].Part
	at := slices.IndexFunc(part.Layers, func(l job.Layer) bool { return l.Cloth == s.Cloth.ID })
	if at < 0 || part.Layers[at].Corners != nil {
		return ""
	}
	whole, err := part.Layers[at].Drafted()
	if err != nil {
		return ""
	}
	k := slices.IndexFunc(whole.Pieces, func(p shapes.Piece) bool {
		return fullName(part.Name, p.Name) == s.Cuts[i].Piece.Name
	})
	if k < 0 {
		return ""
	}
	p := whole.Pieces[k]
	made, err := job.PiecedWithin(s.Cloth, draft.WidestSeam(p)).Of(draft.Result{Pieces: []shapes.Piece{p}})
	if err != nil || len(made.Pieces) < 2 {
		return ""
	}
	alone := Spread{Cloth: s.Cloth}
	alone.add(part, made.Pieces)
	if alone.Problem().Check() != nil {
		return ""
	}
	corners := made.Pieces[1:]
	along, across := corners[0].CutSize()
	n := len(corners)
	if p.OnFold {
		n = 2
	}
	return fmt.Sprintf("`pieced = {}` sews on %s of %s x %s, or larger where that saves", say.Count(n, "corner"),
		strings.TrimSuffix(measure.FormatUp(along, measure.SizeUnit(unit)), " "+measure.SizeUnit(unit).String()),
		measure.FormatUp(across, measure.SizeUnit(unit)))
}
