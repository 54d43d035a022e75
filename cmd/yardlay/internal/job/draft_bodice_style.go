package job

import (
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// styleKeys are those by which a bodice-block becomes a style.
var styleKeys = []Key{
	{"bust_dart_at", oneOf("side", "shoulder", "neck", "armhole", "waist", "centre"), "`side`",
		"where the bust dart opens: turned about the bust point, it takes up what it did; at the waist it is one with " +
			"the waist dart, at the centre the front has a seam"},
	{"one_dart", truth, "false", "the waist dart of the front is turned into the bust dart"},
	{"panels", oneOf("none", "shoulder", "armhole"), "`none`",
		"in place of darts a seam from the waist over bust and shoulder blade up to there, front and back"},
	{"neckline", oneOf("base", "round", "square", "V", "boat", "off-shoulder"), "`base`",
		"the neck in front; `base`: as measured round the base of the neck; `off-shoulder`: over the upper arms, where " +
			"the caps of sleeves are cut off to the same line"},
	{"neckline_back", oneOf("base", "round", "square", "V", "boat", "off-shoulder"),
		"`round`; with a boat, a base or off the shoulder the same", "the neck behind"},
	{"neck_width", lengthOr0, "1 in; with a boat half the shoulder",
		"how far out along the shoulder the neckline begins"},
	{"neck_depth", lengthOr0, "1 in; with a V 4 in, with a boat 0",
		"how far below the base of the neck it lies at the centre front; off the shoulder, below where it meets the " +
			"armhole"},
	{"neck_back_depth", lengthOr0, "3/4 in",
		"how far below the nape it lies at the centre back; off the shoulder, below where it meets the armhole"},
	{"off_shoulder", length, "a third of the armhole depth",
		"with off-shoulder: how far below the tip of the shoulder, along the armhole, the neckline lies"},
	{"shoulder_in", lengthOr0, "0", "how much narrower the shoulder is at its tip, as without a sleeve"},
	{"armhole_drop", signed, "0",
		"how far the underarm is moved down the side seam; negative: up, by at most 1 in, as without a sleeve"},
	{"waist_drop", signed, "0", "how far below the waist the waist seam lies; negative: above it"},
	{"waist_drop_girth", length, "between what the body gives above and below",
		"girth of the body at that seam; `waist_ease` is added"},
}

// Usual lines of a neck (our own).
const (
	usualNeckWidth     = 1 * measure.Inches
	usualNeckDepth     = 1 * measure.Inches
	usualVDepth        = 4 * measure.Inches
	usualNeckBackDepth = 0.75 * measure.Inches
)

// necklines are the words of the keys.
var necklines = map[string]draft.Neckline{"base": "", "round": draft.RoundNeck, "square": draft.SquareNeck,
	"V": draft.VNeck, "boat": draft.BoatNeck, "off-shoulder": draft.OffShoulderNeck}

// bodiceStyle reads the style of a block; keys of plain lengths are read into it already.
func (p *partTable) bodiceStyle(b draft.BodiceBlock) draft.BodiceStyle {
	s := b.BodiceStyle
	s.BustDartAt = draft.DartPlace(p.Choice("bust_dart_at"))
	if from := p.Choice("panels"); from != "none" {
		s.PanelsFrom = draft.DartPlace(from)
	}
	s.Neckline = necklines[p.Choice("neckline")]
	switch {
	case p.Has("neckline_back"):
		s.NecklineBack = necklines[p.Choice("neckline_back")]
	case s.Neckline != "" && s.Neckline != draft.BoatNeck && s.Neckline != draft.OffShoulderNeck:
		s.NecklineBack = draft.RoundNeck
	default:
		s.NecklineBack = s.Neckline
	}
	if s.Neckline == "" && s.NecklineBack == "" {
		for _, key := range []string{"neck_width", "neck_depth", "neck_back_depth"} {
			if p.Has(key) {
				p.Fail(p.Field(key).At, `neckline = "round"`, "%s has `%s` and its neck lies at the base of the neck", p.Name,
					key)
			}
		}
		return p.waistSeam(b, s)
	}
	or := func(key string, to *float64, usual float64) {
		if !p.Has(key) {
			*to = usual
		}
	}
	width, depth := usualNeckWidth, usualNeckDepth
	switch s.Neckline {
	case draft.BoatNeck:
		width, depth = b.Shoulder/2, 0
	case draft.VNeck:
		depth = usualVDepth
	case draft.OffShoulderNeck:
		width = 0
		or("off_shoulder", &s.OffShoulder, b.ArmholeDepth/3)
	}
	or("neck_width", &s.NeckWidth, width)
	or("neck_depth", &s.NeckDepth, depth)
	or("neck_back_depth", &s.NeckBackDepth, usualNeckBackDepth)
	return p.waistSeam(b, s)
}

// waistSeam reads the girth of the body at a waist seam that lies above or below the waist:
// as it is given, or between those that the body gives above and below it.
func (p *partTable) waistSeam(b draft.BodiceBlock, s draft.BodiceStyle) draft.BodiceStyle {
	if p.Has("waist_drop_girth") && s.WaistDrop == 0 {
		p.Fail(p.Field("waist_drop_girth").At, `waist_drop = "2"`,
			"%s has `waist_drop_girth` and its waist seam lies at the waist", p.Name)
	}
	if s.WaistDrop == 0 || s.WaistDropGirth > 0 {
		return s
	}
	between := func(girth, away string) {
		g, d := p.body.Measures[girth], p.body.Measures[away]
		if far := max(s.WaistDrop, -s.WaistDrop); g > 0 && d > 0 && far <= d {
			s.WaistDropGirth = b.Waist + (g-b.Waist)*far/d
		}
	}
	if s.WaistDrop < 0 {
		between("bust_girth", "waist_to_bust")
		between("underbust_girth", "waist_to_underbust")
		return s
	}
	between("hip_girth", "waist_to_hips")
	between("high_hip_girth", "waist_to_high_hip")
	return s
}
