package draft

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// opens is the angle at the point, rad.
func (g gusset) opens() float64 {
	if !g.bust {
		return g.opening()
	}
	const step = 1 // mm
	return 2 * math.Asin(min(g.at(g.point-step)/2/step, 1))
}

// called names the piece of a wedge.
func (b *panelled) called(g gusset) string {
	return panelNames(len(b.shares))[g.panel] + " panel " + g.name
}

// gussetPieces drafts the wedges, one on each side of the body, and their seams into the
// slits.
func (b *panelled) gussetPieces() (pieces []shapes.Piece, joins []shapes.Join, err error) {
	for _, g := range b.gussets {
		slit := b.slit(g)
		length := planar.Distance(slit[0], slit[1])
		p, err := shapes.NewPiece(b.called(g), b.gussetEdges(g, length))
		if err != nil {
			return nil, nil, err
		}
		p.Count = 2
		pieces = append(pieces, p)
		into := func(edge string, reversed bool) shapes.Join {
			return shapes.Join{
				Name: fmt.Sprintf("%s, %s", p.Name, edge), Times: 2, Notches: []float64{length / 2},
				A: sideOf(shapes.SewnEdge{Piece: p.Name, Edge: edge, Reversed: reversed}),
				B: shapes.JoinSide{Onto: "one side of the slit", Length: length},
			}
		}
		joins = append(joins, into("lower side", g.bust), into("upper side", !g.bust))
	}
	return pieces, joins, nil
}

// gussetEdges are the finished edges of a wedge whose slit is so long. Each chord of a side
// is as long as the stretch of the slit that it is sewn to.
func (b *panelled) gussetEdges(g gusset, length float64) []shapes.Edge {
	seam := b.Allowance.Seam
	if !g.bust {
		half := g.opening() / 2
		hem := plane.Arc(orb.Point{}, length, -half, half, b.chord)
		return []shapes.Edge{
			{Name: "lower side", Line: orb.LineString{{}, hem[0]}, Allowance: seam},
			{Name: b.bottomEdge.name, Kind: b.bottomEdge.kind, Line: hem, Allowance: b.bottomEdge.allowance},
			{Name: "upper side", Line: orb.LineString{hem[len(hem)-1], {}}, Allowance: seam},
		}
	}
	const stretches = 32 // of a side that bends once: chords stray by under 0.1 mm
	upper := orb.LineString{{}}
	for k := range stretches {
		d := length / stretches
		last := upper[k]
		y := g.at(g.point-d*float64(k+1)) / 2
		upper = append(upper, orb.Point{last[0] - math.Sqrt(max(d*d-(y-last[1])*(y-last[1]), 0)), y})
	}
	lower := plane.MirrorLine(upper, 0) // from the top to the point
	top := orb.LineString{upper[stretches], lower[0]}
	return []shapes.Edge{
		{Name: "lower side", Line: lower, Allowance: seam},
		{Name: "upper side", Line: upper, Allowance: seam},
		{Name: "top", Kind: shapes.Top, Line: top, Allowance: seam},
	}
}

// markSlits draws the slits of panel i by their names, each crossed by a stroke half way,
// where the wedge has its notches.
func (b *panelled) markSlits(p *shapes.Piece, i int, edges []shapes.Edge) {
	const stroke = 5 // mm
	for _, g := range b.gussets {
		if g.panel != i {
			continue
		}
		slit := b.slit(g)
		x := (slit[0][0] + slit[1][0]) / 2
		p.Names = append(p.Names, shapes.LineName{Line: len(p.Inside), Name: g.name})
		p.Mark(edges, slit, orb.LineString{{x, g.across - stroke}, {x, g.across + stroke}})
	}
}
