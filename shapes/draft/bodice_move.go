package draft

import (
	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// pivots says whether the darts of the front lie elsewhere than at side and waist.
func (b BodiceBlock) pivots() bool {
	return b.OneDart || b.BustDartAt != "" && b.BustDartAt != DartAtSide
}

// dartShares are how far along an edge its dart opens (common practice: in the middle of a
// shoulder, clear of the notches of an armhole).
var dartShares = map[DartPlace]float64{DartAtShoulder: 0.5, DartAtNeck: 0.5, DartAtArmhole: 0.55}

// bustPoint is where the darts of the front point to.
func (b BodiceBlock) bustPoint() orb.Point {
	return orb.Point{b.BustDepth - frontNeckRise, b.BustSpan / 2}
}

// pivoted draws the front with its darts where the style has them: turned about the bust
// point, so that what they take up stays. Side seam and waist have their finished lengths.
func (b BodiceBlock) pivoted(h blockHalf, seam float64) (outlinedPiece, error) {
	at := b.bustPoint()
	plain, err := h.cone(at, b.BustDart, seam, 0, b.Chord)
	if err != nil {
		return outlinedPiece{}, err
	}
	inWaist := plain.waist
	switch {
	case b.BustDartAt == DartAtWaist:
		inWaist = plain.whole()
	case b.OneDart:
		inWaist = 0
	}
	c, err := h.cone(at, b.BustDart, seam, inWaist, b.Chord)
	if err != nil {
		return outlinedPiece{}, err
	}
	var cuts []coneCut
	if inWaist > 0 {
		cuts = append(cuts, coneCut{part: -1, angle: inWaist})
	}
	if rest := c.whole() - inWaist; rest > 0 {
		s := coneCut{angle: rest}
		s.part, s.at, s.after = c.dartPlace(b.BustDartAt)
		cuts = append(cuts, s)
	}
	return c.open(cuts, dartClear)
}

// dartPlace returns on which line of the cone a dart opens, how far along, and whether it is
// pressed towards what comes after: vertical ones to the centre, level ones down (common
// practice).
func (c cone) dartPlace(at DartPlace) (part int, along float64, after bool) {
	switch at {
	case DartAtShoulder, DartAtNeck:
		after = true
	case DartAtCentre: // level with the point, the lower part of the centre being where it was
		part = c.part(coneCentre)
		whole := c.parts[part].line
		top := turnAbout(whole[0], c.at, c.whole())
		return part, c.at[0] - top[0], true
	case DartAtSide, "": // square to the side seam
		part = c.part(coneSide)
		foot, up := c.parts[part].line[0], c.parts[part].line[1]
		l := plane.Length(c.parts[part].line)
		return part, dot(sub2(c.at, foot), orb.Point{(up[0] - foot[0]) / l, (up[1] - foot[1]) / l}), false
	}
	part = c.part(string(at))
	share := dartShares[at]
	return part, share * plane.Length(c.parts[part].line), after
}
