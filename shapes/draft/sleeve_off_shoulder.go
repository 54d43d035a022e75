package draft

import (
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// upperEdge is the edge of a sleeve whose cap is cut off, from the back to the front: a part
// of the neckline.
const upperEdge = "upper edge"

// kept is the part of each armhole that the sleeve is sewn to, mm.
func (s Sleeve) kept() (front, back float64) {
	return s.FrontArmhole - s.OffShoulder, s.BackArmhole - s.OffShoulder
}

// cutCap cuts both halves of a cap off at the same share of their lengths as the armhole is.
func (s Sleeve) cutCap(front, back orb.LineString) (orb.LineString, orb.LineString) {
	if s.OffShoulder == 0 {
		return front, back
	}
	_, front = splitAt(front, plane.Length(front)*s.OffShoulder/s.FrontArmhole)
	_, back = splitAt(back, plane.Length(back)*s.OffShoulder/s.BackArmhole)
	return front, back
}

// capOff is the upper edge between both halves of the cap, which start there; square to
// each, as the neckline of the bodice is square to its armhole.
func (s Sleeve) capOff(front, back orb.LineString) orb.LineString {
	b, right := shapesEdge(reversed(back)).At(plane.Length(back))
	f, left := shapesEdge(front).At(0)
	k := planar.Distance(b, f) / 3
	return chain(chordError(s.Chord), cubic{b, {b[0] - k*right[0], b[1] - k*right[1]},
		{f[0] - k*left[0], f[1] - k*left[1]}, f})
}

// checkOff refuses sleeves whose cap cannot be cut off.
func (s Sleeve) checkOff() error {
	if s.OffShoulder == 0 {
		return nil
	}
	if err := notNegative(measured{"off the shoulder", s.OffShoulder}); err != nil {
		return err
	}
	if s.Style == TwoPieceSleeve {
		return say.Errorf("a two-piece sleeve has no cap to cut off below the shoulder").
			Hint("another `style`, or a neckline on the shoulder")
	}
	if s.Pleats > 0 {
		return say.Errorf("a cap that is cut off below the shoulder has no pleats").Hint("leave out `pleats`: it is gathered")
	}
	if front, back := s.kept(); min(front, back) < leastArmhole {
		return say.Errorf("a cap cut off %.1f below the shoulder leaves %.1f of an armhole, needs %v",
			say.MM(s.OffShoulder), say.MM(min(front, back)), say.MM(leastArmhole)).
			Hint("a neckline nearer to the shoulder")
	}
	return nil
}

// offNotes says what becomes of the upper edge (a tenth: common practice).
func (s Sleeve) offNotes(p shapes.Piece) []say.Text {
	e, ok := p.Edge(upperEdge)
	if !ok {
		return nil
	}
	held := "Hold it by elastic or a stay"
	if s.Style.fullCap() {
		held = "Gather it onto elastic"
	}
	return []say.Text{say.Textf("The upper edge of the sleeve, %.1f, is part of the neckline. %s, a tenth shorter than "+
		"the way over the arm from seam to seam.", say.MM(e.Length()), held)}
}
