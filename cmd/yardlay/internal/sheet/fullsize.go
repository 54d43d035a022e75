package sheet

import (
	"github.com/paulmach/orb"
)

// FullSize is one stretch of a marker at full size.
type FullSize struct {
	Drawing *Drawing
	// Cloth is the stretch from its squared cut end to the end of what is used, with the
	// selvedges; Laid what of that pieces may lie on. In the drawing's mm.
	Cloth, Laid orb.Bound
	Pieces      []orb.Bound // of the cut lines
	Key         []Paragraph // explains the signs, the numbers of small pieces and the match points
}

// FullSize draws a stretch of the marker, the first being 0, for paper or light as large
// as the cloth. Texts and arrow heads are k times as large as on a small drawing.
func (m Marker) FullSize(stretch int, k float64, theme Theme) FullSize {
	s := m.stretches()[stretch]
	p := newPage(m, k)
	p.full = k / fullSigns
	p.width = s.Skew + s.length() + (marginLeft+s.farRoom()+marginRight)*k
	l := p.lay(s, orb.Point{marginLeft*k + s.Skew + s.Ends, margin * k}, []Stretch{s})
	l.head = &column{}
	groups := l.groups(&p)
	var pieces []orb.Bound
	for _, pl := range s.Pieces {
		pieces = append(pieces, l.ring(pl.Cut).Bound())
	}
	return FullSize{
		Drawing: &Drawing{
			Title: "Marker at full size: " + m.Title + ", " + m.Cloth, Description: inPieces(s.cuts()),
			Width: p.width, Height: l.end() + margin*k, Scale: 1, Theme: theme, Groups: groups,
		},
		Cloth: orb.Bound{Min: orb.Point{l.start(), l.top()}, Max: orb.Point{l.used() + l.Ends, l.bottom()}},
		Laid: orb.Bound{Min: orb.Point{l.origin[0], l.top() + l.above()},
			Max: orb.Point{l.used(), l.bottom() - l.below()}},
		Pieces: pieces, Key: p.key([]Stretch{s}),
	}
}
