package draft

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// SleeveStyle is the cut of a sleeve.
type SleeveStyle int

// Styles of sleeve.
const (
	StraightSleeve    SleeveStyle = iota // straight seams to the hem
	BellSleeve                           // a ring sector below a straight upper part
	PuffSleeve                           // slashed and spread, gathered into the armhole and below
	BishopSleeve                         // a plain cap, fanned out below, gathered into a cuff
	LegOfMuttonSleeve                    // full in the armhole, narrow from the elbow to the hem
	TwoPieceSleeve                       // an upper and an under sleeve, bent at the elbow
	FlutterSleeve                        // a plain cap, fanned out to a wide hem that hangs free
)

// fullCap says whether the cap is wider and higher than the armhole takes.
func (s SleeveStyle) fullCap() bool { return s == PuffSleeve || s == LegOfMuttonSleeve }

// banded says whether the lower edge is gathered into a band.
func (s SleeveStyle) banded() bool { return s == PuffSleeve || s == BishopSleeve }

// fanned says whether it is fanned out below a plain cap.
func (s SleeveStyle) fanned() bool { return s == BishopSleeve || s == FlutterSleeve }

// Sleeve is a set-in sleeve, cut in pairs. Its cap is drafted to the armhole: the
// half in front is as long as the front armhole, that behind as the back one, each
// with its part of the ease, and the crown meets the shoulder.
//
//	          crown                      straight: Hem at Length
//	         .--"--.                     bell: Hem at BellFrom, then a sector
//	front  /         \  back  cap          of depth Length - BellFrom and
//	____.-'           '-.____              lower edge Sweep
//	\       Bicep           /            puff: both ways wider by Fullness,
//	 \                     /               cap and lower edge higher and
//	  \                   /                lower by Puff, gathered into the
//	   \_____________hem_/                 armhole and a band of Hem
//
// A leg-of-mutton has the cap of a puff and the forearm of a straight sleeve; sleeveFan
// says how bishop and flutter sleeves are fanned out below the cap of a straight one.
//
// The cap's height follows from armhole, ease and bicep: a wide sleeve has a low
// cap and moves freely, a narrow one a high cap and hangs smoothly.
type Sleeve struct {
	Style                     SleeveStyle
	FrontArmhole, BackArmhole float64 // finished, as BodiceBlock.Armhole gives them, mm
	OffShoulder               float64 // what of each half of the armhole lies above a neckline off the shoulder, mm
	CapEase                   float64 // of the cap over the armhole, mm; 20 to 40 in woven cloth (common practice)
	Bicep                     float64 // width at the underarm, ease included, mm
	Length                    float64 // from the crown to the hem, of the outer layer, mm; before Puff is added
	Underarm                  float64 // instead of Length: of the underarm seam, as of a cap sleeve, mm
	Hem                       float64 // girth of the hem, of the seam above a bell, of the band gathered into, mm

	BellFrom, Sweep float64 // of a bell: depth of its seam below the crown, and its hem, mm
	Fullness        float64 // width of a full cap, or of a bishop's lower edge, over the bicep, 1 or more
	Puff            float64 // added to a full cap's height, a puff's lower edge in its middle, a bishop's length, mm
	Pleats          int     // that lay each half of a full cap, instead of gathers; 0 for none
	Band            float64 // finished width of the band or cuff, folded, mm; 0 for none
	Slit, Underlap  float64 // of a cuff that opens: a slit above it, and what lies under its other end, mm
	CuffButtons     int     // on each cuff that opens
	Inner           bool    // of a lining: the slit is not bound, and no button is counted

	HemRaise  float64 // how much shorter this layer is than the outer one, mm
	Allowance shapes.Allowance
	Chord     float64 // chord error, mm; 0 means DefaultChord
}

// Limits of a cap. From memory of textbooks: a set-in cap is about a third of the
// armhole high; below a twelfth there is no cap, above 0.45 the arm cannot lift.
const (
	lowestCap  = 1. / 12
	highestCap = 0.45
	mostEased  = 0.12 // more ease than that share of the armhole puckers (common practice)
)

// armholeNotch is where front and back notches lie, from the underarm, as a share
// of the front or back armhole (common practice: where chest and back width meet it).
const armholeNotch = 0.4

// sleeveCap is a cap as drafted: its height and the widths of its front and back
// half, mm.
type sleeveCap struct{ height, front, back float64 }

// CapHeight returns how high the plain cap stands above the underarm, mm; Puff is
// not in it. Errors are those of Draft.
func (s Sleeve) CapHeight() (float64, error) {
	s, err := s.sized()
	if err == nil {
		err = s.check()
	}
	if err != nil {
		return 0, say.Errorf("sleeve: %w", err)
	}
	c, err := s.cap()
	if err != nil {
		return 0, say.Errorf("sleeve: %w", err)
	}
	return c.height, nil
}

// capHalf is the curve from the crown down to the underarm of one half, level at
// both ends; the crown at the origin, x down, y outward.
func capHalf(height, width float64) cubic {
	return cubic{{0, 0}, {0, width / 2}, {height, width / 2}, {height, width}}
}

// halvings is how often the range of a cap's measure is halved: 500 mm come down
// to 0.00003 mm.
const halvings = 24

// cap finds the height at which both halves are as long as their armholes with
// ease and together as wide as the bicep: the higher the cap, the narrower.
func (s Sleeve) cap() (sleeveCap, error) {
	whole := s.FrontArmhole + s.BackArmhole
	eased := 1 + s.CapEase/whole
	// All halves are one curve drawn higher and wider: its chords, of height and
	// width 1, are within 0.01 mm of the arc at this size.
	var chords [32]orb.Point
	for i := range chords {
		a, b := capHalf(1, 1).at(float64(i)/32), capHalf(1, 1).at(float64(i+1)/32)
		chords[i] = orb.Point{b[0] - a[0], b[1] - a[1]}
	}
	width := func(height, length float64) float64 {
		return bisect(func(w float64) float64 {
			sum := -length
			for _, c := range chords {
				sum += math.Sqrt(height*height*c[0]*c[0] + w*w*c[1]*c[1])
			}
			return sum
		}, 0, length, halvings)
	}
	low, high := lowestCap*whole, highestCap*whole
	wide := func(h float64) sleeveCap {
		return sleeveCap{h, width(h, s.FrontArmhole*eased), width(h, s.BackArmhole*eased)}
	}
	if c := wide(low); c.front+c.back < s.Bicep {
		return sleeveCap{}, say.Errorf("bicep of %.1f is too wide for an armhole of %.1f with %.1f of ease: the "+
			"cap would be lower than %.1f", say.MM(s.Bicep), say.MM(whole), say.MM(s.CapEase), say.MM(low)).
			Hint("less ease of the bicep, more of the cap, or a deeper armhole")
	}
	if c := wide(high); c.front+c.back > s.Bicep {
		return sleeveCap{}, say.Errorf("bicep of %.1f is too narrow for an armhole of %.1f with %.1f of ease: the "+
			"cap would be higher than %.1f", say.MM(s.Bicep), say.MM(whole), say.MM(s.CapEase), say.MM(high)).
			Hint("a wider sleeve, or a shallower armhole")
	}
	return wide(bisect(func(h float64) float64 {
		c := wide(h)
		return s.Bicep - c.front - c.back
	}, low, high, halvings)), nil
}

// crown returns the edge of the cap with what takes up its surplus over the armhole:
// ease, or the gathers of a puff.
func (s Sleeve) crown() (shapes.JoinSide, error) {
	side := shapes.JoinSide{
		Edges:     []shapes.SewnEdge{against("sleeve", "front cap"), against("sleeve", "back cap")},
		Treatment: shapes.Treatment{Ease: s.CapEase},
	}
	fromFront, fromBack := s.kept()
	side.Treatment.Ease *= (fromFront + fromBack) / (s.FrontArmhole + s.BackArmhole)
	if !s.Style.fullCap() {
		return side, nil
	}
	front, back, err := s.capLines()
	if err != nil {
		return shapes.JoinSide{}, err
	}
	if s.Pleats > 0 {
		side.Treatment, err = s.capPleats(plane.Length(front), plane.Length(back))
		return side, err
	}
	side.Treatment = gathered((plane.Length(front) + plane.Length(back)) / (fromFront + fromBack))
	return side, nil
}

// spread returns how much wider and higher than that of the plain sleeve the cap is.
func (s Sleeve) spread() (fullness, puff float64) {
	if !s.Style.fullCap() {
		return 1, 0
	}
	return s.Fullness, s.Puff
}

// capLines returns both halves of the cap from the crown at the origin outward, or from where
// they are cut off, y growing: as of the back half.
func (s Sleeve) capLines() (front, back orb.LineString, err error) {
	if err := s.check(); err != nil {
		return nil, nil, err
	}
	c, err := s.cap()
	if err != nil {
		return nil, nil, err
	}
	full, puff := s.spread()
	chord := chordError(s.Chord)
	if s.Style.fanned() {
		f := s.fan(c)
		front, back = s.cutCap(f.cap(c.front, chord), f.cap(c.back, chord))
		return front, back, nil
	}
	front, back = s.cutCap(chain(chord, capHalf(c.height+puff, full*c.front)),
		chain(chord, capHalf(c.height+puff, full*c.back)))
	return front, back, nil
}
