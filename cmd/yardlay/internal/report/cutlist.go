package report

import (
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// CutList is what is cut for a job, before anything is laid. Lengths are in mm.
type CutList struct {
	Title  string   `json:"title"`
	Pieces []Cut    `json:"pieces"`
	Tables []Table  `json:"tables"`           // of parts that are gathered or bound
	Ends   []Ends   `json:"ends,omitempty"`   // of strips that go round nothing
	Hems   []Hem    `json:"hems,omitempty"`   // that are turned up
	Closed []Closed `json:"closed,omitempty"` // openings, and how
	Boned  []Boned  `json:"boned,omitempty"`  // what has bones or a waist tape
	Seams  []Seam   `json:"seams"`            // in an order in which they can be sewn

	Remarks []string `json:"remarks,omitempty"` // what is drawn otherwise than asked for, and does not fit or turn up
	remarks []remark // the same, with what they are about
}

// Cut is one line of the cut list.
type Cut struct {
	Part     string    `json:"part"`
	Body     string    `json:"body,omitempty"` // whose it is, where the job has several
	Piece    string    `json:"piece"`
	Cloth    string    `json:"cloth"`
	Count    int       `json:"count"`
	Pair     bool      `json:"pair"`    // half of the copies are mirrored
	Grain    string    `json:"grain"`   // lengthwise, cross, either, or bias
	OnFold   bool      `json:"on_fold"` // cut on the fold, or whole from an open lay
	Finished plan.Size `json:"finished"`
	CutSize  plan.Size `json:"cut"` // allowances included
	Edges    []Rim     `json:"edges"`
}

// Rim is an edge of a whole piece; they follow each other counter-clockwise.
type Rim struct {
	Name      string  `json:"name"`
	Kind      string  `json:"kind"`
	Finish    string  `json:"finish"` // joined, turned, raw, or whole on a fold
	Length    float64 `json:"length"` // of the seam line
	Allowance float64 `json:"allowance"`
}

// Table holds the figures of a gathered part in one cloth, net layers or the
// tiers of a strip or petticoat, or those of a binding.
type Table struct {
	Part    string     `json:"part"`
	Cloth   string     `json:"cloth"`
	Layers  []NetLayer `json:"layers,omitempty"`
	Tiers   []Tier     `json:"tiers,omitempty"`
	Binding *Binding   `json:"binding,omitempty"`
}

// Ends are the two free ends of a part in one cloth, of each of its tiers where it has
// several. They are left raw without an allowance.
type Ends struct {
	Part      string  `json:"part"`
	Cloth     string  `json:"cloth"`
	Tiers     int     `json:"tiers"`
	Bound     bool    `json:"bound"`     // turned in at the ends of a binding, not hemmed
	Allowance float64 `json:"allowance"` // at each end
}

// Binding is shapes.BindingTable with names for JSON.
type Binding struct {
	CutWidth float64 `json:"cut_width"`
	Strips   int     `json:"strips"`
	Joins    int     `json:"joins"`
	Length   float64 `json:"length"`
	Cloth    float64 `json:"cloth"`
}

// NetLayer is shapes.NetLayer with names for JSON.
type NetLayer struct {
	Layer    int        `json:"layer"`
	Depth    float64    `json:"from_waist"`
	Girth    float64    `json:"gathered_onto"`
	Flat     float64    `json:"flat"`
	Fullness float64    `json:"fullness"`
	Strips   int        `json:"strips"`
	CutDepth float64    `json:"cut_depth"`
	Cloth    float64    `json:"cloth"`
	Quarters [4]float64 `json:"quarters"` // where it is pinned, along the girth from centre back
	Seams    [4]string  `json:"seams"`    // of the skirt, that these lie on; "" for none
	Open     bool       `json:"open"`     // at the centre back
}

// Tier is shapes.Tier with names for JSON.
type Tier struct {
	Tier     int     `json:"tier"`
	Edge     float64 `json:"gathered_onto"`
	Flat     float64 `json:"flat"`
	Fullness float64 `json:"fullness"`
	Strips   int     `json:"strips"`
	Depth    float64 `json:"depth"`
	CutDepth float64 `json:"cut_depth"`
	Cloth    float64 `json:"cloth"`
}

// List gathers the cut list of spreads; its remarks show lengths in the unit.
func List(j *job.Job, spreads []plan.Spread, unit measure.Unit) (CutList, error) {
	list := CutList{Title: j.Title, Pieces: []Cut{}, Tables: []Table{}}
	for _, s := range spreads {
		for i, c := range s.Cuts {
			cut := cutOf(c.Piece, c.Finished)
			cut.Part, cut.Body, cut.Cloth, cut.Grain = c.Part.Name, c.Part.Body, s.Cloth.ID, string(s.CutOn(i))
			list.Pieces = append(list.Pieces, cut)
		}
	}
	for _, part := range j.Parts {
		for i, layer := range part.Layers {
			made, err := layer.Drafted()
			if err != nil {
				return CutList{}, j.ErrorAt(part.At, say.Errorf("part `%s`: %w", part.Name, err))
			}
			t := tableOf(part.Name, layer.Cloth, made.Tables)
			if t.Layers != nil || t.Tiers != nil || t.Binding != nil {
				list.Tables = append(list.Tables, t)
			}
			if made.Ends != nil {
				list.Ends = append(list.Ends, Ends{part.Name, layer.Cloth, max(len(t.Tiers), 1), t.Binding != nil,
					made.Ends.Allowance})
			}
			if layer.Mounted != job.Underlining { // turned up as one with the outer cloth
				list.Hems = append(list.Hems, hemsOf(part.Name, layer.Cloth, made)...)
			}
			list.Closed = append(list.Closed, closedOf(part.Name, layer.Cloth, made)...)
			if i == 0 {
				list.Boned = append(list.Boned, bonedOf(part.Name, layer.Cloth, made)...)
			}
		}
	}
	var err error
	if list.Seams, err = sewing(j, spreads); err != nil {
		return CutList{}, err
	}
	list.remarks, err = remarks(j, unit)
	list.Remarks = texts(list.remarks)
	return list, err
}

func cutOf(p shapes.Piece, finished plan.Size) Cut {
	c := Cut{Piece: p.Name, Count: p.Count, Pair: p.Pair, OnFold: p.OnFold, Finished: finished}
	whole := p.Unfold()
	c.CutSize.Along, c.CutSize.Across = whole.CutSize()
	for _, e := range whole.Edges {
		c.Edges = append(c.Edges, Rim{e.Name, e.Kind.String(), e.Finish().String(), e.Length(), e.Allowance})
	}
	return c
}

// tableOf gives the figures of a draft names for JSON.
func tableOf(part, cloth string, figures draft.Tables) Table {
	t := Table{Part: part, Cloth: cloth, Binding: (*Binding)(figures.Binding)}
	for _, l := range figures.Layers {
		t.Layers = append(t.Layers, NetLayer(l))
	}
	for _, tier := range figures.Tiers {
		t.Tiers = append(t.Tiers, Tier(tier))
	}
	return t
}
