package draft

import (
	"fmt"

	"yardlay/shapes"
)

// StraplessBodice is a fitted body of 6 to 12 panels that ends over the bust
// without straps, closed at centre back by a zip or by lacing. It reaches to the
// high hip, or to the waist where the figure's HighHipDown is 0.
//
//	  .-.        .-.
//	.'   '.____.'   '--..__        top: over the bust, dipping at centre front
//	|   |    |    |   |   |
//	|    )  (  |  )  (    |
//	|___|____|_|___|__|___|        waist, sewn to a skirt, or the high hip
//
// Panels are drawn as those of a Corset are, with one ease at every level.
type StraplessBodice struct {
	Figure    Figure
	Panels    int       // 6, 8, 10 or 12
	Shares    []float64 // of the half waist, a panel each from front to back, summing to 1; none means our own
	Ease      float64   // added to every girth, mm; negative where it must hold itself up
	Laced     bool      // lacing closes it, else a zip
	LacingGap float64   // left open by the lacing, mm
	Facing    float64   // grown on behind the eyelets or the zip, at least 1 mm; 0: the edge takes the seam allowance

	FrontOnFold bool // the two front panels are cut in one; else centre front is a seam

	FrontDip, SideDip, BackDip float64 // as on a Corset, mm
	SideRise, BackRise         float64 // as on a Corset, mm; 0 on one that ends at the waist

	Channel   float64 // width of the boning channels, mm; 0 draws none
	MidBones  bool    // a channel in the middle of every panel as well
	HemRaise  float64 // how much shorter this layer is than the outer one, mm
	Allowance shapes.Allowance
	Chord     float64 // chord error, mm; 0 means DefaultChord
}

// Draft returns the panels from the centre front to the centre back.
func (s StraplessBodice) Draft() (Result, error) {
	d, err := s.draft()
	return named("strapless bodice", d, err)
}

func (s StraplessBodice) draft() (Result, error) {
	b, err := s.body()
	if err != nil {
		return Result{}, err
	}
	return b.draft()
}

func (s StraplessBodice) body() (*panelled, error) {
	if err := notNegative(measured{"lacing gap", s.LacingGap}); err != nil {
		return nil, err
	}
	if s.LacingGap > 0 && !s.Laced {
		return nil, fmt.Errorf("a lacing gap of %.1f mm is given without lacing", s.LacingGap)
	}
	body := panelledBody{
		figure: s.Figure, panels: s.Panels, shares: s.Shares, ease: s.Ease, waistEase: s.Ease, gap: s.LacingGap,
		dips: [3]float64{s.FrontDip, s.SideDip, s.BackDip}, rises: [2]float64{s.SideRise, s.BackRise},
		hemRaise: s.HemRaise, chord: s.Chord,
		shape: bodyShape{
			frontOnFold: s.FrontOnFold, facing: s.Facing, laced: s.Laced,
			channel: s.Channel, midBones: s.MidBones, allowance: s.Allowance,
		},
	}
	return body.panelled("a strapless bodice")
}
