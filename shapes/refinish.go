package shapes

import (
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Refinish returns the piece cut anew with its edges finished otherwise: change may give
// an edge another kind, allowance or way to cut its corners, and leaves its line. What is
// marked on the piece stays where it is on the cloth of the wearer. A piece of which no
// edge changes comes back as it is. Errors are those of NewPiece.
func (p Piece) Refinish(change func(Edge) Edge) (Piece, error) {
	edges, same := slices.Clone(p.Edges), true
	for i, e := range edges {
		edges[i] = change(e)
		edges[i].Line = e.Line
		same = same && edges[i].Kind == e.Kind && edges[i].Allowance == e.Allowance && edges[i].Straight == e.Straight
	}
	if same {
		return p, nil
	}
	return p.Recut(edges)
}

// Recut returns the piece cut anew with other edges, drawn where its own are. What is marked
// on it stays where it is on the cloth of the wearer; notches on edges that it has no more,
// or that do not reach there any more, are left out. Errors are those of NewPiece.
func (p Piece) Recut(edges []Edge) (Piece, error) {
	cut, err := NewPiece(p.Name, edges)
	if err != nil {
		return Piece{}, err
	}
	by := cut.Shift(edges)
	out := p
	out.Cut, out.Seam, out.Edges = cut.Cut, cut.Seam, cut.Edges
	out.Grain = moved(p.Grain, by)
	out.Notches, out.Inside = nil, slices.Clone(p.Inside)
	for _, n := range p.Notches {
		n.At = orb.Point{n.At[0] + by[0], n.At[1] + by[1]}
		e, ok := out.Edge(n.Edge)
		if _, on := e.Along(n.At); ok && on {
			out.Notches = append(out.Notches, n)
		}
	}
	for i, l := range out.Inside {
		out.Inside[i] = moved(l, by)
	}
	return out, nil
}

func moved(l orb.LineString, by orb.Point) orb.LineString {
	l = l.Clone()
	plane.MoveLine(l, by)
	return l
}
