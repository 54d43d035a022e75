package draft

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// sized returns the sleeve with the length that its underarm seam gives.
func (s Sleeve) sized() (Sleeve, error) {
	if s.Underarm == 0 {
		return s, nil
	}
	if s.Style == BellSleeve || s.Style == LegOfMuttonSleeve || s.Style == TwoPieceSleeve {
		return s, say.Errorf("an underarm seam of %.1f: this style has its length from the crown", say.MM(s.Underarm)).
			Hint("a length instead")
	}
	if s.Length != 0 {
		return s, errors.New("both a length and an underarm seam")
	}
	if err := positive(measured{"underarm seam", s.Underarm}, measured{"hem", s.Hem}); err != nil {
		return s, err
	}
	if err := s.checkCap(); err != nil {
		return s, err
	}
	c, err := s.cap()
	if err != nil {
		return s, err
	}
	in := 0.0 // that each seam leans
	if s.Style == StraightSleeve {
		in = math.Abs(s.Bicep-s.Hem) / 2
	}
	if s.Underarm <= in {
		return s, say.Errorf("an underarm seam of %.1f cannot lean from a bicep of %.1f to a hem of %.1f",
			say.MM(s.Underarm), say.MM(s.Bicep), say.MM(s.Hem)).
			Hint("a longer underarm seam, or a hem nearer to the bicep")
	}
	s.Length = c.height + math.Sqrt(s.Underarm*s.Underarm-in*in)
	s.Underarm = 0
	return s, nil
}

func (s Sleeve) check() error {
	if err := s.checkCap(); err != nil {
		return err
	}
	if err := positive(measured{"length", s.Length}, measured{"hem", s.Hem}); err != nil {
		return err
	}
	if err := cmp.Or(s.checkStyle(), s.checkSlit()); err != nil {
		return err
	}
	return checkHem(s.HemRaise, s.Length, s.Chord, s.Allowance)
}

// checkCap refuses armholes that no cap is drafted to.
func (s Sleeve) checkCap() error {
	if err := positive(measured{"front armhole", s.FrontArmhole}, measured{"back armhole", s.BackArmhole},
		measured{"bicep", s.Bicep}); err != nil {
		return err
	}
	whole := s.FrontArmhole + s.BackArmhole
	if !(s.CapEase >= -mostEased*whole/4 && s.CapEase <= mostEased*whole) {
		return say.Errorf("cap ease of %.1f is not between %.1f and %.1f for an armhole of %.1f", say.MM(s.CapEase),
			say.MM(-mostEased*whole/4), say.MM(mostEased*whole), say.MM(whole)).
			Hint("more is gathered or pleated: a puff, a leg-of-mutton")
	}
	if ratio := s.FrontArmhole / s.BackArmhole; ratio < 0.5 || ratio > 2 {
		return say.Errorf("front and back armhole of %.1f and %.1f differ too much for one cap", say.MM(s.FrontArmhole),
			say.MM(s.BackArmhole))
	}
	return s.checkOff()
}

func (s Sleeve) checkStyle() error {
	switch s.Style {
	case PuffSleeve:
		return s.checkPuff()
	case BishopSleeve:
		return cmp.Or(s.checkPuff(), s.checkFan())
	case LegOfMuttonSleeve:
		return cmp.Or(s.checkFull(), s.checkHemGirth())
	case FlutterSleeve:
		return s.checkFan()
	case BellSleeve:
		return cmp.Or(s.checkHemGirth(), s.checkBell())
	case StraightSleeve, TwoPieceSleeve:
		return s.checkHemGirth()
	}
	return fmt.Errorf("style %d is no style of sleeve", int(s.Style))
}

func (s Sleeve) checkBell() error {
	if s.BellFrom > 0 && s.BellFrom < s.Length {
		return nil
	}
	return say.Errorf("bell from %.1f does not start between the crown and the hem at %.1f", say.MM(s.BellFrom),
		say.MM(s.Length))
}

func (s Sleeve) checkHemGirth() error {
	if s.Hem <= 1.5*s.Bicep {
		return nil
	}
	return say.Errorf("hem of %.1f is more than half as wide again as the bicep of %.1f", say.MM(s.Hem), say.MM(s.Bicep)).
		Hint("a bell, or a flutter sleeve")
}

// leastBand is the narrowest band, folded, mm (common practice).
const leastBand = 5

// checkFull refuses what makes no full sleeve.
func (s Sleeve) checkFull() error {
	full := notNegative(measured{"puff", s.Puff})
	if s.Style.fullCap() {
		full = notNegative(measured{"puff", s.Puff}, measured{"cap ease of a full cap", s.CapEase})
	}
	if s.Pleats < 0 || s.Pleats > mostCapPleats {
		full = cmp.Or(full, fmt.Errorf("pleats in each half of the cap: %d, must be from 0 to %d", s.Pleats, mostCapPleats))
	}
	return cmp.Or(full, shapes.CheckFullness(s.Fullness))
}

// checkPuff refuses what is not gathered into its band.
func (s Sleeve) checkPuff() error {
	if err := cmp.Or(s.checkFull(), notNegative(measured{"band", s.Band})); err != nil {
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
