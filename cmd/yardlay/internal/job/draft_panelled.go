package job

import (
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/draft"
)

// figureKeys are the girths and heights of a close-fitting body.
var figureKeys = []Key{
	{"over_bust", length.of("over_bust_girth"), "`over_bust_girth`", "girth under the arms, above the bust"},
	{"bust", length.of("bust_girth"), "`bust_girth`", "girth at the fullest"},
	{"underbust", length.of("underbust_girth"), "`underbust_girth`", "girth under the bust"},
	waistKey,
	{"high_hip", length.of("high_hip_girth"), "`high_hip_girth`", "girth over the hip bones"},
	{"over_bust_up", length.of("waist_to_over_bust"), "`waist_to_over_bust`", "from the waist up"},
	{"bust_up", length.of("waist_to_bust"), "`waist_to_bust`", "from the waist up"},
	{"underbust_up", length.of("waist_to_underbust"), "`waist_to_underbust`", "from the waist up"},
	{"high_hip_down", length.of("waist_to_high_hip"), "`waist_to_high_hip`", "from the waist down"},
}

// figure reads the figure down to the high hip, or to the waist.
func (p *partTable) figure(highHip bool) draft.Figure {
	f := draft.Figure{
		OverBust:    p.measure("over_bust"),
		Bust:        p.measure("bust"),
		UnderBust:   p.measure("underbust"),
		Waist:       p.measure("waist"),
		OverBustUp:  p.measure("over_bust_up"),
		BustUp:      p.measure("bust_up"),
		UnderBustUp: p.measure("underbust_up"),
	}
	if highHip {
		f.HighHip = p.measure("high_hip")
		f.HighHipDown = p.measure("high_hip_down")
	} else { // may stand there all the same, for when ends_at changes
		p.measureOr("high_hip", 0)
		p.measureOr("high_hip_down", 0)
	}
	return f
}

// panelKeys are those that bodies of panels share beyond the figure.
var panelKeys = []Key{
	{"panels", countOf(6, 8, 10, 12), "", "round the whole body"},
	{"shares", ratio(0.01, 1).lists(), "our own", "of the half waist, one a panel from front to back, summing to 1"},
	{"facing", lengthOr0, "0", "grown on at centre back, folded back behind eyelets or zip"},
	{"front_dip", lengthOr0, "0", "how much lower than the over-bust the top lies at centre front"},
	{"side_dip", lengthOr0, "0", "the same under the arm"},
	{"back_dip", lengthOr0, "0", "the same at centre back"},
	{"side_rise", lengthOr0, "0", "how much higher the lower edge lies at the side than at centre front"},
	{"back_rise", lengthOr0, "0", "the same at centre back"},
	{"top", oneOf("curved", "straight", "sweetheart", "pointed"), "`curved`",
		"how the top edge runs: smooth over the bust, straight, in two lobes that meet `front_dip` deep, or rising to a " +
			"point at centre front"},
	{"front_peak", lengthOr0, "0", "of a pointed top: how high the point stands above the over-bust"},
	{"lower", oneOf("curved", "straight", "pointed", "scooped"), "`curved`",
		"how the lower edge runs: smooth, straight, down to a point at centre front, or cut out there and lowest over " +
			"the hip bones"},
	{"front_point", lengthOr0, "0", "of a pointed lower edge: how far the point lies below the high hip"},
	{"front_rise", lengthOr0, "0", "of a scooped lower edge: how far it is cut out at centre front"},
	{"bust_gusset", length, "none", "wedges set in beside the seam over the bust, which take what the body widens by: " +
		"from the over-bust down to their point, which lies between bust and under-bust"},
	{"hip_gusset", length, "none", "wedges set in at the hips: from the lower edge up to their point"},
	{"gusset_share", ratio(0.05, 1), "1", "how much of what the body widens by gussets take; the seams take the rest"},
	{"channel", length, "none", "width of the boning channels marked along the seams"},
	{"mid_bones", truth, "false", "a channel in the middle of every panel as well"},
	{"bone_ends", length, "5/16 in", "how far bones end from the finished edges, above and below"},
	{"waist_tape", length, "none", "width of a tape round the waist, which takes the pull off the seams: its line is " +
		"marked, and the cut list says how long it is cut"},
	sewnInKey,
}

// shares reads how the half waist is divided.
func (p *partTable) shares() []float64 {
	f := p.Field("shares")
	if f == nil {
		return nil
	}
	const example = `[0.3, 0.24, 0.22, 0.24]`
	if f.Value.Kind != strict.KindList {
		p.Wrong("shares", f.Value, "a list of ratios", example)
		return nil
	}
	var all []float64
	for _, item := range f.Value.Items {
		if share, ok := p.RatioOf("shares", item); ok {
			all = append(all, share)
		}
	}
	return all
}

// panelled reads what bodies of panels have in common but for what they are called by.
func (p *partTable) panelled(highHip, onFold bool) draft.PanelledBody {
	b := draft.PanelledBody{Figure: p.figure(highHip), Panels: 6, FrontOnFold: onFold,
		Top: draft.TopStyle(p.Choice("top")), Lower: draft.LowerStyle(p.Choice("lower"))}
	if !p.Has("panels") {
		p.Need("panels", "an even number from 6 to 12: panels = 8")
	}
	b.Shares = p.shares()
	return b
}

var corset = family{
	name:  "corset",
	about: "a laced body of panels from over the bust to the high hip, drawn in at the waist",
	example: `draft = "corset", panels = 10, reduction = "2", lacing_gap = "2", front = "opening", ` +
		`facing = "1 1/2", channel = "3/8"`,
	keys: append(append([]Key{
		{"reduction", lengthOr0, "0", "taken from the waist, at most a fifth; 2 to 3 in for a first corset"},
		{"ease", signed, "0", "added to every other girth; negative draws in"},
		{"lacing_gap", lengthOr0, "0", "left open by the lacing"},
		{"front", oneOf("seam", "fold", "opening"), "`seam`",
			"centre front: sewn, cut in one, or closed by a busk, a zip or hooks; laced where the back is sewn"},
		{"back", oneOf("opening", "seam"), "`opening`", "centre back: laced, or sewn, and the lacing in front"},
	}, figureKeys...), panelKeys...),
	read: func(p *partTable) []Layer {
		front := p.Choice("front")
		c := draft.Corset{PanelledBody: p.panelled(true, front == "fold"), FrontOpening: front == "opening",
			BackSeam: p.Choice("back") == "seam"}
		p.into(&c)
		return p.cutBy(c, sewnInPleated)
	},
}

var straplessBodice = family{
	name:    "strapless-bodice",
	about:   "a fitted body of panels that ends over the bust, to the waist or the high hip",
	example: `draft = "strapless-bodice", panels = 8, ease = "-1/2", front = "fold", front_dip = "1", channel = "3/8"`,
	keys: append(append([]Key{
		{"ends_at", oneOf("waist", "high-hip"), "`waist`", "its lower edge"},
		{"lower_edge", oneOf("seam", "hem"), "`seam`",
			"at the waist: sewn to a skirt, or hemmed; at the high hip it is hemmed"},
		{"ease", signed, "0", "added to every girth; negative where it must hold itself up"},
		{"closing", oneOf("zip", "lacing"), "`zip`", "at centre back"},
		{"lacing_gap", lengthOr0, "0", "left open by the lacing"},
		{"front", oneOf("seam", "fold"), "`seam`", "centre front sewn, or cut in one"},
	}, figureKeys...), panelKeys...),
	read: func(p *partTable) []Layer {
		highHip := p.Choice("ends_at") == "high-hip"
		s := draft.StraplessBodice{
			PanelledBody: p.panelled(highHip, p.Choice("front") == "fold"),
			Laced:        p.Choice("closing") == "lacing",
		}
		p.into(&s)
		s.Hemmed = p.Choice("lower_edge") == "hem"
		return p.cutBy(s, sewnInPleated)
	},
}
