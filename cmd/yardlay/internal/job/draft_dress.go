package job

import (
	"fmt"
	"slices"

	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// Usual measures of hoops (common practice): ends lapped by 2 in, channels of 3/4 in, and
// flounces that fall 1 in over the next one's seam.
const usualLap, usualChannel, usualOver = 2 * measure.Inches, 0.75 * measure.Inches, 1 * measure.Inches

var hoopPetticoat = family{
	name:  "hoop-petticoat",
	about: "a cone of gores with channels for hoops, and flounces over them if wanted",
	example: `draft = "hoop-petticoat", length = "40", hoops = 4, first_hoop = "16", sweep = "120", ` +
		`flounce_fullness = 1.7`,
	keys: []Key{
		waistKey,
		waistEaseKey,
		{"hip", length.of("hip_girth"), "`hip_girth`", "that it goes over"},
		hipEaseKey, hipDepthKey, highHipKey, highHipDownKey,
		{"length", length, "", "from waist to hem, straight down: the cloth is longer, for it slants"},
		{"hoops", count(1, 20), "", "how many"},
		{"first_hoop", length, "with two hoops or more, required", "from the waist down to the uppermost, straight down"},
		{"above_hem", lengthOr0, "1 in", "from the lowest hoop to the hem"},
		{"sweep", length, "", "round the lowest hoop"},
		{"overlap", lengthOr0, "2 in", "how far the ends of a hoop lap"},
		{"channel", length, "3/4 in", "finished width of the tapes that the hoops go in"},
		{"casing", length, "none", "width of a casing of tape at the top, which is as wide as the hip then and drawn up; " +
			"without it the waist is sewn on and opens at centre back"},
		{"gores", count(1, mostGores), "6", "how many panels go round"},
		{"flounce_fullness", ratio(1, mostFullness), "no flounces",
			"of flounces over the hoops: flat length over the girth gathered onto"},
		{"flounce_over", lengthOr0, "1 in", "how far a flounce falls over the seam of the next"},
		{"join", lengthOr0, "seam allowance", "allowance at each end of each strip of a flounce"},
	},
	read: func(p *partTable) []Layer {
		d := draft.HoopPetticoat{
			Waist: p.waist(), Hoops: p.Count("hoops", 0), AboveHem: 1 * measure.Inches, Overlap: usualLap,
			Channel: usualChannel, Gores: 6, FlounceOver: usualOver, Join: p.allow.Seam,
		}
		p.into(&d)
		h := hips{hip: p.measure("hip"), depth: p.measureOr("hip_depth", 0)}
		if !p.Has("casing") {
			h.depth = p.measure("hip_depth")
		}
		h = p.eased(h)
		d.Hip, d.HipDepth, d.HighHip = h.hip, h.depth, h.high
		switch {
		case !p.Has("hoops"):
			p.Need("hoops", "how many: hoops = 4")
		case d.Hoops > 1 && !p.Has("first_hoop"):
			p.Need("first_hoop", `from the waist down to the uppermost: first_hoop = "16"`)
		}
		return p.cutBy(d, unlike{})
	},
}

var collar = family{
	name:    "collar",
	about:   "a stand, a flat collar, or a ruff in pleats with its band, as long as the neckline it is sewn to",
	example: `draft = "collar", style = "flat", neck = "15", height = "2 1/2", round = "1", drop = "3/4"`,
	keys: []Key{
		{"style", oneOf("stand", "flat", "ruff"), "`stand`",
			"a band that leans to the neck, part of a ring that lies on the shoulders, or a strip in pleats"},
		{"neck", length, "that of the part it is `sewn_to`, else `neck_base_girth`",
			"finished length of the neckline, from end to end"},
		{"height", length, "", "finished, from the neck to the outer edge; of a ruff without its band"},
		{"opening", oneOf("front", "back"), "`front`", "at which centre it opens; the other lies on a fold"},
		{"round", lengthOr0, "0", "radius of the outer corners; not of a ruff"},
		{"shorter", lengthOr0, "1 in; of other styles 0",
			"of a stand: how much shorter its upper edge is than its neck edge; 0 is straight"},
		{"overlap", length, "10 mm", "of a flat collar that is `sewn_to` a bodice-block and has no `circle`: it is " +
			"drawn on front and back laid together at the neck, with shoulders that overlap so far at the tip. The " +
			"more, the more it rolls over"},
		{"circle", circleFraction, "0.7, where it is not drawn on a bodice-block",
			"of a flat collar: the less, the more it rolls over"},
		{"drop", lengthOr0, "0", "of a flat collar: how much lower its neck lies in front than behind"},
		{"pleats", count(1, 500), "of a ruff, required", "how many"},
		{"depth", length, "of a ruff, required", "of its pleats, from fold to fold"},
		{"band", length, "1/2 in", "of a ruff: finished width of its band, folded"},
		endHemKey,
		{"join", lengthOr0, "seam allowance", "of a ruff: allowance at each end of each strip"},
	},
	grain: keepsGrain,
	read:  readCollar,
}

// A flat collar is usually so much of a circle, and a stand's upper edge so much shorter than
// its neck edge (from memory of textbooks).
const usualFlat, usualShorter, usualBand = 0.7, 1 * measure.Inches, 0.5 * measure.Inches

// ofCollars says which style each key is for, where it is not for all.
var ofCollars = map[string][]string{
	"round": {"stand", "flat"}, "shorter": {"stand"}, "circle": {"flat"}, "drop": {"flat"},
	"overlap": {"flat"}, "pleats": {"ruff"},
	"depth": {"ruff"}, "band": {"ruff"}, "end_hem": {"ruff"}, "join": {"ruff"},
}

func readCollar(p *partTable) []Layer {
	style := p.Choice("style")
	c := draft.Collar{
		Style: draft.CollarStyle(style), OpenBack: p.Choice("opening") == "back", Circle: usualFlat, Band: usualBand,
		Join: p.allow.Seam,
	}
	if style == "stand" {
		c.Shorter = usualShorter
	}
	p.into(&c)
	if p.Has("circle") {
		c.Circle = p.circle()
	}
	formed := p.Has("circle") || p.Has("drop") || p.Has("neck")
	if c.OnShoulders = p.sewn && !formed; p.Has("overlap") && !c.OnShoulders {
		p.Fail(p.Field("overlap").At, "leave it out, or let the part be `sewn_to` a bodice-block without `neck`, "+
			"`circle` and `drop`", "%s has `overlap`, and is not drawn on a bodice", p.Name)
	}
	if !p.Has("neck") && !p.sewn {
		mm, ok := p.body.Measures["neck_base_girth"]
		if c.Neck = mm; !ok {
			p.Need("neck", "give `neck` in this part or `neck_base_girth` under "+p.body.called()+
				", or the part it is `sewn_to`")
		}
	}
	for _, k := range p.drawn.keys {
		styles := ofCollars[k.Name]
		switch {
		case styles != nil && p.Has(k.Name) && !slices.Contains(styles, style):
			p.Fail(p.Field(k.Name).At, fmt.Sprintf("style = %q", styles[0]), "%s has `%s`, which is not for a %s", p.Name,
				k.Name, style)
		case style == "ruff" && (k.Name == "pleats" || k.Name == "depth") && !p.Has(k.Name):
			p.Need(k.Name, "pleats = 60, depth = \"1/2\"")
		}
	}
	endHem := p.endHem()
	return p.alike(func(l layer) draft.Draft {
		c := c
		c.ClothWidth, c.Allowance, c.EndHem = l.cloth.washed(), l.allow, endHem(l)
		return c
	})
}

var veil = family{
	name:    "veil",
	about:   "a layer of net gathered to a comb: a rectangle, a half circle or an oval, with a blusher if wanted",
	example: `draft = "veil", shape = "oval", length = "40", width = "54", gathered = "30", comb = "4"`,
	grain:   freeInNet,
	keys: []Key{
		{"shape", oneOf("rectangle", "half-circle", "oval"), "`rectangle`",
			"a half circle is twice as wide as long; an oval is half of one, or a whole one with a `blusher`"},
		{"length", length, "", "from the comb at the crown down the middle to the hem"},
		{"width", length, "with all but half-circle, required", "at its widest"},
		{"blusher", length, "none", "of an oval: length of the part that falls over the face"},
		{"round", lengthOr0, "0", "radius of the lower corners of a rectangle"},
		{"comb", length, "", "width that it is gathered to"},
		{"gathered", length, "all", "how much of the upper edge, its middle, or of the line over the comb is gathered"},
		{"hem", lengthOr0, "0", "hem allowance; 0 leaves it raw"},
	},
	read: func(p *partTable) []Layer {
		v := draft.Veil{Shape: draft.VeilShape(p.Choice("shape"))}
		p.into(&v)
		if half := v.Shape == draft.HalfCircleVeil; half && p.Has("width") {
			p.Fail(p.Field("width").At, "leave it out", "%s has `width`: a half circle is twice as wide as it is long", p.Name)
		} else if !half && !p.Has("width") {
			p.Need("width", `at its widest: width = "54"`)
		}
		hem := p.LengthOr("hem", 0)
		return p.alike(func(l layer) draft.Draft {
			v := v
			v.Allowance = l.allow
			v.Allowance.Hem = hem
			return v
		})
	},
}
