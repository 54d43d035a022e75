package draft

import (
	"slices"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// StandFacing is the facing of a stand that is cut apart, a pair for each opening, or the
// interfacing of one that is grown on.
type StandFacing struct {
	Of      Draft
	Closing Closing // with a stand
	Fused   bool    // interfacing
	Bare    float64 // allowance of interfacing all round, mm
}

// Draft returns the facing of each piece that has a stand, and where it is sewn.
func (f StandFacing) Draft() (Result, error) { return named("stand facing")(f.draft()) }

func (f StandFacing) draft() (Result, error) {
	of, err := f.Of.Draft()
	if err != nil {
		return Result{}, err
	}
	s := f.Closing.Stand
	d := Result{Apart: true, Fused: f.Fused, Faced: shapes.Join{Name: "stand facing"}}
	err = f.Closing.onStands(&of, func(p shapes.Piece, k int) (shapes.Piece, error) {
		b, err := besideOpening(p, k, s.onward())
		if err != nil {
			return p, err
		}
		piece, err := f.piece(p, b)
		if err != nil {
			return p, say.Errorf("%s: %w", p.Name, err)
		}
		d.Pieces = append(d.Pieces, piece)
		d.Faced.A.Edges = append(d.Faced.A.Edges, copiesOf(p, standEdge)...)
		d.Faced.B.Edges = append(d.Faced.B.Edges, copiesOf(piece, standEdge)...)
		return p, nil
	})
	if err != nil {
		return Result{}, err
	}
	if f.Fused {
		d.Faced = shapes.Join{}
	}
	return d, nil
}

// piece cuts the facing of a piece: from the fold of the stand inward.
func (f StandFacing) piece(p shapes.Piece, b beside) (shapes.Piece, error) {
	s := f.Closing.Stand
	side := func(e shapes.Edge) shapes.Edge {
		if e.Kind != shapes.Hem {
			e.Kind = shapes.Seam
		}
		return e
	}
	from, to := shifted(b.near[:1], b.out, s.Over), shifted(b.far[:1], b.out, s.Over)
	sewn := shapes.Edge{Name: standEdge, Line: append(from, to...), Allowance: b.edge.Allowance}
	next, before := side(b.next), side(b.before)
	next.Line = append(to.Clone(), b.far...)
	free := shapes.Edge{Name: freeEdge, Kind: shapes.Hem}
	before.Line = append(reversed(b.near), from[0])
	free.Line = append(next.Line[len(next.Line)-1:].Clone(), before.Line[0])
	edges := []shapes.Edge{sewn, next, free, before}
	name := p.Name + " stand facing"
	if f.Fused {
		name += ", interfacing"
		for i := range edges {
			edges[i].Kind, edges[i].Allowance = shapes.Seam, f.Bare
		}
	}
	out, err := shapes.NewPiece(name, edges)
	if err != nil {
		return shapes.Piece{}, err
	}
	out.Count, out.Pair, out.Labels = p.Count, p.Pair, slices.Clone(p.Labels)
	return out, nil
}
