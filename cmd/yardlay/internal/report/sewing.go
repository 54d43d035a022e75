package report

import (
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/say"
)

// Seam is one line of the sewing order: which edges are sewn to which. Lengths
// are mm, of the finished lines.
type Seam struct {
	Part       string    `json:"part"`
	Cloth      string    `json:"cloth"`
	Body       string    `json:"body,omitempty"`
	Name       string    `json:"name"`
	Times      int       `json:"times"` // how often it is sewn in one such part: 2 for left and right
	A          SeamSide  `json:"a"`
	B          SeamSide  `json:"b"`
	Difference float64   `json:"difference"`        // what is left over: A finished less B finished
	Notches    []float64 `json:"notches,omitempty"` // from the start of the seam
	Gap        *Gap      `json:"gap,omitempty"`     // left open to turn the work through, closed by hand
	Opened     *Opened   `json:"opened,omitempty"`  // left open from its start, for what closes it
	Slit       *Opened   `json:"slit,omitempty"`    // left open from the hem, for the godet that is set in
}

// Opened is how far a seam is left open, from its start.
type Opened struct {
	To   float64 `json:"to"`
	From string  `json:"from"`         // what the start is: top, or waist of a seam that runs up from it; the hem
	For  string  `json:"for"`          // what closes it, or is set in
	On   string  `json:"on,omitempty"` // of a seam sewn on both sides: left or right
}

// Gap is a stretch of a seam, from its start.
type Gap struct {
	From float64 `json:"from"`
	To   float64 `json:"to"`
}

// SeamSide is one side of a seam: edges end to end.
type SeamSide struct {
	Edges    []SeamEdge `json:"edges"`
	Onto     string     `json:"onto,omitempty"` // instead of edges: the line of another part
	Cut      float64    `json:"length"`         // of the edges as drawn
	Finished float64    `json:"finished"`       // once gathers, ease, pleats and darts are worked in
	Gather   float64    `json:"gather,omitempty"`
	Ease     float64    `json:"ease,omitempty"`
	Pleats   int        `json:"pleats,omitempty"`
	Pleat    float64    `json:"pleat_depth,omitempty"`
	Darts    []float64  `json:"darts,omitempty"` // widths
	Lap      float64    `json:"lap,omitempty"`   // what lies under or over a neighbour
}

// SeamEdge is an edge of a piece on its way along a seam.
type SeamEdge struct {
	Piece    string `json:"piece"` // as in the cut list
	Edge     string `json:"edge"`
	Copies   int    `json:"copies"` // end to end
	Reversed bool   `json:"reversed,omitempty"`
}

// made is a part in one cloth as drafted, with the names its pieces have in the
// cut list.
type made struct {
	part   job.Part
	cloth  string
	on     job.Mounting // how it lies on the outer layer, with which it is sewn as one
	drawn  draft.Draft
	made   draft.Result
	pieces []shapes.Piece
	names  []string
}

// sewing lists the seams within each part, and after those of all parts the
// armholes that sleeves are set into, and the waists and necks.
func sewing(j *job.Job, spreads []plan.Spread) ([]Seam, error) {
	parts, err := asMade(j, spreads)
	if err != nil {
		return nil, err
	}
	list := mounted(parts)
	for _, m := range parts {
		if m.onSkirt() || m.on != "" {
			continue // once the skirt is together; as one with its outer layer
		}
		if list, err = m.within(list); err != nil {
			return nil, m.failed(j, err)
		}
		list = m.closed(list, false)
	}
	if list, err = faced(j, list, parts, false); err != nil {
		return nil, err
	}
	if list, err = bagged(j, list, parts); err != nil {
		return nil, err
	}
	for _, m := range parts {
		if m.part.SetInto == nil || m.apart() {
			continue
		}
		if list, err = m.setIn(list, j.Parts[m.part.SetInto.Part], parts); err != nil {
			return nil, m.failed(j, err)
		}
	}
	for _, m := range parts {
		if m.part.SewnTo == nil || m.apart() {
			continue
		}
		if m.onSkirt() {
			list, err = m.within(list)
		} else {
			list, err = m.sewnTo(list, j.Parts[m.part.SewnTo.Part], parts)
		}
		if err != nil {
			return nil, m.failed(j, err)
		}
	}
	if list, err = faced(j, list, parts, true); err != nil {
		return nil, err
	}
	for _, m := range parts {
		if list, err = m.edged(list); err != nil {
			return nil, m.failed(j, err)
		}
	}
	for _, m := range parts {
		list = m.closed(list, true)
	}
	return slit(j, list), nil
}

// onSkirt says whether the part is net that is sewn onto a skirt, along lines of its own.
func (m made) onSkirt() bool {
	_, onto := m.drawn.(draft.OntoSkirt)
	return onto && m.part.SewnTo != nil
}

// within adds the seams of the part itself. What opens all along is no seam.
func (m made) within(list []Seam) ([]Seam, error) {
	joins := slices.DeleteFunc(slices.Clone(m.made.Joins), func(j shapes.Join) bool {
		return !m.made.Shut && m.opens(j.A) && m.opens(j.B)
	})
	return m.sew(list, joins)
}

// opens says whether a side of a seam is one opening.
func (m made) opens(s shapes.JoinSide) bool {
	return len(s.Edges) == 1 && slices.ContainsFunc(m.pieces, func(p shapes.Piece) bool {
		e, _ := p.Edge(s.Edges[0].Edge)
		return p.Name == s.Edges[0].Piece && e.Kind == shapes.Opening
	})
}

func (m made) failed(j *job.Job, err error) error {
	return j.ErrorAt(m.part.At, say.Errorf("part `%s`: sewing order: %w", m.part.Name, err))
}

// asMade takes every part as drafted, in the order in which the spreads took up their
// pieces, and so finds their names.
func asMade(j *job.Job, spreads []plan.Spread) ([]made, error) {
	named := map[string][]plan.Cut{} // of a cloth, still to be matched
	for _, s := range spreads {
		named[s.Cloth.ID] = s.Cuts
	}
	var all []made
	for _, part := range j.Parts {
		for _, layer := range part.Layers {
			m := made{part: part, cloth: layer.Cloth, on: layer.Mounted, drawn: layer.Draft}
			var err error
			if m.made, err = layer.Drafted(); err != nil {
				return nil, m.failed(j, err)
			}
			m.pieces = m.made.Pieces
			for i := range m.pieces {
				m.names = append(m.names, named[layer.Cloth][i].Piece.Name)
			}
			named[layer.Cloth] = named[layer.Cloth][len(m.pieces):]
			all = append(all, m)
		}
	}
	return all, nil
}

// sew adds seams in an order in which they can be sewn.
func (m made) sew(list []Seam, joins []shapes.Join) ([]Seam, error) {
	steps, err := shapes.SewingOrder(m.pieces, joins)
	if err != nil {
		return nil, err
	}
	for _, s := range steps {
		seam := Seam{
			Part: m.part.Name, Cloth: m.cloth, Body: m.part.Body, Name: s.Join.Name, Times: max(s.Join.Times, 1),
			A: m.side(s.Join.A, s.CutA, s.FinishedA), B: m.side(s.Join.B, s.CutB, s.FinishedB),
			Difference: s.Difference, Notches: s.Join.Notches,
		}
		if gap := s.Join.Gap; gap != (shapes.Gap{}) {
			seam.Gap = &Gap{gap.From, gap.To}
		}
		if o := s.Join.Opened; o != (shapes.Opened{}) {
			seam.Opened = (*Opened)(&o)
		}
		list = append(list, seam)
	}
	return list, nil
}

// side describes one side of a seam, its pieces by their full names.
func (m made) side(s shapes.JoinSide, cut, finished float64) SeamSide {
	t := s.Treatment
	side := SeamSide{Edges: []SeamEdge{}, Onto: s.Onto, Cut: cut, Finished: finished, Ease: t.Ease, Pleats: t.Pleats,
		Pleat: t.PleatDepth, Lap: t.Lapped()}
	if t.Gather != 1 {
		side.Gather = t.Gather
	}
	for _, d := range t.Darts {
		side.Darts = append(side.Darts, d.Width)
	}
	for _, e := range s.Edges {
		edge := SeamEdge{Piece: e.Piece, Edge: e.Edge, Copies: max(e.Copies, 1), Reversed: e.Reversed}
		for i, p := range m.pieces {
			if p.Name == e.Piece {
				edge.Piece = m.names[i]
				break
			}
		}
		side.Edges = append(side.Edges, edge)
	}
	return side
}

// setIn adds the armhole that a sleeve is sewn into, in each cloth that both are
// cut in.
func (m made) setIn(list []Seam, bodice job.Part, parts []made) ([]Seam, error) {
	for _, b := range parts {
		if b.part.Name != bodice.Name || b.cloth != m.cloth || b.apart() {
			continue
		}
		join, err := draft.ArmholeJoin(b.made, m.made)
		if err != nil {
			return nil, err
		}
		return m.with(b).sew(list, []shapes.Join{join})
	}
	return list, nil
}

// with returns the part with the pieces of another before its own.
func (m made) with(other made) made {
	m.pieces = slices.Concat(other.pieces, m.pieces)
	m.names = slices.Concat(other.names, m.names)
	return m
}

// sewnTo adds the seam to another part at waist or neck, in each cloth that both are
// cut in. Pieces of both may have the same name, so each side is measured on its own.
func (m made) sewnTo(list []Seam, to job.Part, parts []made) ([]Seam, error) {
	for _, other := range parts {
		if other.part.Name != to.Name || other.cloth != m.cloth || other.apart() {
			continue
		}
		meeting, err := draft.MeetingOf(m.made, other.made)
		if err != nil {
			return nil, err
		}
		seam, err := m.across(other, meeting.Name, meeting.Sides)
		return append(list, seam), err
	}
	return list, nil
}

// across is a seam of the part to another, each side measured on its own pieces.
func (m made) across(other made, name string, sides [2]shapes.JoinSide) (Seam, error) {
	seam := Seam{Part: m.part.Name, Cloth: m.cloth, Body: m.part.Body, Name: name, Times: 1}
	for i, s := range []struct {
		made
		into *SeamSide
	}{{m, &seam.A}, {other, &seam.B}} {
		cut, finished, err := sides[i].Measure(s.pieces)
		if err != nil {
			return Seam{}, err
		}
		*s.into = s.side(sides[i], cut, finished)
	}
	seam.Difference = seam.A.Finished - seam.B.Finished
	return seam, nil
}
