package job

import (
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/draft"
)

var strip = family{
	name:    "strip",
	flat:    true,
	about:   "a ruffle, or a chain of gathered tiers, pieced from strips cut across the cloth",
	example: `draft = "strip", edge = "120", fullness = 2.5, depth = "9", join = "1/2"`,
	keys: []Key{
		{"edge", length, "this or `length`", "what it is gathered onto; needs `fullness`"},
		{"length", length, "this or `edge`", "flat length"},
		{"fullness", ratio(1, mostFullness), "with `edge` or tiers, required",
			"flat length over gathered length, also from tier to tier: 2 to 3 for a ruffle, 3 to 6 for net"},
		{"depth", length.listed(), "", "finished depth of every tier, or of each from the top"},
		{"tiers", count(1, mostTiers), "1",
			"how many, when `depth` is one length; each is gathered onto the one above"},
		{"join", lengthOr0, "seam allowance", "allowance at each end of each strip"},
		closedKey, endHemKey,
	},
	grain: freeInNet,
	read:  readStrip,
}

var netLayers = family{
	name:  "net-layers",
	about: "gathered net layers that climb a circle or a gored skirt, each reaching its hem",
	example: `draft = "net-layers", circle = "full", skirt_length = "41", first_seam = "23", gap = "2", ` +
		`layers = 10, widths = 4`,
	keys: []Key{
		waistKey,
		waistEaseKey,
		{"circle", circleFraction, "that of the skirt it is `sewn_to`",
			"the skirt that the net is sewn onto, as for `circle-skirt`; not for a gored one"},
		{"skirt_length", length, "", "from waist to hem of that skirt"},
		{"first_seam", length, "", "from the waist down to the seam line of the first, lowest layer"},
		{"gap", length, "required for two layers or more", "from one seam line up to the next"},
		{"gap_change", signed, "0", "each further gap is wider by this; negative narrows them"},
		{"layers", count(1, draft.MaxCount), "1", "how many layers"},
		{"widths", ratio(0.01, draft.MaxCount), "this or `fullness`",
			"widths of cloth in each layer, such as 4 or \"3 1/2\""},
		{"fullness", ratio(1, mostFullness), "this or `widths`",
			"flat edge over the girth it is gathered onto; 3 to 6 for net"},
		{"lift", ratio(0, 1), "0.03", "cut deeper by this share, because each layer stands out over the one below"},
		{"join", lengthOr0, "seam allowance", "allowance at each end of each strip"},
		{"hem", lengthOr0, "0", "hem allowance of the net; 0 leaves it raw"},
	},
	grain: freeOfGrain,
	read:  readNetLayers,
}

func readNetLayers(p *partTable) []Layer {
	n := draft.NetLayers{
		Waist: p.waist(), Layers: 1, Lift: draft.DefaultLift, Join: p.allow.Seam, HemAllowance: p.LengthOr("hem", 0),
	}
	p.into(&n)
	if p.Has("circle") || !p.sewn {
		n.SkirtFraction = p.circle()
	}
	if n.Layers > 1 && !p.Has("gap") {
		p.Need("gap", `from one seam line up to the next: gap = "2"`)
	}
	p.either("widths", "fullness", "widths of cloth in each layer, or `fullness`: 3 to 6 for net")
	return p.cutBy(n, unlike{})
}

// Most tiers of a chain: at the least fullness that still gathers, more would
// be longer than a bolt.
const mostTiers = 20

// Most fullness: far beyond what net takes.
const mostFullness = 100

func readStrip(p *partTable) []Layer {
	s := draft.Strip{Name: p.title}
	s.Edge, _ = p.Length("edge")
	s.Length, _ = p.Length("length")
	s.Fullness, _ = p.Ratio("fullness")
	if !p.Has("edge") && !p.Has("length") {
		p.Need("edge", "what it is gathered onto with `fullness`, or `length` for the flat length")
	}
	if p.Has("edge") && p.Has("length") {
		p.Fail(p.Field("length").At, "give one of them", "%s has both `edge` and `length`", p.Name)
	}
	if s.Depths = p.depths("depth"); s.Depths == nil {
		s.Depth = p.MustLength("depth", "9")
		s.Tiers = p.Count("tiers", 1)
	} else if p.Has("tiers") {
		p.Fail(p.Field("tiers").At, "the list says how many", "`tiers` beside a list of depths")
	}
	if (p.Has("edge") || len(s.Depths) > 1 || s.Tiers > 1) && !p.Has("fullness") {
		p.Need("fullness", "flat length over gathered length: 2 to 3 for a ruffle, 3 to 6 for net")
	}
	s.Join = p.LengthOr("join", p.allow.Seam)
	closed, endHem := p.ends()
	return p.alike(func(l layer) draft.Draft {
		s.ClothWidth, s.Allowance = l.cloth.washed(), l.allow
		s.Closed, s.EndHem = closed, endHem(l)
		return s
	})
}

// depths reads a list of the depths of tiers; nil when the key has none.
func (p *partTable) depths(key string) []float64 {
	f := p.Field(key)
	if f == nil || f.Value.Kind != strict.KindList {
		return nil
	}
	depths := []float64{}
	for _, item := range f.Value.Items {
		if mm, ok := p.LengthOf(key, item); ok {
			depths = append(depths, mm)
		}
	}
	if len(f.Value.Items) == 0 || len(f.Value.Items) > mostTiers {
		p.Fail(f.Value.At, "for example "+key+" = [\"9\", \"12\"]", "`%s` lists %d tiers, from 1 to %d", key,
			len(f.Value.Items), mostTiers)
	}
	return depths
}
