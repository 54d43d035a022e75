package job

import (
	"fmt"
	"slices"
	"strings"

	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

var sleeve = family{
	name:  "sleeve",
	about: "a pair of set-in sleeves, drafted to the armholes of a bodice-block or to measured ones",
	example: `draft = "sleeve", style = "bell", front_armhole = "8 1/4", back_armhole = "8 3/4", bicep_ease = "2", ` +
		`length = "24", hem = "11", bell_from = "15", sweep = "32"`,
	keys: []Key{
		{"style", oneOf("straight", "bell", "puff", "bishop", "leg-of-mutton", "two-piece", "flutter"), "`straight`",
			"straight to the hem; a sector below a seam; gathered above and below; a plain cap fanned out and gathered " +
				"into a cuff; a full cap, narrow from the elbow; an upper and an under sleeve, bent; " +
				"a plain cap fanned out to a wide hem"},
		{"bodice", nameOf("part").like(`"bodice"`), "this or both armholes",
			"the bodice-block whose armholes it is sewn into"},
		{"front_armhole", length, "the bodice's", "finished, from underarm to shoulder"},
		{"back_armhole", length, "the bodice's", "the same behind"},
		{"cap_ease", signed, "1 in", "how much longer the cap is than the armhole; 3/4 to 1 1/2 in in woven cloth"},
		{"upper_arm", length.of("upper_arm_girth"), "`upper_arm_girth`", "girth of the arm"},
		{"bicep_ease", lengthOr0, "2 in", "added to it"},
		{"length", length, "this or `underarm`",
			"finished, from the crown to the hem; of a puff or a bishop to its band or cuff"},
		{"underarm", length, "this or `length`",
			"of the underarm seam: 1 in makes a cap sleeve of a straight one; also of a puff, a bishop or a flutter"},
		{"hem", length, "", "girth at the hem, at the seam above a bell, of the band or cuff below a puff or a bishop"},
		{"bell_from", length, "with bell, required", "how far below the crown the bell is sewn on"},
		{"sweep", length, "with bell, required", "hem of the bell"},
		{"fullness", ratio(1, mostFullness), "with puff, bishop and leg-of-mutton, required",
			"its width over that of the plain sleeve; of a bishop along its lower edge, of a leg-of-mutton at the cap"},
		{"puff", lengthOr0, "0",
			"added to the height of a full cap, to the lower edge of a puff, to the length of a bishop, which droops over"},
		{"pleats", count(1, 20), "gathers", "of a puff or a leg-of-mutton: pleats in each half of its cap"},
		{"band", length, "none", "of a puff or a bishop: finished width of its band or cuff, folded"},
		{"cuff_slit", length, "none",
			"of a puff or a bishop with a band: a slit so long above it, bound in a strip; it opens there, with an underlap"},
		{"cuff_underlap", length, "1 in", "what lies under the other end of a cuff that opens"},
		{"cuff_buttons", count(1, 12), "1", "on each cuff that opens"},
		{"lining_shorter", lengthOr0, "1 in; of a puff or a bishop 0", liningKey.Meaning},
	},
	read: readSleeve,
}

// Usual eases of a sleeve (common practice).
const usualCapEase, usualBicepEase = 1 * measure.Inches, 2 * measure.Inches

var sleeveStyles = map[string]draft.SleeveStyle{
	"straight": draft.StraightSleeve, "bell": draft.BellSleeve, "puff": draft.PuffSleeve,
	"bishop": draft.BishopSleeve, "leg-of-mutton": draft.LegOfMuttonSleeve, "two-piece": draft.TwoPieceSleeve,
	"flutter": draft.FlutterSleeve,
}

// ofSleeves says which styles a key is for, where it is not for all, and what one asks for
// that has to have it.
var ofSleeves = []struct {
	key    string
	styles []string
	hint   string // "" where it may be left out
}{
	{"bell_from", []string{"bell"}, `for example bell_from = "15"`},
	{"sweep", []string{"bell"}, `for example sweep = "15"`},
	{"fullness", []string{"puff", "bishop", "leg-of-mutton"}, "2 or more: fullness = 2"},
	{"puff", []string{"puff", "bishop", "leg-of-mutton"}, ""},
	{"pleats", []string{"puff", "leg-of-mutton"}, ""},
	{"band", []string{"puff", "bishop"}, ""},
	{"cuff_slit", []string{"bishop", "puff"}, ""},
	{"underarm", []string{"straight", "puff", "bishop", "flutter"}, ""},
}

func readSleeve(p *partTable) []Layer {
	style := p.Choice("style")
	s := draft.Sleeve{
		Style:   sleeveStyles[style],
		CapEase: usualCapEase,
		Bicep:   p.measure("upper_arm") + p.LengthOr("bicep_ease", usualBicepEase),
	}
	p.into(&s)
	p.setInto = p.bodice()
	p.either("length", "underarm", `for example length = "24", from the crown, or underarm = "18"`)
	for _, k := range ofSleeves {
		switch of := slices.Contains(k.styles, style); {
		case !of && p.Has(k.key):
			p.Fail(p.Field(k.key).At, fmt.Sprintf("style = %q", k.styles[0]), "%s has `%s`, which is for a %s", p.Name, k.key,
				strings.Join(k.styles, " or a "))
		case of && k.hint != "" && !p.Has(k.key):
			p.Need(k.key, k.hint)
		}
	}
	p.cuff(&s)
	hem := hangingHem
	if style == "puff" || style == "bishop" {
		hem = sewnIn
	}
	return p.cutBy(s, hem)
}

// usualUnderlap is that of a cuff (common practice).
const usualUnderlap = 1 * measure.Inches

// cuff reads how a cuff opens.
func (p *partTable) cuff(s *draft.Sleeve) {
	s.Slit = p.LengthOr("cuff_slit", 0)
	s.Underlap = p.LengthOr("cuff_underlap", usualUnderlap)
	s.CuffButtons = p.Count("cuff_buttons", 1)
	if !p.Has("cuff_slit") {
		for _, key := range []string{"cuff_underlap", "cuff_buttons"} {
			if p.Has(key) {
				p.Fail(p.Field(key).At, `for example cuff_slit = "2 1/2"`, "%s has `%s` and no `cuff_slit`", p.Name, key)
			}
		}
	}
}
