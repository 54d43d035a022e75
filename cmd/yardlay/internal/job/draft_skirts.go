package job

import (
	"math"

	"yardlay/shapes/draft"
)

// Most gores of a skirt: more are narrower than their allowances.
const mostGores = 60

var goresKey = Key{"gores", count(1, mostGores), "", "how many panels go round"}

var circleSkirt = family{
	name:    "circle-skirt",
	about:   "any part of a circle, or more than one, cut in gores",
	example: `draft = "circle-skirt", circle = "full", gores = 10, length = "41"`,
	keys: []Key{
		circleKey,
		{"gores", count(1, mostGores), "each at most a quarter circle", "how many panels go round"},
		waistKey,
		waistEaseKey,
		{"length", length, "", "finished, from waist to hem"},
		{"front_on_fold", truth, "false", "centre front cut in one, double width, in place of two gores"},
		{"opening", truth, "true", "open at centre back"},
		clearHipKey, hipEaseKey, hipDepthKey, highHipKey, highHipDownKey,
		trainKey, trainGoresKey,
		liningKey,
	},
	read: readCircleSkirt,
}

func readCircleSkirt(p *partTable) []Layer {
	c := draft.CircleSkirt{Fraction: p.circle(), Waist: p.waist(), Opening: true}
	// An even count keeps a seam at centre back and at centre front.
	c.Gores = 2 * int(math.Ceil(2*c.Fraction))
	p.into(&c)
	h := p.clears()
	c.Hip, c.HipDepth, c.HighHip = h.hip, h.depth, h.high
	train := p.train()
	return p.layers(hangingHem.folding("front_on_fold", c.FrontOnFold), func(l layer) draft.Draft {
		c.HemRaise, c.Allowance, c.FrontOnFold = l.raise, l.allow, l.fold
		return train.of(c)
	})
}

var goredSkirt = family{
	name:    "gored-skirt",
	about:   "fitted to the hip and flared below it, or from further down (trumpet)",
	example: `draft = "gored-skirt", gores = 6, hem_sweep = "120", length = "40", flare_from = "24"`,
	keys: []Key{
		goresKey,
		waistKey,
		waistEaseKey,
		{"hip", length.of("hip_girth"), "`hip_girth`", "finished hip"},
		hipEaseKey, hipDepthKey, highHipKey, highHipDownKey,
		{"hem_sweep", length, "", "finished, round the hem"},
		{"front_hem", length, "an equal share", "hem of the centre front gore, or of each of the two"},
		{"length", length, "", "finished, from waist to hem"},
		{"flare_from", length, "the hip",
			"how far below the waist the flare bends out; without it the flare is straight from the hip, or bends " +
				"out below it where that would be too tight above, and `draft` says so if that moves the seams by " +
				"more than 2 mm"},
		{"opening", truth, "true", "open at centre back"},
		trainKey, trainGoresKey,
		liningKey,
	},
	read: readGoredSkirt,
}

func readGoredSkirt(p *partTable) []Layer {
	h := p.hips()
	g := draft.GoredSkirt{Waist: p.waist(), Hip: h.hip, HipDepth: h.depth, HighHip: h.high, Opening: true}
	p.into(&g)
	train := p.train()
	if !p.Has("gores") {
		p.Need("gores", "how many panels go round: gores = 6")
	}
	return p.layers(hangingHem, func(l layer) draft.Draft {
		g.HemRaise, g.Allowance = l.raise, l.allow
		return train.of(g)
	})
}
