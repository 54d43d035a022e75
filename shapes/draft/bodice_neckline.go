package draft

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// shape moves neck, shoulder and armhole of a half to where the style has them.
func (b BodiceBlock) shape(h *blockHalf, line Neckline, depth, shoulder float64) {
	share := shoulder / b.Shoulder // the back shoulder is longer by its ease, and so is all along it
	h.line = line
	tip := h.shoulderTip(shoulder - b.ShoulderIn*share)
	h.neckPoint, h.tip = h.shoulderTip(b.NeckWidth*share), tip
	h.centreNeck[0] += depth
	h.width -= chestIn * b.ShoulderIn
	if b.ArmholeDrop != 0 {
		t := b.ArmholeDrop / planar.Distance(h.side, h.underarm)
		h.underarm[0] += t * (h.side[0] - h.underarm[0])
		h.underarm[1] += t * (h.side[1] - h.underarm[1])
	}
	if b.off() {
		b.cutOff(h, depth)
	}
}

// shapeHalves styles both halves, and refuses lines that the block has no room for.
func (b BodiceBlock) shapeHalves(front, back *blockHalf) error {
	b.shape(front, b.Neckline, b.NeckDepth, b.Shoulder)
	b.shape(back, b.NecklineBack, b.NeckBackDepth, b.Shoulder+shoulderEase)
	for _, h := range []struct {
		name, key string
		line      Neckline
		*blockHalf
	}{{"front", "neck_depth", b.Neckline, front}, {"back", "neck_back_depth", b.NecklineBack, back}} {
		if b.off() {
			if err := b.checkOffHalf(h.name, h.key, *h.blockHalf); err != nil {
				return err
			}
		}
		low, width := h.centreNeck[0], h.neckPoint[1]
		if left := h.centreWaist[0] - low; left < leastCentre {
			return say.Errorf("the neck of the %s leaves %.1f of its centre above the waist seam, needs %v", h.name,
				say.MM(left), say.MM(leastCentre)).Hint("a smaller `%s`", h.key)
		}
		if b.off() {
			continue
		}
		if h.line != "" && low < h.neckPoint[0]+leastDart {
			return say.Errorf("a neck %.1f wider begins %v the nape at the shoulder, and is %v it at the centre of the %s",
				say.MM(b.NeckWidth), belowOrAbove(h.neckPoint[0]), belowOrAbove(low), h.name).
				Hint("a larger `%s`, or a smaller `neck_width`", h.key)
		}
		if apart := clearance(h.neckLine(b.Chord), h.armholeLine(b.Chord)); apart < leastShoulder-neckSlack {
			return say.Errorf("neck and armhole of the %s come within %.1f of each other, needs %v", h.name,
				say.MM(apart), say.MM(leastShoulder)).
				Hint("a neck %.1f wide to each side and the width of the %s go together; a smaller `neck_width`, "+
					"`%s` or `armhole_drop`", say.MM(width), h.name, h.key)
		}
	}
	if left := planar.Distance(back.underarm, back.side); left < b.leastSide() {
		return say.Errorf("an armhole lowered by %.1f leaves %.1f of side seam, needs %v", say.MM(b.ArmholeDrop),
			say.MM(left), say.MM(b.leastSide())).Hint("a smaller `armhole_drop`")
	}
	return nil
}

// belowOrAbove says how far below a line a place is, or how far above it.
func belowOrAbove(down float64) say.Text {
	if down < 0 {
		return say.Textf("%.1f above", say.MM(-down))
	}
	return say.Textf("%.1f below", say.MM(down))
}

// neckSlack is what the chord of a curve may take of a shoulder, mm.
const neckSlack = 2

// quarterHandle is that of a quarter circle by a cubic, within 0.03 %.
const quarterHandle = 0.5523

// neckLine is the neck from the neck point to the centre within a chord error.
func (h blockHalf) neckLine(chord float64) orb.LineString {
	a, c := h.neckPoint, h.centreNeck
	switch h.line {
	case OffShoulderNeck:
		return h.offNeck(chord)
	case SquareNeck:
		return orb.LineString{a, {c[0], a[1]}, c}
	case VNeck:
		return orb.LineString{a, c}
	case BoatNeck:
		down := c[0] - a[0]
		return chain(chord, cubic{a, {a[0] + 0.55*down, 0.8 * a[1]}, {c[0], 0.5 * a[1]}, c})
	case RoundNeck: // square to the shoulder and to the centre
		sin, cos := math.Sincos(h.slope)
		k := quarterHandle * (c[0] - a[0])
		return chain(chord, cubic{a, {a[0] + k*cos, a[1] - k*sin}, {c[0], quarterHandle * a[1]}, c})
	}
	return chain(chord, h.neck())
}

// armholeLine is the armhole from the underarm to the shoulder's tip, or to a neckline off it.
func (h blockHalf) armholeLine(chord float64) orb.LineString {
	whole := h.wholeArmhole(chord)
	if h.off == 0 {
		return whole
	}
	end, _ := h.offEnd()
	kept, _ := splitAt(whole, plane.Length(whole)-h.off)
	kept[len(kept)-1] = end
	return kept
}

// wholeArmhole is that up to the shoulder's tip.
func (h blockHalf) wholeArmhole(chord float64) orb.LineString {
	lower, upper := h.armhole()
	return chain(chord, lower, upper)
}
