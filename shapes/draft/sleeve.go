package draft

import (
	"cmp"
	"fmt"
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
	StraightSleeve SleeveStyle = iota // straight seams to the hem
	BellSleeve                        // a ring sector below a straight upper part
	PuffSleeve                        // slashed and spread, gathered into the armhole and below
)

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
// The cap's height follows from armhole, ease and bicep: a wide sleeve has a low
// cap and moves freely, a narrow one a high cap and hangs smoothly.
type Sleeve struct {
	Style                     SleeveStyle
	FrontArmhole, BackArmhole float64 // finished, as BodiceBlock.Armhole gives them, mm
	CapEase                   float64 // of the cap over the armhole, mm; 20 to 40 in woven cloth (common practice)
	Bicep                     float64 // width at the underarm, ease included, mm
	Length                    float64 // from the crown to the hem, of the outer layer, mm; before Puff is added
	Hem                       float64 // girth of the hem, of the seam above a bell, of the band below a puff, mm

	BellFrom, Sweep float64 // of a bell: depth of its seam below the crown, and its hem, mm
	Fullness        float64 // of a puff: its width over that of the plain sleeve, 1 or more
	Puff            float64 // of a puff: added to the crown's height and to the middle of the lower edge, mm
	Band            float64 // of a puff: finished width of its band, folded, mm; 0 for none

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
	if err := s.check(); err != nil {
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
			"cap would be lower than %.1f", say.MM(s.Bicep), say.MM(whole), say.MM(s.CapEase), say.MM(low))
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
	if s.Style != PuffSleeve {
		return side, nil
	}
	front, back, err := s.capLines()
	if err != nil {
		return shapes.JoinSide{}, err
	}
	side.Treatment = gathered((plane.Length(front) + plane.Length(back)) / (s.FrontArmhole + s.BackArmhole))
	return side, nil
}

// spread returns how much wider and higher than the plain sleeve this one is.
func (s Sleeve) spread() (fullness, puff float64) {
	if s.Style != PuffSleeve {
		return 1, 0
	}
	return s.Fullness, s.Puff
}

// capLines returns both halves of the cap from the crown at the origin outward, y
// growing: as of the back half.
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
	return chain(chord, capHalf(c.height+puff, full*c.front)), chain(chord, capHalf(c.height+puff, full*c.back)), nil
}

func (s Sleeve) check() error {
	err := positive(measured{"front armhole", s.FrontArmhole}, measured{"back armhole", s.BackArmhole},
		measured{"bicep", s.Bicep},
		measured{"length", s.Length}, measured{"hem", s.Hem})
	if err != nil {
		return err
	}
	whole := s.FrontArmhole + s.BackArmhole
	if !(s.CapEase >= -mostEased*whole/4 && s.CapEase <= mostEased*whole) {
		return say.Errorf("cap ease of %.1f is not between %.1f and %.1f for an armhole of %.1f", say.MM(s.CapEase),
			say.MM(-mostEased*whole/4), say.MM(mostEased*whole), say.MM(whole)).
			Hint("more is gathered: a puff")
	}
	if ratio := s.FrontArmhole / s.BackArmhole; ratio < 0.5 || ratio > 2 {
		return say.Errorf("front and back armhole of %.1f and %.1f differ too much for one cap", say.MM(s.FrontArmhole),
			say.MM(s.BackArmhole))
	}
	if s.Style == PuffSleeve {
		err = s.checkPuff()
	} else if s.Hem > 1.5*s.Bicep {
		err = say.Errorf("hem of %.1f is more than half as wide again as the bicep of %.1f", say.MM(s.Hem),
			say.MM(s.Bicep)).
			Hint("a bell")
	}
	if err == nil && s.Style == BellSleeve && !(s.BellFrom > 0 && s.BellFrom < s.Length) {
		err = say.Errorf("bell from %.1f does not start between the crown and the hem at %.1f", say.MM(s.BellFrom),
			say.MM(s.Length))
	}
	if err == nil && (s.Style < StraightSleeve || s.Style > PuffSleeve) {
		err = fmt.Errorf("style %d is no style of sleeve", int(s.Style))
	}
	if err != nil {
		return err
	}
	return checkHem(s.HemRaise, s.Length, s.Chord, s.Allowance)
}

// leastBand is the narrowest band of a puff, folded, mm (common practice).
const leastBand = 5

func (s Sleeve) checkPuff() error {
	if err := cmp.Or(
		notNegative(measured{"puff", s.Puff}, measured{"band", s.Band}, measured{"cap ease of a puff", s.CapEase}),
		shapes.CheckFullness(s.Fullness),
	); err != nil {
		return err
	}
	if s.Band > 0 && s.Band < leastBand {
		return say.Errorf("band of a finished width of %.1f cannot be turned, must be %v or more", say.MM(s.Band),
			say.MM(leastBand))
	}
	if full := s.Fullness * s.Bicep; s.Hem > full {
		return say.Errorf("band of %.1f is longer than the lower edge of %.1f gathered into it", say.MM(s.Hem),
			say.MM(full))
	}
	return nil
}
