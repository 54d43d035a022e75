package job

import (
	"yardlay/shapes/draft"
)

// mostRound is the most widths of cloth round one skirt.
const mostRound = 100

var gatheredSkirt = family{
	name:    "gathered-skirt",
	about:   "straight widths of cloth gathered to the waist, or drawn up in a casing",
	example: `draft = "gathered-skirt", length = "26", fullness = 2.5`,
	keys: []Key{
		waistKey,
		waistEaseKey,
		{"length", length, "", "finished, from waist to hem"},
		{"fullness", ratio(1, mostFullness), "this or `widths`",
			"flat width over the waist: 2 to 3, net 3 to 6; it is eased by up to 2 % where whole widths will do then"},
		{"widths", ratio(0.1, mostRound), "this or `fullness`",
			"of cloth, whole or part, such as 3 or \"2 1/2\"; parts lie at the centre back"},
		{"cut_width", length, "that of the cloth", "cut width of a whole width, where less than the cloth is taken"},
		{"front_seam", truth, "false", "a seam at centre front, not the middle of a width"},
		{"opening", truth, "true, with a casing false", "open at centre back"},
		{"casing", length, "none", "width of a casing for elastic or a drawstring; it is pulled on then"},
		clearHipKey, hipEaseKey, hipDepthKey, highHipKey, highHipDownKey,
		liningKey,
	},
	read: func(p *partTable) []Layer {
		g := draft.GatheredSkirt{Waist: p.waist(), Opening: !p.Has("casing")}
		p.into(&g)
		p.either("fullness", "widths", "flat width over the waist: 2 to 3, or `widths` of cloth")
		h := p.clears()
		g.Hip, g.HipDepth, g.HighHip = h.hip, h.depth, h.high
		return p.cutBy(g, hangingHem)
	},
}

var pleatedSkirt = family{
	name:    "pleated-skirt",
	about:   "straight widths of cloth in knife, box or inverted pleats, stitched down to the hip",
	example: `draft = "pleated-skirt", pleats = 20, fullness = 3, length = "26"`,
	keys: []Key{
		{"style", oneOf("knife", "box", "inverted"), "`knife`",
			"all folded one way, pairs folded away from each other, or pairs that meet"},
		{"pleats", count(1, 500), "", "how many go round; of box and inverted pleats, how many pairs"},
		{"fullness", ratio(1, 7), "this or `depth`", "flat width over the hip; 3 where each pleat reaches the next"},
		{"depth", length, "this or `fullness`", "of a pleat at the hip, from fold to fold"},
		{"gap", lengthOr0, "0", "between neighbouring box pleats"},
		waistKey,
		waistEaseKey,
		{"hip", length.of("hip_girth"), "`hip_girth`", "finished hip"},
		hipEaseKey, hipDepthKey, highHipKey, highHipDownKey,
		{"hem_sweep", length, "as the hip", "round the hem with the pleats folded"},
		{"length", length, "", "finished, from waist to hem"},
		{"opening", truth, "true", "open at centre back, in a fold"},
		liningKey,
	},
	read: func(p *partTable) []Layer {
		h := p.hips()
		d := draft.PleatedSkirt{
			Waist: p.waist(), Hip: h.hip, HipDepth: h.depth, HighHip: h.high, Opening: true,
			Style: draft.PleatStyle(p.Choice("style")), Pleats: p.Count("pleats", 0),
		}
		p.into(&d)
		if !p.Has("pleats") {
			p.Need("pleats", "how many go round: pleats = 20")
		}
		p.either("fullness", "depth", "flat width over the hip: 3 where each pleat reaches the next, or `depth`")
		return p.cutBy(d, hangingHem)
	},
}

// either asks for one of two keys, and refuses both.
func (p *partTable) either(key, other, hint string) {
	switch {
	case !p.Has(key) && !p.Has(other):
		p.Need(key, hint)
	case p.Has(key) && p.Has(other):
		p.Fail(p.Field(other).At, "give one of them", "%s has both `%s` and `%s`", p.Name, key, other)
	}
}
