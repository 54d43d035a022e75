package draft

import "yardlay/shapes/say"

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
	PanelledBody
	Laced bool // lacing closes it, else a zip
}

// Draft returns the panels from the centre front to the centre back.
func (s StraplessBodice) Draft() (Result, error) { return named("strapless bodice")(then(s.body())) }

func (s StraplessBodice) body() (*panelled, error) {
	if err := notNegative(measured{"lacing gap", s.LacingGap}); err != nil {
		return nil, err
	}
	if s.LacingGap > 0 && !s.Laced {
		return nil, say.Errorf("a lacing gap of %.1f is given without lacing", say.MM(s.LacingGap))
	}
	b := &panelled{PanelledBody: s.PanelledBody, name: "a strapless bodice", waistEase: s.Ease, laced: s.Laced}
	return b, b.reckon()
}
