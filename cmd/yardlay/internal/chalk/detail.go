package chalk

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/plane"
)

// When a piece gets a second drawing of a part of it, mm of paper.
const (
	crowdedBelow = 4.0  // points that lie nearer cannot be told apart
	crowdReach   = 8.0  // and those so near to them are drawn with them
	detailSize   = 54.0 // of the square that it is drawn in
	detailFree   = 9.0  // along its edges
	worthWhile   = 0.6  // of the scale of the whole, at the most
)

// crowd returns the corners of a piece that stand too close to be told apart in a drawing of
// so many mm of cloth for one of paper; none where all can.
func (p Piece) crowd(t Tape, k float64) []int {
	corners := p.Figures.Places[:p.Figures.corners()]
	in := make([]bool, len(corners))
	closest := crowdedBelow * k
	for i := range corners {
		for j := range i {
			if d := distance(t.point(corners[i]), t.point(corners[j])); d < closest {
				closest, in = d, make([]bool, len(corners))
				in[i], in[j] = true, true
			}
		}
	}
	var all []int
	for grown := true; grown; {
		grown = false
		all = all[:0]
		for i := range corners {
			for j := range corners {
				if !in[i] && in[j] && distance(t.point(corners[i]), t.point(corners[j])) < crowdReach*k {
					in[i], grown = true, true
				}
			}
			if in[i] {
				all = append(all, i)
			}
		}
	}
	return all
}

// Detail draws the corners that stand too close in a drawing of a scale, larger: in a square
// of paper at a corner of the page. It is nil where there are none.
func (p Piece) Detail(t Tape, k float64, corner orb.Point) *sheet.View {
	crowd := p.crowd(t, k)
	if len(crowd) == 0 {
		return nil
	}
	b := orb.Bound{Min: t.point(p.Figures.Places[crowd[0]]), Max: t.point(p.Figures.Places[crowd[0]])}
	for _, i := range crowd {
		b = b.Extend(t.point(p.Figures.Places[i]))
	}
	k2 := math.Max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]) / (detailSize - 2*detailFree)
	if k2 > worthWhile*k || k2 == 0 {
		return nil
	}
	whole := plane.Bounds(p.Outline.Cut)
	free := detailSize * k2
	c := &canvas{k: k2, origin: orb.Point{free - whole.Min[0], free + whole.Max[1]}}
	c.piece(t, p, p.Number)
	for _, s := range p.Figures.Outline {
		if s.Kind != Arc && s.Kind != Circle {
			c.stroke(t, p.Figures, s)
		}
	}
	c.numbers(t, p, false)
	middle := c.at(b.Center())
	half := detailSize * k2 / 2
	return &sheet.View{
		Drawing: &sheet.Drawing{Title: p.Title() + ", a part", Description: "to be drawn with chalk", Scale: k2,
			Width: whole.Max[0] - whole.Min[0] + 2*free, Height: whole.Max[1] - whole.Min[1] + 2*free,
			Theme: sheet.ThemeLines, Groups: []sheet.Group{{Items: c.items}}},
		Window: orb.Bound{Min: corner, Max: orb.Point{corner[0] + detailSize, corner[1] + detailSize}},
		From:   orb.Point{middle[0] - half, middle[1] - half},
	}
}
