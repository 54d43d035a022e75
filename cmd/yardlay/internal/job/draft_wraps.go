package job

import (
	"yardlay/shapes/draft"
)

var peplum = family{
	name:    "peplum",
	about:   "a short skirt on a bodice, smooth over the hip or a part of a circle",
	example: `draft = "peplum", length = "7", opening = "front"`,
	keys: []Key{
		waistKey,
		waistEaseKey,
		{"length", length, "", "finished, from waist to hem"},
		{"circle", circleFraction, "as hip and high hip ask for", circleKey.Meaning},
		clearHipKey, hipEaseKey, hipDepthKey, highHipKey, highHipDownKey,
		{"opening", oneOf("back", "front"), "`back`", "where it is open"},
		{"on_fold", truth, "false", "the other centre on a fold: cut whole from an open lay"},
		sectionsKey,
		sewnInKey,
	},
	read: func(p *partTable) []Layer {
		d := draft.Peplum{Waist: p.waist(), FrontOpen: p.Choice("opening") == "front"}
		p.into(&d)
		if p.Has("circle") {
			d.Fraction = p.circle()
		}
		h := p.clears()
		d.Hip, d.HipDepth, d.HighHip = h.hip, h.depth, h.high
		if d.Hip == 0 && !p.Has("circle") {
			p.Need("hip", "give `hip` and `hip_depth` here or on the body, or `circle`")
		}
		return p.cutBy(d, sewnIn.folding("on_fold", d.OnFold))
	},
}

var overskirt = family{
	name:    "overskirt",
	about:   "a circle skirt over another, open at centre front",
	example: `draft = "overskirt", circle = "three-quarter", length = "40", front_length = "24", gap = "3"`,
	keys: []Key{
		waistKey,
		waistEaseKey,
		{"length", length, "", "finished, from waist to hem at centre back"},
		{"front_length", length, "as `length`", "of the front edges"},
		{"gap", lengthOr0, "0", "between the front edges at the waist"},
		circleKey,
		sectionsKey,
		backSeamKey, backFoldKey,
		liningKey,
	},
	read: func(p *partTable) []Layer {
		d := draft.Overskirt{Waist: p.waist()}
		p.into(&d)
		d.Fraction = p.circle()
		return p.cutBy(d, hangingHem.folding("back_on_fold", d.BackOnFold))
	},
}

var petals = family{
	name:    "petal",
	about:   "a skirt of rounded panels that overlap at the waist",
	example: `draft = "petal", petals = 6, overlap = "1 1/2", circle = "half", length = "24", side = "8"`,
	keys: []Key{
		waistKey,
		waistEaseKey,
		{"length", length, "", "finished, from waist to hem in the middle of a petal"},
		{"side", lengthOr0, "0", "from the waist down to where the edge begins to round"},
		{"petals", count(1, mostGores), "", "how many"},
		{"overlap", lengthOr0, "0", "of neighbours, at the waist"},
		circleKey,
		sewnInKey,
	},
	read: func(p *partTable) []Layer {
		d := draft.Petals{Waist: p.waist(), Count: p.Count("petals", 0)}
		p.into(&d)
		d.Fraction = p.circle()
		if !p.Has("petals") {
			p.Need("petals", "how many: petals = 6")
		}
		return p.cutBy(d, sewnIn)
	},
}

var handkerchief = family{
	name:    "handkerchief",
	about:   "a skirt cut from a square with a round waist, hanging in four points",
	example: `draft = "handkerchief", length = "22", panels = 2`,
	keys: []Key{
		waistKey,
		waistEaseKey,
		{"length", length, "", "finished, from the waist to the middle of a side, where it is shortest"},
		{"panels", countOf(1, 2, 4), "1", "cut in one, in halves or in quarters"},
		{"opening", truth, "true", "one seam opens, or there is a slit"},
		clearHipKey, hipEaseKey, hipDepthKey, highHipKey, highHipDownKey,
		liningKey,
	},
	read: func(p *partTable) []Layer {
		d := draft.Handkerchief{Waist: p.waist(), Panels: 1, Opening: true}
		p.into(&d)
		h := p.clears()
		d.Hip, d.HipDepth, d.HighHip = h.hip, h.depth, h.high
		return p.cutBy(d, hangingHem)
	},
}

var godet = family{
	name:    "godet",
	about:   "a wedge set into a seam or slit to widen a hem",
	example: `draft = "godet", length = "14", hem = "12", count = 6`,
	keys: []Key{
		{"length", length, "", "finished, of the slit from its top to the hem"},
		{"hem", length, "", "what one adds to the hem"},
		countKey,
		{"into", nameOf("part").like(`"skirt"`), "none", "the skirt whose seams they are set into, where that is marked"},
		{"seams", text.listed().like(`["side front to side back"]`), "all that are sewn on both sides",
			"which of its seams, by their names in `draft --seams`"},
		liningKey,
	},
	read: func(p *partTable) []Layer {
		d := draft.Godet{Count: 1}
		p.into(&d)
		p.slits()
		return p.cutBy(d, hangingHem)
	},
}
