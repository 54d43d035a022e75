package chalk

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Marker is one marker as it is drawn on the cloth. Lengths are mm, x from the cut end and
// y from the edge, of a layer as it is spread.
type Marker struct {
	Name   string  // of one of several lengths or stretches; "" of the only one
	Begins float64 // along the cloth, from its cut end: there a line is drawn that all is measured from
	Edge   string  // that is measured from: "selvedge", "fold"
	Double string  // what is cut through the layers of a folded cloth, in words; "" of single cloth
	On     string  // what steps the places lie on, in words
	Cloth  orb.Bound
	Used   float64    // from the cut end to the far end of the last piece
	Flaws  []orb.Ring // what is not cut
	Pieces []Piece
}

// Piece is one outline of a marker.
type Piece struct {
	Number           int    // in order along the cloth, from 1
	Name, Copy, Size string // Copy may be empty
	Outline          Outline
	Figures          Figures
}

// mostInAll is the most places of a marker: some thousand are a week's work with chalk.
const mostInAll = 5000

// Figure numbers the pieces of a marker along the cloth and puts them into figures.
func (m *Marker) Figure(t Tape) error {
	slices.SortStableFunc(m.Pieces, func(a, b Piece) int {
		p, q := plane.Bounds(a.Outline.Cut).Min, plane.Bounds(b.Outline.Cut).Min
		return cmp.Or(cmp.Compare(p[0], q[0]), cmp.Compare(p[1], q[1]))
	})
	sum := 0
	for i := range m.Pieces {
		p := &m.Pieces[i]
		p.Number = i + 1
		var err error
		if p.Figures, err = t.Figure(p.Outline, m.Cloth); err != nil {
			return say.Errorf("piece %q is not for tape and chalk: %w", p.Name, err).Hint("%s", onPaper)
		}
		if sum += len(p.Figures.Places); sum > mostInAll {
			return say.Errorf("the tables of one marker would take more than %d points", mostInAll).Hint("%s", onPaper)
		}
	}
	return nil
}

// onPaper is what helps where chalk does not.
const onPaper = "print it on paper: `yardlay print JOB --roll 36in`"
