package draft

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// A neckline off the shoulder runs over the upper arms. It meets the armhole OffShoulder
// below the shoulder's tip, measured along the armhole, squarely: the sleeve's upper edge
// meets its cap squarely too, so that both run on without a corner once they are sewn. The
// shoulder above it is cut away:
//
//	   .....                      .....
//	  :     '.  tip            cap '-.:.-'  cut away
//	  :       )                   ___:___
//	  |'--.__.)  OffShoulder     )  '---'  (   upper edge
//	  |      (                 .'           '.
//	centre  armhole            front      back
const (
	leastOff     = 25 // how far below the tip the neckline lies, mm: less slips up (our own figure)
	leastArmhole = 60 // what is left of each half of an armhole, mm (our own figure)
	overPoint    = 30 // how far above the bust point the neckline stays, mm (our own figure)
)

// off says whether the neckline lies off the shoulder.
func (b BodiceBlock) off() bool { return b.Neckline == OffShoulderNeck }

// checkOff refuses what does not go with a neckline off the shoulder.
func (b BodiceBlock) checkOff() error {
	if (b.Neckline == OffShoulderNeck) != (b.NecklineBack == OffShoulderNeck) {
		return say.Errorf("a neckline off the shoulder runs round over both arms, and only that of the %s is",
			map[bool]string{true: "front", false: "back"}[b.off()]).
			Hint("both `neckline` and `neckline_back` off the shoulder, or neither")
	}
	switch {
	case !b.off() && b.OffShoulder > 0:
		return say.Errorf("the neckline lies %.1f below the shoulder, and is not one off the shoulder",
			say.MM(b.OffShoulder)).Hint(`neckline = "off-shoulder"`)
	case !b.off():
		return nil
	case b.NeckWidth > 0 || b.ShoulderIn > 0:
		return say.Errorf("a neckline off the shoulder leaves no shoulder to be made narrower").
			Hint("leave out `neck_width` and `shoulder_in`")
	case b.PanelsFrom == DartAtShoulder:
		return say.Errorf("a neckline off the shoulder leaves no shoulder for the seam of the panels").
			Hint(`panels = "armhole"`)
	case b.BustDartAt == DartAtShoulder:
		return say.Errorf("a neckline off the shoulder leaves no shoulder for the bust dart").
			Hint("move it elsewhere by `bust_dart_at`")
	case b.OffShoulder < leastOff:
		return say.Errorf("a neckline %.1f below the tip of the shoulder slips up over it, needs %v",
			say.MM(b.OffShoulder), say.MM(leastOff)).Hint("a larger `off_shoulder`")
	}
	return nil
}

// cutOff brings the neckline of a half below the shoulder. What lies lower at the centre counts from
// where it meets the armhole.
func (b BodiceBlock) cutOff(h *blockHalf, depth float64) {
	h.line, h.off = OffShoulderNeck, b.OffShoulder
	h.neckPoint, _ = h.offEnd()
	h.centreNeck[0] = h.neckPoint[0] + depth
}

// offEnd is where the neckline meets the armhole, and its direction there, into the piece.
func (h blockHalf) offEnd() (at, in orb.Point) {
	const fine = leastChord // so that a chord leans from the curve by less than 0.01
	whole := h.wholeArmhole(fine)
	at, out := shapesEdge(whole).At(plane.Length(whole) - h.off)
	return at, orb.Point{-out[0], -out[1]}
}

// offNeck is the neckline, square to the armhole and level at the centre.
func (h blockHalf) offNeck(chord float64) orb.LineString {
	at, in := h.offEnd()
	k := at[1] / 3
	return chain(chord, cubic{at, {at[0] + k*in[0], at[1] + k*in[1]}, {h.centreNeck[0], k}, h.centreNeck})
}

// checkOffHalf refuses a neckline that leaves too little of a half.
func (b BodiceBlock) checkOffHalf(name, key string, h blockHalf) error {
	if left := plane.Length(h.wholeArmhole(b.Chord)) - b.OffShoulder; left < leastArmhole {
		return say.Errorf("a neckline %.1f below the tip of the shoulder leaves %.1f of the armhole of the %s, needs %v",
			say.MM(b.OffShoulder), say.MM(left), name, say.MM(leastArmhole)).Hint("a smaller `off_shoulder`")
	}
	if name != "front" {
		return nil
	}
	low := math.Inf(-1)
	for _, v := range h.neckLine(b.Chord) {
		low = max(low, v[0])
	}
	if above := b.bustPoint()[0] - low; above < overPoint {
		return say.Errorf("the neckline off the shoulder comes down to %.1f above the bust points, needs %v",
			say.MM(above), say.MM(overPoint)).Hint("a smaller `off_shoulder` or `%s`", key)
	}
	return nil
}

// shoulders are both sides of the shoulder seam of a front and a back in one.
func (b BodiceBlock) shoulders() [2][]shapes.SewnEdge {
	if b.off() {
		return [2][]shapes.SewnEdge{}
	}
	return [2][]shapes.SewnEdge{{along(blockFront, "shoulder")}, {against(blockBack, "shoulder")}}
}

// offNote says what holds such a bodice up.
func (b BodiceBlock) offNote() say.Text {
	return say.Textf("The neckline lies %.1f below the tips of the shoulders, along the armholes: nothing hangs on the "+
		"shoulders. Bone it, or hold its upper edge by elastic or a stay, before you rely on sleeves.",
		say.MM(b.OffShoulder))
}
