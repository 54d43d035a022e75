package draft

import (
	"fmt"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// Slits are the seams of a skirt of whole pieces that godets are set into, from the hem up:
//
//	   |        |
//	   |  seam  |     sewn down to here
//	   |---- ----|    a line on both gores, named "godet", and a notch on both edges
//	   |   / \   |
//	   |  /   \  |    Length along the seam
//	___|_/     \_|___
//	       hem
type Slits struct {
	Of    Draft    // the skirt
	Seams []string // by the names of its joins; none: all that are sewn on both sides
}

// Take says whether godets are set into a seam, by its name and how often it is sewn.
func (s Slits) Take(name string, times int) bool {
	if len(s.Seams) == 0 {
		return times >= 2
	}
	return slices.Contains(s.Seams, name)
}

// slitEdge is an edge of a skirt with a godet in its lower part.
type slitEdge struct {
	piece, edge string
	up          bool // it runs up from the hem
}

// slitLine is how long the line at the top of a slit is, mm.
const slitLine = 20

// slits returns the edges of a skirt that godets are set into, and how many godets that takes. Errors
// name the seam, and the place where there is none.
func (g Godet) slits(s Slits) (edges []slitEdge, godets int, err error) {
	made, err := s.Of.Draft()
	if err != nil {
		return nil, 0, err
	}
	for _, name := range s.Seams {
		if !slices.ContainsFunc(made.Joins, func(j shapes.Join) bool { return j.Name == name }) {
			return nil, 0, say.Errorf("there is no seam %q to set a godet into", name).Hint("%v", seamNames(made.Joins))
		}
	}
	for _, j := range made.Joins {
		if !s.Take(j.Name, j.Times) {
			continue
		}
		for _, side := range []shapes.JoinSide{j.A, j.B} {
			if len(side.Edges) != 1 {
				return nil, 0, say.Errorf("seam %q is of several edges, which a godet does not part", j.Name).
					Hint("%v", seamNames(made.Joins))
			}
			one, err := g.slitOn(made.Pieces, side.Edges[0])
			if err != nil {
				return nil, 0, say.Errorf("seam %q: %w", j.Name, err)
			}
			if !slices.Contains(edges, one) {
				edges = append(edges, one)
			}
		}
		godets += max(j.Times, 1)
	}
	if godets == 0 {
		return nil, 0, say.Errorf("it has no seam for a godet").Hint("name one by `seams`")
	}
	return edges, godets, nil
}

// slitOn finds the hem at an end of an edge.
func (g Godet) slitOn(pieces []shapes.Piece, on shapes.SewnEdge) (slitEdge, error) {
	i := slices.IndexFunc(pieces, func(p shapes.Piece) bool { return p.Name == on.Piece })
	p := pieces[i]
	k := slices.IndexFunc(p.Edges, func(e shapes.Edge) bool { return e.Name == on.Edge })
	n := len(p.Edges)
	before, next := p.Edges[(k+n-1)%n], p.Edges[(k+1)%n]
	if before.Kind != shapes.Hem && next.Kind != shapes.Hem {
		return slitEdge{}, say.Errorf("its edge on the %s does not run to the hem", p.Name).Hint("a seam that does")
	}
	if length := p.Edges[k].Length(); g.Length > length-leastSeam {
		return slitEdge{}, say.Errorf("a godet %.1f long leaves %.1f of it above, needs %v", say.MM(g.Length),
			say.MM(length-g.Length), say.MM(leastSeam)).Hint("a shorter godet")
	}
	return slitEdge{p.Name, on.Edge, before.Kind == shapes.Hem}, nil
}

// seamNames says which seams there are.
func seamNames(joins []shapes.Join) say.Text {
	var names []string
	for _, j := range joins {
		names = append(names, fmt.Sprintf("%q", j.Name))
	}
	if len(names) == 0 {
		return say.Textf("it has no seams")
	}
	return say.Textf("its seams are %s", say.InWords(names, "and"))
}

// clearOfPiecing is how far above the point of a godet a piecing seam meets its seam at the least, mm: so far that
// the allowances at the point lie flat beside it (our own figure).
const clearOfPiecing = 25.0

// Clear refuses a skirt as it is pieced where a piecing seam meets a seam within the slit of a godet, or close above
// it: the point of the godet, or the tip of the corner, would hang by that crossing.
func (g Godet) Clear(s Slits, pieced Result) error {
	edges, _, err := g.slits(s)
	if err != nil {
		return err
	}
	for _, one := range edges {
		side, err := pieced.SewnTo(sideOf(shapes.SewnEdge{Piece: one.piece, Edge: one.edge}))
		if err != nil || len(side.Edges) == 1 {
			continue
		}
		lowest := side.Edges[len(side.Edges)-1]
		if one.up {
			lowest = side.Edges[0]
		}
		i := slices.IndexFunc(pieced.Pieces, func(p shapes.Piece) bool { return p.Name == lowest.Piece })
		e, _ := pieced.Pieces[i].Edge(lowest.Edge)
		if at := e.Length(); at < g.Length+clearOfPiecing {
			return say.Errorf("a piecing seam meets the %s of the %s %.1f above the hem: a godet %.1f long is to end %v "+
				"below it", one.edge, one.piece, say.MM(at), say.MM(g.Length), say.MM(clearOfPiecing)).
				Hint("a shorter godet, or a piecing seam that meets it higher, by a narrower `within` or a shorter `length` " +
					"in `pieced`; or other `seams`")
		}
	}
	return nil
}

// Into refuses a skirt that the godets cannot be set into, or that takes another number of them.
func (g Godet) Into(s Slits) error {
	_, n, err := g.slits(s)
	if err != nil {
		return err
	}
	if count := max(g.Count, 1); count != n {
		return say.Errorf("there are %d, and the seams of the skirt take %d", count, n).
			Hint("count = %d, or other `seams`", n)
	}
	return nil
}

// MarkInto draws where the slits of the godets begin on the pieces of a skirt.
func (g Godet) MarkInto(s Slits, pieces []shapes.Piece) error {
	edges, _, err := g.slits(s)
	if err != nil {
		return err
	}
	for i := range pieces {
		p := &pieces[i]
		for _, one := range edges {
			e, ok := p.Edge(one.edge)
			if one.piece != p.Name || !ok {
				continue
			}
			at := g.Length
			if !one.up {
				at = e.Length() - g.Length
			}
			from, out := e.At(at)
			p.Names = append(p.Names, shapes.LineName{Line: len(p.Inside), Name: "godet"})
			p.Inside = append(p.Inside, orb.LineString{from, {from[0] - slitLine*out[0], from[1] - slitLine*out[1]}})
			if err := p.AddNotch(one.edge, at); err != nil {
				return err
			}
		}
	}
	return nil
}
