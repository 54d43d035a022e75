package job

import (
	"yardlay/shapes/draft"
)

// Keys of skirts that go over the hip.
var (
	clearHipKey = Key{"hip", length.of("hip_girth"), "`hip_girth`", "that it has to clear; not checked without it"}
	hipEaseKey  = Key{"hip_ease", lengthOr0, "0", "added to the hip; 2 to 2 3/4 in is usual"}
	hipDepthKey = Key{"hip_depth", length.of("waist_to_hips"), "`waist_to_hips`", "from waist to hip"}
)

// Keys of the high hip, of all that goes over it.
var (
	highHipKey = Key{"high_hip", length.of("high_hip_girth"), "`high_hip_girth`, else an estimate",
		"girth over the hip bones: no tighter there, `hip_ease` included. The estimate lies 5/7 of the way from " +
			"waist to hip"}
	highHipDownKey = Key{"high_hip_down", length.of("waist_to_high_hip"),
		"`waist_to_high_hip`, else half of `hip_depth`", "from waist to high hip"}
)

// hips is what a skirt goes over, ease included.
type hips struct {
	hip, depth float64
	high       draft.HighHip
}

// hips reads a hip that must be given, and what lies above it.
func (p *partTable) hips() hips {
	h := hips{hip: p.measure("hip"), depth: p.measure("hip_depth")}
	return p.eased(h)
}

// clears reads the hip that a skirt has to clear; without a depth the body's hip is
// not checked.
func (p *partTable) clears() hips {
	h := hips{hip: p.measureOr("hip", 0), depth: p.measureOr("hip_depth", 0)}
	checked := h.hip > 0 && (h.depth > 0 || p.Has("hip"))
	h = p.eased(h)
	if !checked {
		return hips{}
	}
	return h
}

// eased adds the ease, and the high hip: as measured, else as it is on most bodies
// of this waist and hip.
func (p *partTable) eased(h hips) hips {
	ease := p.LengthOr("hip_ease", 0)
	high, down := 0.0, h.depth/2 // one that the body only estimates is estimated here, for this hip
	if p.Has("high_hip") || p.body.from["high_hip_girth"] != fromHips {
		high = p.measureOr("high_hip", 0)
	}
	if p.Has("high_hip_down") || p.body.from["waist_to_high_hip"] != fromHips {
		down = p.measureOr("high_hip_down", down)
	}
	waist := p.measureOr("waist", 0)
	switch {
	case high > 0:
		h.high = draft.HighHip{Girth: high + ease, Depth: down}
	case waist > 0 && h.hip > waist && h.depth > 0:
		h.high = draft.EstimatedHighHip(waist, h.hip, h.depth)
		h.high.Girth += ease
	}
	h.hip += ease
	return h
}

// Keys of a train.
var (
	trainKey      = Key{"train", length, "none", "how much longer the centre back is than `length`"}
	trainGoresKey = Key{"train_gores", count(1, mostGores), "all but the front ones",
		"gores on each side, from centre back, that run on into the train"}
)

// train is what a skirt is lengthened by behind.
type train struct {
	behind float64
	gores  int
}

func (p *partTable) train() train {
	t := train{behind: p.LengthOr("train", 0)}
	if p.Has("train_gores") {
		t.gores = p.Count("train_gores", 1)
		if !p.Has("train") {
			p.Fail(p.Field("train_gores").At, `say how long it is: train = "20"`, "%s has `train_gores` and no `train`",
				p.Name)
		}
	}
	return t
}

// of gives the skirt its train, where there is one.
func (t train) of(skirt draft.Draft) draft.Draft {
	if t.behind == 0 {
		return skirt
	}
	return draft.Train{Skirt: skirt, Behind: t.behind, BackGores: t.gores}
}
