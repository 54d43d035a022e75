package job

import (
	"fmt"
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
		return p.cutBy(b, unlike{pleat: true})
	},
}

var sleeve = family{
	name:  "sleeve",
	about: "a pair of set-in sleeves, drafted to the armholes of a bodice-block or to measured ones",
	example: `draft = "sleeve", style = "bell", front_armhole = "8 1/4", back_armhole = "8 3/4", bicep_ease = "2", ` +
		`length = "24", hem = "11", bell_from = "15", sweep = "32"`,
	keys: []Key{
		{"style", oneOf("straight", "bell", "puff"), "`straight`",
			"straight to the hem, a sector below a seam, or gathered above and below"},
		{"bodice", nameOf("part").like(`"bodice"`), "this or both armholes",
			"the bodice-block whose armholes it is sewn into"},
		{"front_armhole", length, "the bodice's", "finished, from underarm to shoulder"},
		{"back_armhole", length, "the bodice's", "the same behind"},
		{"cap_ease", signed, "1 in", "how much longer the cap is than the armhole; 3/4 to 1 1/2 in in woven cloth"},
		{"upper_arm", length.of("upper_arm_girth"), "`upper_arm_girth`", "girth of the arm"},
		{"bicep_ease", lengthOr0, "2 in", "added to it"},
		{"length", length, "", "finished, from the crown to the hem; of a puff to its band"},
		{"hem", length, "", "girth at the hem, at the seam above a bell, of the band below a puff"},
		{"bell_from", length, "with bell, required", "how far below the crown the bell is sewn on"},
		{"sweep", length, "with bell, required", "hem of the bell"},
		{"fullness", ratio(1, mostFullness), "with puff, required", "its width over that of the plain sleeve"},
		{"puff", lengthOr0, "0", "of a puff: added to the crown's height and to the lower edge"},
		{"band", length, "none", "of a puff: finished width of its band, folded"},
		{"lining_shorter", lengthOr0, "1 in; of a puff 0", liningKey.Meaning},
	},
	read: readSleeve,
}

// Usual eases of a sleeve (common practice).
const usualCapEase, usualBicepEase = 1 * measure.Inches, 2 * measure.Inches

func readSleeve(p *partTable) []Layer {
	styles := map[string]draft.SleeveStyle{"straight": draft.StraightSleeve, "bell": draft.BellSleeve,
		"puff": draft.PuffSleeve}
	style := p.Choice("style")
	s := draft.Sleeve{
		Style:   styles[style],
		CapEase: usualCapEase,
		Bicep:   p.measure("upper_arm") + p.LengthOr("bicep_ease", usualBicepEase),
	}
	p.into(&s)
	p.setInto = p.bodice()
	for _, k := range []string{"bell_from", "sweep"} {
		p.ofStyle(k, style, "bell", fmt.Sprintf(`for example %s = "15"`, k), true)
	}
	p.ofStyle("fullness", style, "puff", "2 or more: fullness = 2", true)
	p.ofStyle("puff", style, "puff", "", false)
	p.ofStyle("band", style, "puff", "", false)
	hem := hangingHem
	if s.Style == draft.PuffSleeve {
		hem = sewnIn
	}
	return p.cutBy(s, hem)
}

// ofStyle refuses a key that a sleeve of another style has no use for, and asks
// for one that the style must have.
func (p *partTable) ofStyle(key, style, of, hint string, must bool) {
	switch {
	case style != of && p.Has(key):
		p.Fail(p.Field(key).At, fmt.Sprintf("style = %q", of), "%s has `%s`, which is for a %s", p.Name, key, of)
	case style == of && must && !p.Has(key):
		p.Need(key, hint)
	}
}
