package job

import (
	"yardlay/shapes/draft"
)

var petticoat = family{
	name:    "petticoat",
	about:   "gathered tiers on a plain yoke that is fitted, or straight with a casing",
	example: `draft = "petticoat", hip_ease = "3", length = "34", yoke = "9", casing = "3/4", tiers = 3, fullness = 1.75`,
	keys: []Key{
		waistKey,
		waistEaseKey,
		{"hip", length.of("hip_girth"), "`hip_girth`", "that it goes over"},
		hipEaseKey, hipDepthKey, highHipKey, highHipDownKey,
		{"length", length, "", "finished, from waist to hem"},
		{"yoke", length, "", "depth of the yoke, from the waist to the first tier"},
		{"casing", length, "none: a fitted yoke", "width of the casing; the yoke is as wide as the hip then"},
		{"tiers", count(1, mostTiers), "1", "how many, of equal depth"},
		{"depths", length.lists(), "equal shares", "of the tiers from the top, instead of `tiers`"},
		{"fullness", ratio(1, mostFullness), "", "flat length over the length gathered onto, from tier to tier"},
		{"join", lengthOr0, "seam allowance", "allowance at each end of each strip"},
		liningKey,
	},
	read: func(p *partTable) []Layer {
		d := draft.Petticoat{Waist: p.waist(), Tiers: 1, Join: p.allow.Seam}
		p.into(&d)
		d.YokeDepth = p.MustLength("yoke", "9")
		depth := p.measureOr("hip_depth", 0)
		if !p.Has("casing") {
			depth = p.measure("hip_depth")
		}
		h := p.eased(hips{hip: p.measure("hip"), depth: depth})
		d.Hip, d.HipDepth, d.HighHip = h.hip, h.depth, h.high
		if d.Depths = p.depths("depths"); d.Depths != nil {
			d.Tiers = len(d.Depths)
			if p.Has("tiers") {
				p.Fail(p.Field("tiers").At, "the list says how many", "`tiers` beside a list of depths")
			}
		} else if f := p.Field("depths"); f != nil {
			p.Wrong("depths", f.Value, "a list of lengths", `["10", "14"]`)
		}
		if !p.Has("fullness") {
			p.Need("fullness", "flat length over gathered length: 1.5 to 2 for a petticoat")
		}
		return p.cutBy(d, hangingHem)
	},
}

var hood = family{
	name:    "hood",
	about:   "two halves with a seam over the crown, or two sides with a strip between them",
	example: `draft = "hood", neck = "22", height = "14", depth = "10", round = "5", drop = "1"`,
	keys: []Key{
		{"neck", length.of("neck_base_girth"), "`neck_base_girth`", "finished length of the neckline it is sewn to"},
		{"height", length, "", "from the top of the front edge down to the neck"},
		{"depth", length, "", "of a side, from the front edge to the back of the head"},
		{"round", length, "", "radius of the crown at the back"},
		{"drop", lengthOr0, "0", "how much lower the neck lies in front than behind"},
		{"strip", length, "none", "width of a strip between the sides"},
		{"dart", length, "none", "width of a dart in the middle of each side's neck; needs `dart_length`"},
		{"dart_length", length, "none", "from the neck up"},
		sewnInKey,
	},
	read: func(p *partTable) []Layer {
		h := draft.Hood{Neck: p.measure("neck")}
		p.into(&h)
		return p.cutBy(h, sewnIn)
	},
}
