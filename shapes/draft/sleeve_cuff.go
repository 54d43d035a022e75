package draft

import (
	"fmt"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// bandName is what the lower edge is gathered into.
func (s Sleeve) bandName() string {
	if s.Style == BishopSleeve {
		return "cuff"
	}
	return "band"
}

// band drafts what the lower edge is gathered into, folded along its middle.
func (s Sleeve) band(sleeve shapes.Piece) ([]shapes.Piece, []shapes.Join, error) {
	seam := s.Allowance.Seam
	p, err := panel{
		along: s.Hem + s.underlap(), across: 2 * s.Band,
		lower: side{"outer edge", shapes.Seam, seam}, far: side{"far end", shapes.Seam, seam},
		upper: side{"inner edge", shapes.Seam, seam}, near: side{"near end", shapes.Seam, seam},
	}.piece("sleeve " + s.bandName())
	if err != nil {
		return nil, nil, err
	}
	p.Count = 2
	p.Inside = []orb.LineString{{{seam, seam + s.Band}, {seam + s.Hem + s.underlap(), seam + s.Band}}}
	quarter := seam + s.Band/2 // in the middle the arrow would lie on the fold line
	p.Grain = orb.LineString{{seam + 0.15*s.Hem, quarter}, {seam + 0.85*s.Hem, quarter}}
	lower, _ := sleeve.Edge("lower edge")
	whole := shapes.JoinSide{Edges: []shapes.SewnEdge{along("sleeve", "lower edge")},
		Treatment: gathered(lower.Length() / s.Hem)}
	if s.Slit > 0 {
		return []shapes.Piece{p}, []shapes.Join{s.toSlit(p.Name, whole)}, nil
	}
	ends := seamOf(s.bandName()+"'s ends", 2, along(p.Name, "near end"), against(p.Name, "far end"))
	return []shapes.Piece{p}, []shapes.Join{ends, {
		Name: s.bandName() + " to sleeve", Times: 2,
		A:       sideOf(along(p.Name, "outer edge")),
		B:       whole,
		Notches: []float64{s.Hem / 4, s.Hem / 2, 3 * s.Hem / 4},
	}}, nil
}

// A cuff that opens has a slit above it, bound in one strip, and an underlap that lies under
// its other end and is buttoned there:
//
//	  back   |  slit           near end                 far end
//	 seam    |                 .------------------------.----.
//	____.____|______.___       | o                      | x  |  Band
//	  1/4     of the edge      |- - - - - fold - - - - -|- - |
//	                           '------------------------'----'
//	                                     Hem           Underlap
//
// The slit lies a quarter of the lower edge from the back seam, at the elbow's side of the wrist
// (common practice, from memory). The strip is as wide as a placket of a sleeve is, leastBound.
const (
	slitShare    = 0.25
	slitBound    = 12  // finished width of the strip, folded, mm (common practice: 10 to 15)
	leastSlitted = 30  // mm (our own figure)
	mostSlitted  = 0.5 // of the underarm seam (our own figure)
)

// underlap is that of a cuff that opens.
func (s Sleeve) underlap() float64 {
	if s.Slit == 0 {
		return 0
	}
	return s.Underlap
}

// checkSlit refuses a slit that does not open a cuff.
func (s Sleeve) checkSlit() error {
	if err := notNegative(measured{"slit", s.Slit}, measured{"underlap", s.Underlap}); err != nil || s.Slit == 0 {
		return err
	}
	if !s.Style.banded() || s.Band == 0 {
		return say.Errorf("a slit of %.1f, and no cuff or band below it", say.MM(s.Slit)).
			Hint("give the width of the cuff or band, or leave out the slit")
	}
	if s.Slit < leastSlitted {
		return say.Errorf("a slit of %.1f opens no cuff, needs %v", say.MM(s.Slit), say.MM(leastSlitted)).
			Hint("2 to 3 in are usual")
	}
	if s.Underlap < slitBound {
		return say.Errorf("an underlap of %.1f is less than the %v of the strip that binds the slit", say.MM(s.Underlap),
			say.MM(slitBound)).Hint("1 in is usual")
	}
	if s.CuffButtons < 1 {
		return fmt.Errorf("buttons on a cuff: %d, must be 1 or more", s.CuffButtons)
	}
	if apart := s.Band / float64(s.CuffButtons); apart < slitBound && s.CuffButtons > 1 {
		return say.Errorf("%d buttons on a cuff %.1f wide lie %.1f apart, needs %v", s.CuffButtons, say.MM(s.Band),
			say.MM(apart), say.MM(slitBound)).Hint("fewer buttons, or a wider cuff")
	}
	return nil
}

// toSlit is the seam of a cuff that opens: from the slit round to the slit, so that both
// parts of the lower edge beside it follow each other; the underlap goes on beyond.
func (s Sleeve) toSlit(cuff string, lower shapes.JoinSide) shapes.Join {
	j := shapes.Join{Name: s.bandName() + " to sleeve, from the slit round", Times: 2,
		A: sideOf(along(cuff, "outer edge")), B: lower}
	j.B.Edges[0].Reversed = true
	j.A.Treatment.Lap = s.Underlap
	return j
}

// opened slits the sleeve, binds the slit, and buttons the cuff.
func (s Sleeve) opened(d *Result) error {
	sleeve, cuff := &d.Pieces[0], &d.Pieces[len(d.Pieces)-1]
	lower, _ := sleeve.Edge("lower edge")
	at := (1 - slitShare) * lower.Length()
	foot, out := lower.At(at)
	end := orb.Point{foot[0] - s.Slit*out[0], foot[1] - s.Slit*out[1]}
	seam, _ := sleeve.Edge("back seam")
	if s.Slit > mostSlitted*seam.Length() {
		return say.Errorf("a slit of %.1f runs up more than half of an underarm seam of %.1f", say.MM(s.Slit),
			say.MM(seam.Length())).Hint("a shorter slit")
	}
	sleeve.Names = append(sleeve.Names, shapes.LineName{Line: len(sleeve.Inside), Name: "slit"})
	sleeve.Inside = append(sleeve.Inside, orb.LineString{foot, end})
	// The cuff goes round from the front edge of the slit, where its near end laps over, to the
	// middle, the front, the underarm seam and the slit again.
	for _, share := range []float64{1 - slitShare, 0.5, 0.25} {
		if err := sleeve.AddNotch("lower edge", share*lower.Length()); err != nil {
			return err
		}
	}
	quarter := s.Hem / 4
	edge, _ := cuff.Edge("outer edge")
	for _, q := range []float64{quarter, 2 * quarter, 3 * quarter, s.Hem} {
		if err := cuff.AddNotch(edge.Name, q); err != nil {
			return err
		}
	}
	if s.Inner {
		return nil
	}
	strip, err := panel{
		along: 2 * s.Slit, across: 2 * slitBound,
		lower: side{"inner edge", shapes.Seam, s.Allowance.Seam}, far: side{"far end", shapes.Seam, s.Allowance.Seam},
		upper: side{"outer edge", shapes.Seam, s.Allowance.Seam}, near: side{"near end", shapes.Seam, s.Allowance.Seam},
	}.piece("sleeve slit binding")
	if err != nil {
		return err
	}
	strip.Count = 2
	a := s.Allowance.Seam
	strip.Grain = orb.LineString{{a + 0.3*s.Slit, a + slitBound/2}, {a + 1.7*s.Slit, a + slitBound/2}}
	strip.Inside = []orb.LineString{{{a, a + slitBound}, {a + 2*s.Slit, a + slitBound}}}
	d.Pieces = append(d.Pieces, strip)
	d.Joins = append([]shapes.Join{{Name: "slit binding", Times: 2, A: sideOf(along(strip.Name, "outer edge")),
		B: shapes.JoinSide{Onto: "both edges of the slit", Length: 2 * s.Slit}}}, d.Joins...)
	s.buttonCuff(d, len(d.Pieces)-2)
	return nil
}

// buttonCuff marks buttons on the underlap and buttonholes at the other end.
func (s Sleeve) buttonCuff(d *Result, cuff int) {
	c := &d.Pieces[cuff]
	c.Pair, c.Labels = true, []string{"left", "right"}
	near, low := c.Edges[0].Line[0][0], c.Edges[0].Line[0][1]
	n := s.CuffButtons
	pitch := s.Band / float64(n)
	half := s.Underlap / 2
	for i := range n {
		y := low + (float64(i)+0.5)*pitch
		from := near + half - beyondCentre
		c.Inside = append(c.Inside, orb.LineString{{from, y}, {from + half, y}},
			orb.LineString{{near + s.Hem + half - 3, y}, {near + s.Hem + half + 3, y}})
	}
	d.Closed = append(d.Closed, Closed{At: s.bandName(), From: "outer edge", By: Buttons, Opening: s.Band, Length: s.Band,
		Times: 2, Places: n, Pitch: pitch, First: pitch / 2, Stand: s.Underlap})
	d.Notes = append(d.Notes, say.Textf("The %s opens at a slit of %.1f, a quarter of the lower edge from the back seam. "+
		"Bind it; fold the binding under at the front edge of the slit, and let it stand out at the other. The underlap "+
		"of %.1f goes on from there, under the end with the buttonholes.", s.bandName(), say.MM(s.Slit),
		say.MM(s.Underlap)))
}
