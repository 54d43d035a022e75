package draft

import (
	"cmp"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

func (b BodiceBlock) check() error {
	if err := cmp.Or(
		positive(measured{"bust", b.Bust}, measured{"waist", b.Waist}, measured{"back length", b.BackLength},
			measured{"shoulder", b.Shoulder}, measured{"neck", b.Neck}, measured{"armhole depth", b.ArmholeDepth},
			measured{"bust with ease", b.Bust + b.Ease}, measured{"waist with ease", b.Waist + b.WaistEase}),
		notNegative(measured{"back width", b.BackWidth}, measured{"chest width", b.ChestWidth},
			measured{"bust depth", b.BustDepth},
			measured{"bust span", b.BustSpan}, measured{"bust dart", b.BustDart}, measured{"ease pleat", b.EasePleat},
			measured{"chord error", b.Chord}),
	); err != nil {
		return err
	}
	if b.Chord > 0 && b.Chord < leastChord {
		return say.Errorf("chord error is %g, must be at least %g", say.MM(b.Chord), say.MM(leastChord))
	}
	if waist := b.BackLength + b.WaistDrop; b.ArmholeDepth > waist-b.leastSide() {
		err := say.Errorf("armhole depth of %.1f leaves %.1f of side seam above the waist at %.1f, needs %v",
			say.MM(b.ArmholeDepth), say.MM(waist-b.ArmholeDepth), say.MM(waist), say.MM(b.leastSide()))
		if b.WaistDrop < 0 {
			return err.Hint("a waist seam that is raised by less")
		}
		return err
	}
	if err := cmp.Or(b.checkHemmed(), b.checkStyle()); err != nil {
		return err
	}
	if b.EasePleat > mostDart {
		return say.Errorf("ease pleat is %.1f deep, must be at most %v", say.MM(b.EasePleat), say.MM(mostDart))
	}
	return b.Allowance.Check()
}

// leastSide is the shortest side seam, mm: a bust dart needs so much, and less where none is.
func (b BodiceBlock) leastSide() float64 {
	const darted, plain = 100, 60
	if b.pivots() || b.PanelsFrom != "" || b.measuresFromBust().NoBustDart {
		return plain
	}
	return darted
}

// checkHalves refuses measures that do not go together.
func (b BodiceBlock) checkHalves(front, back blockHalf) error {
	for _, h := range []struct {
		name string
		blockHalf
	}{{"front", front}, {"back", back}} {
		if h.waistDart.width > mostDart {
			return say.Errorf("the waist dart of the %s would take up %.1f, the most for one dart is %v", h.name,
				say.MM(h.waistDart.width), say.MM(mostDart)).
				Hint("a bodice of panels, or more waist ease")
		}
		if h.width+leastDart > h.underarm[1] {
			return say.Errorf("half the width across the %s, %.1f, leaves no armhole before the side seam at %.1f",
				h.name, say.MM(h.width), say.MM(h.underarm[1])).
				Hint("measure the width across the %s and the bust again; more ease widens the side", h.name)
		}
		if h.width < h.neckPoint[1]+leastDart {
			return say.Errorf("half the width across the %s, %.1f, is not %v more than half the width of the neck, %.1f",
				h.name, say.MM(h.width), say.MM(leastDart), say.MM(h.neckPoint[1])).
				Hint("measure the width across the %s and the neck again", h.name)
		}
		if h.tip[0] > 0.6*h.underarm[0] || h.tip[1] < h.width-3*leastDart || h.tip[1] > h.underarm[1] {
			return say.Errorf("a shoulder of %.1f puts its tip %.1f from the centre of the %s, which is %.1f wide "+
				"to the armhole and %.1f deep", say.MM(b.Shoulder), say.MM(h.tip[1]), h.name, say.MM(h.width),
				say.MM(h.underarm[0])).
				Hint("measure across the %s as well; where it is not given its width follows from the bust", h.name)
		}
		if d := h.waistDart; d.width > 0 && (d.from < leastDart || d.from+d.width > h.side[1]-leastDart ||
			d.apex[0] > h.side[0]-2*dartClear) {
			return say.Errorf("the waist dart of the %s, %.1f wide, does not fit into a waist of %.1f", h.name,
				say.MM(d.width), say.MM(h.side[1])).
				Hint("more waist ease; or measure back length and bust depth again")
		}
	}
	d := front.sideDart
	if d.width == 0 || b.pivots() || b.PanelsFrom != "" {
		return nil
	}
	if seam := plane.Length([]orb.Point{front.side, front.underarm}); d.from < leastDart ||
		d.from+d.width > seam-leastDart {
		return say.Errorf("the bust dart, %.1f wide, lies %.1f above the waist on a side seam of %.1f: the bust "+
			"point is not between underarm and waist", say.MM(d.width), say.MM(d.from), say.MM(seam)).
			Hint("check bust depth (%.1f) and armhole depth", say.MM(b.BustDepth))
	}
	if front.underarm[1]-d.apex[1] < 2*dartClear {
		return say.Errorf("bust span of %.1f leaves %.1f for the bust dart, needs %v", say.MM(b.BustSpan),
			say.MM(front.underarm[1]-d.apex[1]), say.MM(2*dartClear))
	}
	return nil
}
