package sheet

import (
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/shapes/measure"
)

// Small is one stretch of a marker drawn to fit a page, without the texts over and
// under it: whoever shows it sets those.
type Small struct {
	Drawing *Drawing
	Name    string      // which stretch it is, and how it lies; "" where there is one, laid open
	Notes   []string    // how it is spread
	Key     []Paragraph // explains signs, numbers of small pieces and match points; sizes are of the drawing
}

// Room on paper that a small drawing takes besides the cloth, mm.
const (
	smallAbove = 2 + 3 + textSelvedge
	smallBelow = 2*levelStep + levelFirst + 8.5 + 6 + textDim*lineHeight
	smallLeast = 25.0 // the width of a cloth on paper at least: a very long one makes a longer drawing
)

// Small draws a stretch, the first being 0, within a width and a height on paper, mm;
// only a very long one takes more of the width, since its pieces would be too small to be
// told apart. Stamp stands beside the scale.
func (m Marker) Small(stretch int, width, height float64, stamp string) Small {
	all := m.stretches()
	s := all[stretch]
	beside := marginLeft + s.farRoom() + marginRight
	k := math.Max((s.Skew+s.length())/(width-beside), s.folded()/(height-smallAbove-smallBelow))
	k = math.Max(1, math.Ceil(math.Min(k, math.Max(s.folded()/smallLeast, 1))))
	p := newPage(m, k)
	p.width = math.Max((s.Skew+s.length())/k+beside, math.Min(width, paperLeast)) * k
	l := p.lay(s, orb.Point{marginLeft*k + s.Skew + s.Ends, 0}, all)
	l.origin[1] = smallAbove*k + s.folded() - s.below()
	head := l.head
	l.head = &column{}
	groups := l.groups(&p)
	clear(p.copies) // a list of all that is cut stands below
	foot := &column{x: marginLeft * k, y: l.end() + 13*k, width: p.width - 2*marginLeft*k}
	foot.add(RoleNote, textDim*k, stamp)
	groups = append(groups, Group{Items: p.scaleBar(l.end() + 8.5*k)}, Group{Items: foot.items})
	small := Small{
		Drawing: &Drawing{Title: "Marker: " + strings.TrimPrefix(m.Title+", "+m.Cloth, ", "),
			Description: inPieces(s.cuts()) + " on " + m.Cloth + ".",
			Width:       p.width, Height: foot.y + k, Scale: k, Groups: groups},
		Name: s.said(m, len(all) > 1), Key: p.key([]Stretch{s}),
	}
	if len(head.items) > 0 && len(s.Notes) == 0 && layHints[s.Lay] != "" {
		small.Notes = []string{layHints[s.Lay]}
	}
	return small
}

// Facts say how wide the cloth of the marker is and what it takes, a line each.
func (m Marker) Facts() []string {
	stretches, count := m.stretches(), 0
	for _, s := range stretches {
		count += s.cuts()
	}
	return m.facts(stretches, count)
}

func (m Marker) facts(stretches []Stretch, count int) []string {
	facts := []string{"width " + measure.Both(m.Width, m.Unit)}
	if m.Selvedge > 0 {
		facts = append(facts, "usable "+measure.Both(m.Width-2*m.Selvedge, m.Unit))
	}
	if m.Nap != "" {
		facts = append(facts, "nap "+m.Nap)
	}
	laid := slices.Concat(m.lengths(stretches), []string{inPieces(count)}, m.Notes)
	return []string{strings.Join(facts, " · "), strings.Join(laid, " · ")}
}
