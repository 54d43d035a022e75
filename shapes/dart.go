package shapes

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes/say"
)

// Mouth is where a dart opens on an edge.
type Mouth struct {
	From  float64 // along the cut edge from its start to the first leg, mm
	Width float64 // from leg to leg along the cut edge, mm
}

// Dart is a dart marked by AddDart: its legs are among the lines inside.
type Dart struct {
	Edge  string // that it opens on
	Mouth Mouth
}

// legSlack is how much the legs of a dart may differ, mm: they are sewn together.
const legSlack = 0.5

// AddDart marks a dart: its legs inside, from the edge to the apex, and a notch
// at each. The first leg stands on the edge at a distance (mm) from its start, the
// second further on by the mouth's width, both measured along the cut edge, which
// must include the mouth. Legs that differ by more than half a millimetre are
// refused: they could not be sewn together. A dart that is refused leaves no mark.
func (p *Piece) AddDart(edge string, m Mouth, apex orb.Point) error {
	e, ok := p.Edge(edge)
	if !ok {
		return fmt.Errorf("%s: no edge %q for a dart", p.Name, edge)
	}
	a, _ := e.At(m.From)
	b, _ := e.At(m.From + m.Width)
	first, second := planar.Distance(a, apex), planar.Distance(b, apex)
	if math.Abs(first-second) > legSlack {
		return say.Errorf("%s: the dart on edge %q has legs of %.1f and %.1f, which cannot be sewn together", p.Name,
			edge, say.MM(first), say.MM(second))
	}
	notches := len(p.Notches)
	if err := errors.Join(p.AddNotch(edge, m.From), p.AddNotch(edge, m.From+m.Width)); err != nil {
		p.Notches = p.Notches[:notches]
		return err
	}
	p.Inside = append(p.Inside, orb.LineString{a, apex, b})
	p.Darts = append(p.Darts, Dart{edge, m})
	return nil
}

// mouths lists where darts open on an edge.
func (p Piece) mouths(edge string) []Mouth {
	var out []Mouth
	for _, d := range p.Darts {
		if d.Edge == edge {
			out = append(out, d.Mouth)
		}
	}
	return out
}

// FoldDarts takes up the darts that are drawn on the edges of a side.
func (s *JoinSide) FoldDarts(pieces []Piece) error {
	edges, err := s.find(pieces)
	if err != nil {
		return err
	}
	darts := make([][]Mouth, len(edges))
	for i, e := range edges {
		darts[i] = e.piece.mouths(e.edge.Name)
	}
	s.Treatment.Darts = along(edges, darts)
	return nil
}

// along returns the darts of edges, each along its own from its start, along the side
// that the edges make up end to end.
func along(edges []placed, darts [][]Mouth) []Mouth {
	var all []Mouth
	start := 0.0
	for i, e := range edges {
		for _, d := range darts[i] {
			if e.Reversed {
				d.From = e.length - d.From - d.Width
			}
			all = append(all, Mouth{start + d.From, d.Width})
		}
		start += e.length
	}
	return all
}
