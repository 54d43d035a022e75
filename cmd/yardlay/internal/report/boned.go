package report

import (
	"fmt"

	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// Boned is what stiffens a part, in its outer cloth. Lengths are in mm.
type Boned struct {
	Part  string `json:"part"`
	Cloth string `json:"cloth"`
	Bones []Bone `json:"bones,omitempty"`
	Tapes []Tape `json:"tapes,omitempty"`
}

// Bone is a boning channel and what goes into it.
type Bone struct {
	Channel string  `json:"channel"`
	Count   int     `json:"count"`
	Edge    float64 `json:"edge_to_edge"`
	Ends    float64 `json:"ends"` // how far the bone ends from each finished edge
	Length  float64 `json:"length"`
	Casing  float64 `json:"casing"` // of tape, caught in the allowances of both edges
}

// Tape is sewn on inside.
type Tape struct {
	Name   string  `json:"name"`
	Count  int     `json:"count"`
	Width  float64 `json:"width"`
	Length float64 `json:"length"` // from finished edge to finished edge
	Ends   float64 `json:"ends"`   // on top of that at each end
}

// bonedOf lists what stiffens a draft; nothing where nothing does.
func bonedOf(part, cloth string, made draft.Result) []Boned {
	if len(made.Bones)+len(made.Tapes) == 0 {
		return nil
	}
	b := Boned{Part: part, Cloth: cloth}
	for _, one := range made.Bones {
		b.Bones = append(b.Bones, Bone(one))
	}
	for _, t := range made.Tapes {
		b.Tapes = append(b.Tapes, Tape(t))
	}
	return []Boned{b}
}

// BoneHeads stand over the bones of a part.
var BoneHeads = []string{"bones", "edge to edge", "bone", "casing"}

// Grid is the table of the bones; without rows where there are none.
func (b Boned) Grid(unit measure.Unit) Grid {
	if len(b.Bones) == 0 {
		return Grid{}
	}
	g := Grid{Heads: append([]string{"channel"}, BoneHeads...), Caption: fmt.Sprintf(
		"%s in %s, in %s. A bone ends %s from each finished edge. Its casing is caught in the allowances of both.",
		b.Part, b.Cloth, UnitWords(unit), measure.Format(b.Bones[0].Ends, unit))}
	for _, one := range b.Bones {
		g.Rows = append(g.Rows, []string{one.Channel, fmt.Sprint(one.Count), Bare(one.Edge, unit),
			Bare(one.Length, unit), Bare(one.Casing, unit)})
	}
	return g
}

// Words say how the tapes of the part are cut.
func (b Boned) Words(unit measure.Unit) []string {
	show := func(mm float64) string { return measure.Format(mm, unit) }
	var all []string
	for _, t := range b.Tapes {
		what := fmt.Sprintf("%s in %s: cut a %s %s wide and %s long", b.Part, b.Cloth, t.Name, show(t.Width),
			show(t.Length+2*t.Ends))
		if t.Count > 1 {
			what = fmt.Sprintf("%s in %s: cut %d pieces of %s %s wide, each %s long", b.Part, b.Cloth, t.Count, t.Name,
				show(t.Width), show(t.Length+2*t.Ends))
		}
		all = append(all, fmt.Sprintf("%s. It goes %s from edge to edge; %s at each end is caught in. Sew it on inside, "+
			"its middle on the line that is marked.", what, show(t.Length), show(t.Ends)))
	}
	return all
}
