package job

import (
	"yardlay/shapes/draft"
)

var binding = family{
	name:    "binding",
	about:   "strips joined to one to bind an edge: on the bias for a curve, across the cloth for a straight edge",
	example: `draft = "binding", length = "140", width = "1/2"`,
	keys: []Key{
		{"cut", oneOf("bias", "straight"), "`bias`", "its strips lie at 45 degrees, or straight across the cloth"},
		{"length", length, "", "of the edge to bind"},
		{"width", length, "", "finished"},
		{"folds", count(1, 8), "4", "cut width over finished width: 2 folded once, 4 with both sides turned in"},
		{"closed", truth, "false", "it binds a ring: its ends are joined too"},
		{"turn_in", lengthOr0, "1/2 in", "turned in at each free end, along the binding; 0 leaves it raw"},
		{"join", lengthOr0, "seam allowance", "allowance at each end of each strip"},
	},
	grain: freeOfGrain,
	read: func(p *partTable) []Layer {
		p.onBias = p.Choice("cut") == "bias"
		b := draft.Binding{Bias: p.onBias, Folds: 4, TurnIn: draft.DefaultTurnIn, Join: p.allow.Seam}
		p.into(&b)
		p.onlyFree("turn_in", b.Closed)
		return p.cutBy(b, unlike{})
	},
}

var sash = family{
	name:  "sash",
	about: "a band round the waist with tails that may widen to slanted or pointed ends",
	example: `draft = "sash", length = "90", width = "5", tail_width = "9", ends = "pointed", end = "4", ` +
		`halves = true, layers = 2`,
	keys: []Key{
		{"length", length, "", "finished, from tip to tip"},
		{"width", length, "", "finished, at centre back"},
		{"tail_width", length, "as `width`", "finished, at the ends"},
		{"ends", oneOf("square", "pointed", "slanted"), "`square`", "shape of the tails"},
		{"end", length, "with pointed or slanted, required", "depth of the point or the slant"},
		{"halves", truth, "false", "a seam at centre back"},
		{"layers", countOf(1, 2), "1", "one with hems, or two bagged out: sewn together but for a gap, and turned"},
	},
	read: func(p *partTable) []Layer {
		ends := p.Choice("ends")
		s := draft.Sash{Slanted: ends == "slanted", Layers: 1}
		p.into(&s)
		switch {
		case ends == "square" && p.Has("end"):
			p.Fail(p.Field("end").At, `ends = "pointed" or "slanted"`, "%s has `end` and square ends", p.Name)
		case ends != "square" && !p.Has("end"):
			p.Need("end", `its depth: end = "4"`)
		}
		return p.cutBy(s, unlike{})
	},
}

var bow = family{
	name:  "bow",
	about: "a flat bow of a loop, two tails and a knot, each folded, sewn and turned",
	example: `draft = "bow", width = "9", height = "5", tail_length = "12", tail_width = "4", tail_slant = "2", ` +
		`knot_length = "4", knot_width = "2"`,
	keys: []Key{
		{"width", length, "", "finished"},
		{"height", length, "", "finished"},
		{"tail_length", length, "none", "of each tail, along its longer side"},
		{"tail_width", length, "with tails, required", "finished"},
		{"tail_slant", lengthOr0, "0", "how much shorter the tail's other side is"},
		{"knot_length", length, "", "round the bow pinched together"},
		{"knot_width", length, "", "finished"},
		countKey,
	},
	grain: freeOfGrain,
	read: func(p *partTable) []Layer {
		b := draft.Bow{Count: 1}
		p.into(&b)
		if p.Has("tail_length") && !p.Has("tail_width") {
			p.Need("tail_width", `for example tail_width = "4"`)
		}
		return p.cutBy(b, unlike{})
	},
}

var ties = family{
	name:    "ties",
	about:   "narrow bands sewn shut and turned: neck ties, apron strings, lacing ribbons",
	example: `draft = "ties", length = "20", width = "3/4", slant = "1/2", count = 4`,
	keys: []Key{
		{"length", length, "", "finished, along the longer side"},
		{"width", length, "", "finished"},
		{"slant", lengthOr0, "0", "how much shorter the other side is"},
		countKey,
	},
	grain: freeOfGrain,
	read: func(p *partTable) []Layer {
		t := draft.Ties{Count: 1}
		p.into(&t)
		return p.cutBy(t, unlike{})
	},
}

var loops = family{
	name:    "loops",
	about:   "button or lacing loops of a bias strip, sewn lengthwise and turned",
	example: `draft = "loops", opening = "18", pitch = "3/4", length = "2 1/2", width = "1/4"`,
	keys: []Key{
		{"count", count(1, draft.MaxCount), "this or `opening`", "how many"},
		{"opening", length, "this or `count`", "length of the edge that they fill"},
		{"pitch", length, "with `opening`, required", "from loop to loop"},
		{"length", length, "", "of each from seam to seam along its middle"},
		{"width", length, "", "finished"},
	},
	grain: freeOfGrain,
	read: func(p *partTable) []Layer {
		p.onBias = true
		var d draft.Loops
		p.into(&d)
		switch counted := p.Has("count"); {
		case counted && (p.Has("opening") || p.Has("pitch")):
			p.Fail(p.Field("count").At, "give one of them", "%s has both `count` and an opening to fill", p.Name)
		case !counted && !p.Has("opening"):
			p.Need("opening", "length of the edge that the loops fill, with `pitch`; or `count`")
		case !counted && !p.Has("pitch"):
			p.Need("pitch", `from loop to loop: pitch = "3/4"`)
		}
		return p.cutBy(d, unlike{})
	},
}
