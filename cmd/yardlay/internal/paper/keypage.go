package paper

import (
	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
)

// keyText is the size of words in a key that is shown in light, mm.
const keyText = lightText * 0.6

// keyPages show what explains the signs of a marker, and what has no room in its pieces, on
// as many pages as it takes.
func (p Projector) keyPages(said string, key []sheet.Paragraph) (pages []sheet.Page) {
	width, room := p.Width-2*lightMargin-lightCaption, p.Height-2*lightMargin
	show := func(items []sheet.Item) {
		d := &sheet.Drawing{Title: said, Width: width, Height: room, Scale: 1, Theme: sheet.ThemeLight,
			Groups: []sheet.Group{{Items: items}}}
		pages = append(pages, p.paging().page(d, orb.Bound{Max: orb.Point{width, room}}, said, nil))
	}
	var items []sheet.Item
	top := 0.0
	for _, one := range key {
		one.After *= keyText / one.Size
		one.Size = keyText
		set, bottom := sheet.Column(orb.Point{0, top}, width, one)
		if bottom-one.After > room && len(items) > 0 {
			show(items)
			items, top = nil, 0
			set, bottom = sheet.Column(orb.Point{}, width, one)
		}
		items, top = append(items, set...), bottom
	}
	if len(items) > 0 {
		show(items)
	}
	return pages
}
