package report

import (
	"fmt"

	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// Closed is what closes an opening of a part. Lengths are in mm.
type Closed struct {
	Part   string  `json:"part"`
	Cloth  string  `json:"cloth"`
	At     string  `json:"at"`             // centre back or centre front, left or right
	Seam   string  `json:"seam,omitempty"` // at a side: the seam that opens there
	From   string  `json:"from"`           // where it is measured from: top, or waist of a seam that runs up from it
	By     string  `json:"by"`
	Length float64 `json:"length"`           // closed; of a busk the longest that goes in
	Places int     `json:"places,omitempty"` // eyelets, buttons or hooks on each edge
	Pitch  float64 `json:"pitch,omitempty"`  // from one to the next
	First  float64 `json:"first,omitempty"`  // from the top, and the last from the end
	Inset  float64 `json:"inset,omitempty"`  // of eyelets from the edge
	Set    int     `json:"set,omitempty"`    // in one such part in all
	Stand  float64 `json:"stand,omitempty"`  // how far both halves go on beyond the centre, and buttons have buttonholes
}

// closedOf lists what closes the openings of a draft.
func closedOf(part, cloth string, made draft.Result) []Closed {
	var all []Closed
	for _, c := range made.Closed {
		one := Closed{Part: part, Cloth: cloth, At: c.At, Seam: c.Seam, From: c.From, By: string(c.By),
			Length: c.Length, Stand: c.Stand}
		if c.By == draft.Busk {
			one.First = c.First
		}
		if c.Places > 0 {
			one.Places, one.Pitch, one.First, one.Set = c.Places, c.Pitch, c.First, c.Set()
			if c.By == draft.Lacing {
				one.Inset = c.Inset
			}
		}
		all = append(all, one)
	}
	return all
}

// set says how many there are on each edge.
func (c Closed) set() string {
	what := map[string][2]string{"lacing": {"eyelet", "eyelets"}, "buttons": {"button and loop", "buttons and loops"},
		"hooks": {"hook and eye", "hooks and eyes"}}[c.By]
	if c.Stand > 0 {
		what = [2]string{"button and buttonhole", "buttons and buttonholes"}
	}
	words := fmt.Sprintf("%d %s", c.Places, what[min(c.Places, 2)-1])
	if c.By == "lacing" {
		return words + " on each edge"
	}
	return words
}

// where says which opening it is.
func (c Closed) where() string {
	if c.Seam == "" {
		return c.At
	}
	return c.At + " " + c.Seam
}

// Words say how an opening is closed.
func (c Closed) Words(unit measure.Unit) string {
	show := func(mm float64) string { return measure.Format(mm, unit) }
	text := fmt.Sprintf("%s in %s, %s: %s, %s from the %s", c.Part, c.Cloth, c.where(), c.By, show(c.Length), c.From)
	if c.By == string(draft.Busk) {
		return fmt.Sprintf("%s in %s, %s: a busk of %s at the most, which ends %s from both edges.", c.Part, c.Cloth,
			c.where(), show(c.Length), show(c.First))
	}
	if c.Places == 0 {
		return text + "."
	}
	text += ", " + c.set()
	if c.Places > 1 {
		text += fmt.Sprintf(", %s apart", show(c.Pitch))
	}
	text += fmt.Sprintf(", the first %s from the %s", show(c.First), c.From)
	if c.Inset > 0 {
		text += fmt.Sprintf(", %s in from the edge", show(c.Inset))
	}
	return text + "."
}

// closed adds what closes the openings of the part: zips and plackets, which are sewn in
// once it is together, or what is set when all else is done.
func (m made) closed(list []Seam, set bool) []Seam {
	for i, c := range closedOf(m.part.Name, m.cloth, m.made) {
		if set != (c.Places > 0) {
			continue
		}
		what := c.By
		if c.Places > 0 {
			what = c.set()
		}
		list = append(list, Seam{
			Part: m.part.Name, Cloth: m.cloth, Body: m.part.Body, Name: c.By + ", " + c.where(), Times: m.made.Closed[i].Times,
			A: SeamSide{Edges: []SeamEdge{}, Onto: "both edges of the opening", Cut: c.Length, Finished: c.Length},
			B: SeamSide{Edges: []SeamEdge{}, Onto: what, Cut: c.Length, Finished: c.Length},
		})
	}
	return list
}
