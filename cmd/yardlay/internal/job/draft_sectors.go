package job

import (
	"yardlay/shapes"
)

var sectionsKey = Key{"sections", "whole number", "the fewest of at most 180 degrees", "how many pieces it is made up of"}

// sections reads how many pieces a sector is cut in; 0 leaves it to the draft.
func (p *partTable) sections() int {
	if !p.has("sections") {
		return 0
	}
	return p.count("sections", 1, 1, mostGores)
}

var flounce = draft{
	name:    "flounce",
	about:   "a circular flounce: top edge, a longer hem, and the depth between them",
	example: `draft = "flounce", top = "72", bottom = "112", depth = "12"`,
	keys: []Key{
		{"top", "length", "", "finished, the edge sewn on"},
		{"bottom", "length", "", "finished, the hem; longer than the top"},
		{"depth", "length", "", "finished, from top to hem"},
		sectionsKey,
		liningKey,
	},
	read: func(p *partTable) []Layer {
		f := shapes.Flounce{
			Top:       p.mustLength("top", "72"),
			Bottom:    p.mustLength("bottom", "112"),
			Depth:     p.mustLength("depth", "12"),
			Sections:  p.sections(),
			Allowance: p.allow,
		}
		return p.layers(func(_ Cloth, raise float64) shapes.Draft {
			f.HemRaise = raise
			return f
		})
	},
}

var cape = draft{
	name:    "cape",
	about:   "part of a circle round the neck",
	example: `draft = "cape", circle = "three-quarter", length = "30"`,
	keys: []Key{
		{"neck", "length", "`neck_base_girth`", "finished neck edge"},
		{"length", "length", "", "finished, from neck to hem"},
		circleKey,
		sectionsKey,
		{"back_seam", "true or false", "false", "a seam at centre back"},
		{"back_on_fold", "true or false", "false", "centre back on a fold: cut whole from an open lay"},
		liningKey,
	},
	read: func(p *partTable) []Layer {
		c := shapes.Cape{
			Neck:       p.measure("neck", "neck_base_girth"),
			Length:     p.mustLength("length", "30"),
			Fraction:   p.circle(),
			Sections:   p.sections(),
			BackSeam:   p.truth("back_seam", false),
			BackOnFold: p.truth("back_on_fold", false),
			Allowance:  p.allow,
		}
		return p.layers(func(_ Cloth, raise float64) shapes.Draft {
			c.HemRaise = raise
			return c
		})
	},
}
