package draft

import (
	"errors"

	"yardlay/shapes/say"
)

// Corset is a laced body of 6 to 12 panels, from over the bust to the high hip.
//
//	front  side   side  back              bust and hip spring out of the
//	       front  back                    waist along every seam
//	.--.  .----.  .---.  .-----.
//	|   )(      )(     )(   |:  |         | : grown-on facing, folded back
//	|  /  \    /  \   /  \  |:  |
//	|  |   |  |    | |    | |:  |  waist
//	|  \  /    \  /   \  /  |:  |
//	|___)(______)(_____)(___|:__|
//	centre front            centre back
//
// The waist is smaller than the body's by Reduction; the other levels differ by
// Ease, negative where they are drawn in too.
//
// Cautions of the trade: a first corset takes in 50 to 75 mm at the waist and is
// laced in over days, never to pain or short breath.
type Corset struct {
	PanelledBody
	Reduction    float64 // taken from the waist, mm
	FrontOpening bool    // centre front is closed by a busk, a zip or hooks
	BackSeam     bool    // centre back is sewn: it is laced at centre front
}

// mostReduction is the most of a waist that a corset may take in: beyond a fifth
// the bones press on ribs that the waist's cloth cannot shift (common practice
// warns above 150 mm, a fifth of 750).
const mostReduction = 0.2

// Draft returns the panels from the centre front to the centre back.
func (c Corset) Draft() (Result, error) { return named("corset")(then(c.body())) }

func (c Corset) body() (*panelled, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	b := &panelled{PanelledBody: c.PanelledBody, name: "a corset", waistEase: -c.Reduction, laced: true,
		frontOpening: c.FrontOpening, backSeam: c.BackSeam}
	return b, b.reckon()
}

func (c Corset) check() error {
	err := notNegative(measured{"reduction", c.Reduction}, measured{"lacing gap", c.LacingGap})
	if err != nil {
		return err
	}
	if c.Reduction > mostReduction*c.Figure.Waist {
		return say.Errorf("reduction of %.1f is more than a fifth of the waist of %.1f: it would hurt",
			say.MM(c.Reduction), say.MM(c.Figure.Waist)).
			Hint("from %v to %v in a first corset", say.MM(50.8), say.MM(76.2))
	}
	if c.Figure.HighHipDown == 0 {
		return say.Errorf("high hip's depth is %v: a corset ends below the waist", say.MM(0))
	}
	if c.FrontOnFold && c.FrontOpening {
		return errors.New("centre front cannot both lie on a fold and open")
	}
	if c.BackSeam && !c.FrontOpening {
		return errors.New("centre back is sewn and centre front does not open: nobody gets into it")
	}
	if c.BackSeam && c.Facing > 0 {
		return say.Errorf("a facing of %.1f is grown on at centre back, which is sewn", say.MM(c.Facing)).
			Hint("leave it out")
	}
	return nil
}
