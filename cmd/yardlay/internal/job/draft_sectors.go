package job

import (
	"yardlay/shapes/draft"
)

var sectionsKey = Key{"sections", count(1, mostGores), "the fewest of at most 180 degrees",
	"how many pieces it is made up of"}

// Keys of what is worn open in front.
var (
	backSeamKey = Key{"back_seam", truth, "false", "a seam at centre back"}
	backFoldKey = Key{"back_on_fold", truth, "false", "centre back on a fold: cut whole from an open lay"}
)

var flounce = family{
	name:    "flounce",
	flat:    true,
	about:   "a circular flounce: top edge, a longer hem, and the depth between them",
	example: `draft = "flounce", top = "72", bottom = "112", depth = "12"`,
	keys: []Key{
		{"top", length, "", "finished, the edge sewn on"},
		{"bottom", length, "", "finished, the hem; longer than the top"},
		{"depth", length, "", "finished, from top to hem"},
		sectionsKey,
		closedKey, endHemKey,
		liningKey,
	},
	read: func(p *partTable) []Layer {
		f := draft.Flounce{
			Top:      p.MustLength("top", "72"),
			Bottom:   p.MustLength("bottom", "112"),
			Depth:    p.MustLength("depth", "12"),
			Sections: p.Count("sections", 0),
		}
		closed, endHem := p.ends()
		return p.layers(hangingHem, func(l layer) draft.Draft {
			f.HemRaise, f.Allowance = l.raise, l.allow
			f.Closed, f.EndHem = closed, endHem(l)
			return f
		})
	},
}

var cape = family{
	name:    "cape",
	about:   "part of a circle round the neck",
	example: `draft = "cape", circle = "three-quarter", length = "30"`,
	keys: []Key{
		{"neck", length.of("neck_base_girth"), "`neck_base_girth`", "finished neck edge"},
		{"length", length, "", "finished, from neck to hem"},
		circleKey,
		sectionsKey,
		backSeamKey, backFoldKey,
		{"neck_drop", lengthOr0, "0", "how much lower the neck lies at centre front than at centre back"},
		{"dart", length, "none", "width of a dart at each shoulder, at the neck; needs `dart_length`"},
		{"dart_length", length, "none", "from the neck down"},
		{"shoulder", length, "half way to the front", "along the finished neck from centre back to the dart"},
		liningKey,
	},
	read: func(p *partTable) []Layer {
		c := draft.Cape{Neck: p.measure("neck")}
		p.into(&c)
		c.Fraction = p.circle()
		return p.cutBy(c, hangingHem.folding("back_on_fold", c.BackOnFold))
	},
}
