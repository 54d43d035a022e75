package job

import (
	"yardlay/shapes"
	"yardlay/shapes/measure"
)

// Keys of skirts that go over the hip.
var (
	clearHipKey = Key{"hip", "length", "`hip_girth`", "that it has to clear; not checked without it"}
	hipEaseKey  = Key{"hip_ease", "length", "0", "added to the hip; 2 to 2 3/4 in is usual"}
	hipDepthKey = Key{"hip_depth", "length", "`waist_to_hips`", "from waist to hip"}
)

// clears reads the hip that a skirt has to clear, ease included, and its depth;
// without a depth the body's hip is not checked.
func (p *partTable) clears() (hip, depth float64) {
	hip = p.measureOr("hip", "hip_girth", 0)
	ease := p.lengthOr("hip_ease", 0, measure.ParseNonNegative)
	depth = p.measureOr("hip_depth", "waist_to_hips", 0)
	if hip == 0 || depth == 0 && !p.has("hip") {
		return 0, 0
	}
	return hip + ease, depth
}

// Keys of a train.
var (
	trainKey      = Key{"train", "length", "none", "how much longer the centre back is than `length`"}
	trainGoresKey = Key{"train_gores", "whole number", "all but the front ones", "gores on each side, from centre back, that run on into the train"}
)

// train is what a skirt is lengthened by behind.
type train struct {
	behind float64
	gores  int
}

func (p *partTable) train() train {
	t := train{behind: p.lengthOr("train", 0, measure.ParsePositive)}
	if p.has("train_gores") {
		t.gores = p.count("train_gores", 1, 1, mostGores)
		if !p.has("train") {
			p.fail(p.field("train_gores").at, `say how long it is: train = "20"`, "%s has `train_gores` and no `train`", p.name)
		}
	}
	return t
}

// of gives the skirt its train, where there is one.
func (t train) of(skirt shapes.Sewn) shapes.Draft {
	if t.behind == 0 {
		return skirt
	}
	return shapes.Train{Skirt: skirt, Behind: t.behind, BackGores: t.gores}
}
