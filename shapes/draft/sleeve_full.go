package draft

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// A leg-of-mutton narrows in a curve from the underarm to the elbow, half way down the
// underarm seam, and straight from there (common practice). Its curve may lean so much.
const (
	elbowAt    = 0.5
	mostCurved = 1.5 // across for each mm down
)

// lean is how far each underarm seam of a leg-of-mutton has come in so far down, mm:
// below the elbow that of a straight sleeve.
func (s Sleeve) lean(down, below float64) float64 {
	return (s.Fullness*s.Bicep - s.Bicep + (s.Bicep-s.Hem)*down/below) / 2
}

// wrist is the hem of a leg-of-mutton; below is the depth of its outer layer.
func (s Sleeve) wrist(front, back orb.Point, below float64) (orb.LineString, error) {
	elbow := below * elbowAt
	if in := s.lean(elbow, below); in > mostCurved*elbow {
		return nil, say.Errorf("each underarm seam comes in by %.1f within %.1f down to the elbow, the most is %.1f",
			say.MM(in), say.MM(elbow), say.MM(mostCurved*elbow)).
			Hint("a longer sleeve, or less fullness")
	}
	down := below - s.HemRaise
	if down <= elbow {
		return nil, say.Errorf("hem raise is %.6g, must end below the elbow at %.1f of the underarm seam",
			say.MM(s.HemRaise), say.MM(elbow))
	}
	in := s.lean(down, below)
	return orb.LineString{{front[0] + down, front[1] + in}, {back[0] + down, back[1] - in}}, nil
}

// seamLine is an underarm seam from the arm to the hem.
func (s Sleeve) seamLine(arm, foot orb.Point) orb.LineString {
	if s.Style != LegOfMuttonSleeve {
		return orb.LineString{arm, foot}
	}
	below := foot[0] - arm[0] + s.HemRaise
	elbow, side := below*elbowAt, math.Copysign(1, -arm[1])
	in := s.lean(elbow, below)
	lean := (s.Bicep - s.Hem) / 2 / below // of the forearm
	at := orb.Point{arm[0] + elbow, arm[1] + side*in}
	line := chain(chordError(s.Chord), cubic{
		arm, {arm[0] + elbow/3, arm[1] + side*in/2}, {at[0] - elbow/2, at[1] - side*lean*elbow/2}, at,
	})
	return append(line, foot)
}

// mostCapPleats is the most in each half of a cap.
const mostCapPleats = 20

// capPleats lays a full cap of two halves in pleats, spread evenly from the notches to the
// shoulder (common practice). Each half takes up its own surplus, so that the crown meets
// the shoulder; below the notches the cap is as long as the armhole.
func (s Sleeve) capPleats(front, back float64) (shapes.Treatment, error) {
	surplus := front + back - s.FrontArmhole - s.BackArmhole
	n := float64(s.Pleats)
	t := shapes.Treatment{Pleats: 2 * s.Pleats, PleatDepth: surplus / (4 * n)}
	taken := 0.0
	lay := func(armhole, cap, from, way float64) error {
		width, share := (cap-armhole)/n, (1-armholeNotch)*armhole/n
		if width/2 < leastPleat {
			return say.Errorf("%d pleats in each half of the cap are %.1f deep, at least %v", s.Pleats, say.MM(width/2),
				say.MM(leastPleat)).
				Hint("fewer pleats, or more fullness")
		}
		if layers := 1 + width/share; layers > mostLayers {
			return say.Errorf("%d pleats in each half of the cap lie in %.1f layers, the most is %g", s.Pleats, layers,
				mostLayers).
				Hint("less fullness, or a smaller puff")
		}
		for i := range s.Pleats {
			k := float64(i) + 0.5
			t.Folds = append(t.Folds, shapes.Mouth{From: from + way*k*share + taken, Width: width})
			taken += width
		}
		return nil
	}
	if err := lay(s.FrontArmhole, front, armholeNotch*s.FrontArmhole, 1); err != nil {
		return t, err
	}
	return t, lay(s.BackArmhole, back, s.FrontArmhole, 1)
}

// capPleatMark is how long the lines of a pleat are drawn into the cap, mm.
const capPleatMark = 40

// markPleats draws, for each pleat of the cap, both lines that are brought together and the
// outer fold between them. A pleat is laid away from the shoulder.
func (s Sleeve) markPleats(p *shapes.Piece, t shapes.Treatment) {
	front, _ := p.Edge("front cap")
	back, _ := p.Edge("back cap")
	for _, f := range t.Folds {
		for k, name := range []string{placement, outerFold, placement} {
			// The seam runs against both edges.
			e, at := front, front.Length()-f.From-float64(k)*f.Width/2
			if f.From > front.Length() {
				e, at = back, back.Length()+at
			}
			from, out := e.At(at)
			p.Names = append(p.Names, shapes.LineName{Line: len(p.Inside), Name: name})
			p.Inside = append(p.Inside, orb.LineString{from,
				{from[0] - capPleatMark*out[0], from[1] - capPleatMark*out[1]}})
		}
	}
}

func capPleatNotes(pleats int, t shapes.Treatment) []say.Text {
	return []say.Text{say.Textf("%d pleats in each half of the cap, %.4g deep: bring both placement lines of a pleat "+
		"together and lay its outer fold away from the shoulder.", pleats, say.MM(t.PleatDepth))}
}
