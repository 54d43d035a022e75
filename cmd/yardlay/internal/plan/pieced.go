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
	p, l, ok := s.drafted(i)
	if !ok || l.Corners != nil {
		return ""
	}
	made, ok := s.parts(i, p, job.PiecedWithin(s.Cloth, draft.WidestSeam(p)))
	if !ok {
		return ""
	}
	corners := made[1:]
	n := len(corners)
	if p.OnFold {
		n = 2
	}
	return fmt.Sprintf("`pieced = {}` sews on %s of %s, or larger where that saves", say.Count(n, "corner"),
		cutSize(corners[0], unit))
}

// across says how piece i, which no bolt holds, would fit the longest one cut across: ": `pieced = { length =
// "chosen" }` cuts it in parts of 40 x 22 in and 6 x 24 in, or shorter where that saves"; "" where it would not.
func (s Spread) across(i int, unit measure.Unit) string {
	p, l, ok := s.drafted(i)
	if !ok || l.Corners != nil {
		return ""
	}
	corners := job.PiecedWithin(s.Cloth, draft.WidestSeam(p))
	corners.Length = longestOnBolts(s.Cloth)
	keys := "length = \"chosen\""
	made, ok := s.parts(i, p, corners)
	if !ok {
		corners.Centre, keys = true, keys+", centre_front = true"
		made, ok = s.parts(i, p, corners)
	}
	if !ok {
		return ""
	}
	var sizes []string
	for _, part := range made {
		sizes = append(sizes, cutSize(part, unit))
	}
	return fmt.Sprintf(": `pieced = { %s }` cuts it in parts of %s, or shorter where that saves", keys,
		say.InWords(sizes, "and"))
}

// drafted returns piece i as it is drafted, whole or half on its fold, and the layer that it belongs to; ok is false
// where that is not known.
func (s Spread) drafted(i int) (p shapes.Piece, l job.Layer, ok bool) {
	part := s.Cuts[i].Part
	at := slices.IndexFunc(part.Layers, func(l job.Layer) bool { return l.Cloth == s.Cloth.ID })
	if at < 0 {
		return p, l, false
	}
	l = part.Layers[at]
	made, err := l.Drafted()
	if err != nil {
		return p, l, false
	}
	k := slices.IndexFunc(made.Pieces, func(p shapes.Piece) bool {
		return fullName(part.Name, p.Name) == s.Cuts[i].Piece.Name
	})
	if k < 0 {
		return p, l, false
	}
	return made.Pieces[k], l, true
}

// parts returns what piece i comes to, itself first, as it is pieced; ok is false where it is not cut, or its parts do
// not go on the cloth.
func (s Spread) parts(i int, p shapes.Piece, corners draft.Corners) (made []shapes.Piece, ok bool) {
	d, err := corners.Of(draft.Result{Pieces: []shapes.Piece{p}})
	if err != nil || len(d.Pieces) < 2 {
		return nil, false
	}
	alone := Spread{Cloth: s.Cloth}
	alone.add(s.Cuts[i].Part, d.Pieces)
	return d.Pieces, alone.Problem().Check() == nil
}

// cutSize is how large a piece is cut, along the grain by across it: "40 x 22 in".
func cutSize(p shapes.Piece, unit measure.Unit) string {
	along, across := p.CutSize()
	size := measure.SizeUnit(unit)
	return strings.TrimSuffix(measure.FormatUp(along, size), " "+size.String()) + " x " + measure.FormatUp(across, size)
}
