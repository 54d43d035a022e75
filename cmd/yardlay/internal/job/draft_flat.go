package job

import "yardlay/shapes/draft"

var waistband = family{
	name:    "waistband",
	about:   "a straight band, folded along its middle, closed at centre back",
	example: `draft = "waistband", width = "1 1/4", ease = "-1", underlap = "1 1/4", interfacing = "fusible"`,
	keys: []Key{
		waistKey,
		{"width", length, "", "finished width, folded"},
		{"ease", signed, "0", "added to the waist; negative where it will be laced in"},
		{"underlap", lengthOr0, "0", "passes under the other end at the closing"},
		{"across", truth, "false", "long side across the cloth instead of along the grain"},
		{"interfacing", nameOf("cloth"), "none", "cuts a piece of interfacing from that cloth"},
		{"interfacing_allowance", lengthOr0, "0", "cut outside the sewn line of the interfacing"},
	},
	read: readWaistband,
}

func readWaistband(p *partTable) []Layer {
	band := draft.Waistband{Waist: p.measure("waist")}
	p.into(&band)
	layers := p.cutBy(band, unlike{})
	if p.Has("interfacing") {
		if c, ok := p.clothNamed("interfacing", p.Field("interfacing").Value, p.allCloths); ok {
			layers = append(layers, Layer{Cloth: c.ID, Grain: p.grainOn(c, p.grain)}.DrawnAs(draft.Interfacing(band)))
		}
	}
	return layers
}

var rectangle = family{
	name:    "rectangle",
	flat:    true,
	about:   "a plain rectangle: a sash, a belt, a straight panel",
	example: `draft = "rectangle", length = "72", width = "6", count = 2`,
	keys: []Key{
		{"length", length, "", "finished, along the grain"},
		{"width", length, "", "finished, across the grain"},
		countKey,
		{"hemmed", truth, "false", "the far end is a hem and takes the hem allowance"},
	},
	read: func(p *partTable) []Layer {
		r := draft.Rectangle{Name: p.title, Count: 1}
		p.into(&r)
		return p.cutBy(r, unlike{})
	},
}
