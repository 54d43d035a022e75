package job

import (
	"slices"

	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// Ease of a fitted block that is not told another: 3 1/2 in at the bust, within
// the 80 to 100 mm of textbooks (from memory), and 1 in at the waist.
const usualBustEase, usualWaistEase = 3.5 * measure.Inches, 1 * measure.Inches

var bodiceBlock = family{
	name:    "bodice-block",
	about:   "a fitted front and back to the waist with darts, a neck and armholes",
	example: `draft = "bodice-block", opening = "back"`,
	armhole: true,
	keys: slices.Concat([]Key{
		{"bust", length.of("bust_girth"), "`bust_girth`", "girth at the fullest"},
		waistKey,
		{"back_length", length.of("back_neck_point_to_waist"), "`back_neck_point_to_waist`",
			"from the nape to the waist"},
		{"shoulder", length.of("shoulder_length"), "`shoulder_length`", "from the neck to the shoulder's tip"},
		{"neck", length.of("neck_base_girth"), "`neck_base_girth`", "girth at its base"},
		{"armhole_depth", length.of("armhole_depth"), "`armhole_depth`",
			"from the nape down to the bust line, ease included"},
		{"back_width", length.of("back_width"), "`back_width`, else from the bust",
			"across the back between the armholes"},
		{"chest_width", length.of("chest_width"), "`chest_width`, else from the bust",
			"across the chest between the armholes"},
		{"bust_depth", length.of("shoulder_neck_to_bust"), "`shoulder_neck_to_bust`, else from the bust",
			"from the neck point of the shoulder to the bust point"},
		{"bust_span", length.of("bust_span"), "`bust_span`, else from the bust", "from bust point to bust point"},
		{"bust_dart", lengthOr0, "from the bust; under 733 mm none",
			"width of the bust dart at the side; 0: none, as for men"},
		{"ease", signed, "3 1/2 in", "added to the bust"},
		{"waist_ease", signed, "1 in", "added to the waist"},
		{"opening", oneOf("back", "front", "both"), "`back`", "where it opens; the other centre lies on a fold"},
		{"lower_edge", oneOf("seam", "hem"), "`seam`", "sewn to a skirt, or hemmed"},
		{"lining_shorter", lengthOr0, "1 in with a hem", liningKey.Meaning},
	}, styleKeys),
	read: func(p *partTable) []Layer {
		opening := p.Choice("opening")
		b := draft.BodiceBlock{
			Bust:         p.measure("bust"),
			Waist:        p.measure("waist"),
			BackLength:   p.measure("back_length"),
			Shoulder:     p.measure("shoulder"),
			Neck:         p.measure("neck"),
			ArmholeDepth: p.measure("armhole_depth"),
			BackWidth:    p.measureOr("back_width", 0),
			ChestWidth:   p.measureOr("chest_width", 0),
			BustDepth:    p.measureOr("bust_depth", 0),
			BustSpan:     p.measureOr("bust_span", 0),
			Ease:         usualBustEase,
			WaistEase:    usualWaistEase,
			FrontOnFold:  opening == "back",
			BackOnFold:   opening == "front",
		}
		p.into(&b)
		b.NoBustDart = p.Has("bust_dart") && b.BustDart == 0
		b.BodiceStyle = p.bodiceStyle(b)
		b.Hemmed = p.Choice("lower_edge") == "hem"
		if b.Hemmed {
			return p.cutBy(b, unlike{pleat: true, hem: true, shorter: hangingHem.shorter})
		}
		if p.LengthOr("lining_shorter", 0) > 0 {
			p.Fail(p.Field("lining_shorter").At, `lower_edge = "hem"`, "%s has `lining_shorter`, and its waist is sewn to a "+
				"skirt", p.Name)
		}
		return p.cutBy(b, unlike{pleat: true})
	},
}
