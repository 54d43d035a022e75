package draft

import (
	"errors"
	"fmt"

	"yardlay/shapes"
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
// Ease, negative where they are drawn in too. Panels are counted round the whole
// body, the same on both sides; with the front on a fold the two front panels are
// cut in one.
//
// Cautions of the trade: a first corset takes in 50 to 75 mm at the waist and is
// laced in over days, never to pain or short breath.
type Corset struct {
	Figure    Figure
	Panels    int       // 6, 8, 10 or 12
	Shares    []float64 // of the half waist, a panel each from front to back, summing to 1; none means our own
	Reduction float64   // taken from the waist, mm
	Ease      float64   // added to every other girth, mm; negative draws in
	LacingGap float64   // left open at centre back, mm

	FrontOnFold  bool    // the two front panels are cut in one; else centre front is a seam
	FrontOpening bool    // centre front is closed by a busk or hooks
	Facing       float64 // grown on behind the eyelets, at least 1 mm; 0: the edge takes the seam allowance

	// The top edge runs at the over-bust above the bust and lies lower by these
	// at centre front, under the arm and at centre back, mm.
	FrontDip, SideDip, BackDip float64
	// The lower edge runs at the high hip at centre front and lies higher by these
	// at the side and at centre back, mm.
	SideRise, BackRise float64

	Channel   float64 // width of the boning channels, mm; 0 draws none
	MidBones  bool    // a channel in the middle of every panel as well
	HemRaise  float64 // how much shorter this layer is than the outer one, mm
	Allowance shapes.Allowance
	Chord     float64 // chord error, mm; 0 means DefaultChord
}

// mostReduction is the most of a waist that a corset may take in: beyond a fifth
// the bones press on ribs that the waist's cloth cannot shift (common practice
// warns above 150 mm, a fifth of 750).
const mostReduction = 0.2

// Draft returns the panels from the centre front to the centre back.
func (c Corset) Draft() (Result, error) {
	d, err := c.draft()
	return named("corset", d, err)
}

func (c Corset) draft() (Result, error) {
	b, err := c.body()
	if err != nil {
		return Result{}, err
	}
	return b.draft()
}

func (c Corset) body() (*panelled, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	body := panelledBody{
		figure: c.Figure, panels: c.Panels, shares: c.Shares, ease: c.Ease, waistEase: -c.Reduction, gap: c.LacingGap,
		dips: [3]float64{c.FrontDip, c.SideDip, c.BackDip}, rises: [2]float64{c.SideRise, c.BackRise},
		hemRaise: c.HemRaise, chord: c.Chord,
		shape: bodyShape{
			frontOnFold: c.FrontOnFold, frontOpening: c.FrontOpening, facing: c.Facing, laced: true,
			channel: c.Channel, midBones: c.MidBones, allowance: c.Allowance,
		},
	}
	return body.panelled("a corset")
}

func (c Corset) check() error {
	err := notNegative(measured{"reduction", c.Reduction}, measured{"lacing gap", c.LacingGap})
	if err != nil {
		return err
	}
	if c.Reduction > mostReduction*c.Figure.Waist {
		return fmt.Errorf("reduction of %.1f mm is more than a fifth of the waist of %.1f mm: it would hurt\n"+
			"  hint: 50 to 75 mm in a first corset", c.Reduction, c.Figure.Waist)
	}
	if c.Figure.HighHipDown == 0 {
		return errors.New("high hip's depth is 0 mm: a corset ends below the waist")
	}
	if c.FrontOnFold && c.FrontOpening {
		return errors.New("centre front cannot both lie on a fold and open")
	}
	return nil
}
