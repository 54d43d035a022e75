package draft

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// PanelledBody is what every close-fitting body of panels is asked to be: from over the
// bust down to the high hip, or to the waist where the figure's HighHipDown is 0. Panels
// are counted round the whole body, the same on both sides.
type PanelledBody struct {
	Figure    Figure
	Panels    int       // 6, 8, 10 or 12
	Shares    []float64 // of the half waist, a panel each from front to back, summing to 1; none means our own
	Ease      float64   // added to every girth, but a corset's waist, mm; negative draws in
	LacingGap float64   // left open by the lacing at centre back, mm

	FrontOnFold bool    // the two front panels are cut in one; else centre front is a seam
	Facing      float64 // grown on at centre back behind eyelets or zip, at least 1 mm; 0: it takes the seam allowance

	// The top edge runs at the over-bust above the bust and lies lower by these
	// at centre front, under the arm and at centre back, mm.
	FrontDip, SideDip, BackDip float64
	// The lower edge runs level with centre front and lies higher by these at the side
	// and at centre back, mm; 0 on one that ends at the waist.
	SideRise, BackRise float64

	// Styles of both edges, and what they stand out by at centre front, mm: a pointed top
	// rises above the over-bust, a pointed lower edge falls below the high hip, a scooped
	// one is cut out above it. Beyond the levels that are measured panels keep their width.
	Top                              TopStyle
	Lower                            LowerStyle
	FrontPeak, FrontPoint, FrontRise float64

	// Wedges set into slits: at the bust so far down from the over-bust, at the hip so far up
	// from the lower edge, mm; 0: none. They take a share of what the body widens by.
	BustGusset, HipGusset float64
	GussetShare           float64 // above 0 to 1; 0 means 1

	Channel   float64 // width of the boning channels, mm; 0 draws none
	MidBones  bool    // a channel in the middle of every panel as well
	BoneEnds  float64 // how far bones end from the finished edges, mm; 0 means DefaultBoneEnds
	WaistTape float64 // width of a tape along the waist, mm; 0: none
	HemRaise  float64 // how much shorter this layer is than the outer one, mm
	Hemmed    bool    // of a body that ends at the waist: its lower edge is a hem, and not sewn to a skirt
	EasePleat float64 // depth of a pleat at centre back, so that a lining gives, mm: the whole takes up twice that
	Allowance shapes.Allowance
	Chord     float64 // chord error, mm; 0 means DefaultChord
}

// dips are those of the top: centre front, side, centre back.
func (p PanelledBody) dips() [3]float64 { return [3]float64{p.FrontDip, p.SideDip, p.BackDip} }

// rises are those of the lower edge: centre front, side, centre back.
func (p PanelledBody) rises() [3]float64 { return [3]float64{p.FrontRise, p.SideRise, p.BackRise} }

// panelTable gives our own proportions of a half body by its number of panels:
// shares of the waist from front to back, and weights of the seams at the
// over-bust, bust, under-bust and high hip. The bust springs most at the seam over
// it, the hip at the side. No source: drawn so that the front panel comes to the
// bust point, about a tenth of the bust girth from centre front (common practice).
var panelTable = map[int]struct {
	shares  []float64
	springs [4][]float64
}{
	3: {[]float64{0.27, 0.43, 0.30}, [4][]float64{{0.45, 0.55}, {0.60, 0.40}, {0.50, 0.50}, {0.45, 0.55}}},
	4: {[]float64{0.20, 0.28, 0.28, 0.24}, [4][]float64{
		{0.35, 0.30, 0.35}, {0.50, 0.20, 0.30}, {0.35, 0.35, 0.30}, {0.25, 0.42, 0.33},
	}},
	5: {[]float64{0.19, 0.20, 0.22, 0.20, 0.19}, [4][]float64{
		{0.30, 0.22, 0.22, 0.26}, {0.44, 0.20, 0.16, 0.20}, {0.30, 0.25, 0.25, 0.20}, {0.18, 0.32, 0.30, 0.20},
	}},
	6: {[]float64{0.13, 0.17, 0.17, 0.17, 0.17, 0.19}, [4][]float64{
		{0.18, 0.22, 0.20, 0.20, 0.20}, {0.25, 0.27, 0.16, 0.16, 0.16}, {0.20, 0.22, 0.22, 0.20, 0.16},
		{0.12, 0.20, 0.30, 0.22, 0.16},
	}},
}

// mostEase is the most that a close-fitting body may differ from the figure at a
// level, as a share of the girth: cut smaller it tears or cannot be closed, larger
// it does not stay up (common practice: 2 to 6 hundredths smaller).
const mostEase = 0.12

// reckon makes the girths and lines of the body from what it is asked to be.
func (b *panelled) reckon() error {
	if err := b.check(); err != nil {
		return err
	}
	table := panelTable[b.Panels/2]
	b.levels, b.shares, b.chord = b.Figure.levels(), table.shares, chordError(b.Chord)
	if len(b.Shares) > 0 {
		b.shares = b.Shares
	}
	for j := range b.levels {
		ease := b.Ease
		if j == atWaist {
			ease = b.waistEase
		}
		body := b.levels[j].girth
		b.levels[j].girth += ease - b.LacingGap
		if b.levels[j].girth <= 0 {
			return say.Errorf("ease of %.1f and a lacing gap of %.1f leave nothing of the %s of %.1f", say.MM(ease),
				say.MM(b.LacingGap), b.levels[j].name, say.MM(body))
		}
	}
	b.waist = b.levels[atWaist].girth / 2
	b.setLines()
	s := table.springs
	weights := [][]float64{s[0], s[1], s[2], nil, s[3]}
	if err := b.fit(weights[:len(b.levels)]); err != nil {
		return err
	}
	return cmp.Or(b.checkFacing(), b.checkPleat())
}

func (b *panelled) checkFacing() error {
	if f := b.facingShare(); f > 0.9 {
		last := b.shares[len(b.shares)-1] * b.waist
		return say.Errorf("a facing of %.1f covers the back panel of %.1f at the waist", say.MM(b.Facing), say.MM(last))
	}
	return nil
}

// checkPleat refuses an ease pleat that has no room.
func (b *panelled) checkPleat() error {
	if err := notNegative(measured{"ease pleat", b.EasePleat}); err != nil || b.EasePleat == 0 {
		return err
	}
	if b.EasePleat > mostDart {
		return say.Errorf("ease pleat is %.1f deep, must be at most %v", say.MM(b.EasePleat), say.MM(mostDart))
	}
	if b.Facing > 0 {
		return say.Errorf("an ease pleat %.1f deep at centre back, where a facing of %.1f is grown on", say.MM(b.EasePleat),
			say.MM(b.Facing)).Hint("leave one of them out")
	}
	return nil
}

func (b *panelled) check() error {
	if err := b.Figure.check(); err != nil {
		return err
	}
	if b.Panels%2 != 0 || b.Panels < 6 || b.Panels > 12 {
		return fmt.Errorf("panels: %d, must be 6, 8, 10 or 12: as many on the left as on the right", b.Panels)
	}
	if err := b.checkShares(); err != nil {
		return err
	}
	for _, l := range b.Figure.levels() {
		if l.name != "waist" && !(math.Abs(b.Ease) <= mostEase*l.girth) || b.waistEase > mostEase*l.girth {
			return say.Errorf("ease of %.1f is more than %g %% of the %s of %.1f", say.MM(b.Ease), mostEase*100, l.name,
				say.MM(l.girth))
		}
	}
	err := notNegative(measured{"facing", b.Facing}, measured{"channel width", b.Channel},
		measured{"front dip", b.FrontDip}, measured{"side dip", b.SideDip}, measured{"back dip", b.BackDip},
		measured{"side rise", b.SideRise}, measured{"back rise", b.BackRise})
	if err != nil {
		return err
	}
	if f := b.Facing; f > 0 && f < leastFacing {
		return say.Errorf("facing is %g, must be at least %v, or 0 for none", say.MM(f), say.MM(leastFacing))
	}
	return cmp.Or(
		b.checkChannel(),
		b.checkStyles(),
		b.checkGussets(),
		b.checkBones(),
		b.checkLines(),
		checkHem(b.HemRaise, b.Figure.OverBustUp, b.Chord, b.Allowance),
	)
}

// leastFacing is the narrowest facing, mm: what can still be folded back.
const leastFacing = 1

// mostChannel is the widest boning channel, mm: bones are 5 to 15 mm wide.
const mostChannel = 25

func (p PanelledBody) checkChannel() error {
	if c := p.Channel; c > mostChannel {
		return say.Errorf("channel width is %.1f, must be at most %v", say.MM(c), say.MM(mostChannel))
	}
	if p.MidBones && p.Channel == 0 {
		return errors.New("bones in the middle of the panels need a channel width")
	}
	return nil
}

// checkShares refuses shares that are no division of the half waist, or that leave
// the bust behind the side.
func (p PanelledBody) checkShares() error {
	if len(p.Shares) == 0 {
		return nil
	}
	half := p.Panels / 2
	if len(p.Shares) != half {
		return fmt.Errorf("%d shares for %d panels a side", len(p.Shares), half)
	}
	sum := 0.0
	for i, s := range p.Shares {
		if !(s > 0 && s < 1) {
			return fmt.Errorf("share of the %s panel is %g, must be above 0 and below 1", panelNames(half)[i], s)
		}
		sum += s
	}
	if math.Abs(sum-1) > 1e-6 {
		return fmt.Errorf("shares sum to %.6g, must sum to 1", sum)
	}
	front := p.Shares[0]
	if half == 6 {
		front += p.Shares[1] / 2
	}
	if front >= sidePosition-0.05 {
		return fmt.Errorf("shares put the bust at %.2f of the half body, must be below %.2f: in front of the side",
			front,
			sidePosition-0.05)
	}
	return nil
}

// checkLines refuses a top that bares the bust and a lower edge above the waist.
func (p PanelledBody) checkLines() error {
	f := p.Figure
	for i, name := range []string{"front", "side", "back"} {
		if most := f.OverBustUp - f.UnderBustUp; p.dips()[i] > most {
			return say.Errorf("%s dip is %.1f: the top edge would lie below the under-bust, %.1f down", name,
				say.MM(p.dips()[i]), say.MM(most))
		}
	}
	for i, name := range []string{"front", "side", "back"} {
		if p.rises()[i] > 0 && p.rises()[i]+p.HemRaise > f.HighHipDown {
			return say.Errorf("%s rise is %.1f: the lower edge would lie above the waist, %.1f up", name,
				say.MM(p.rises()[i]), say.MM(f.HighHipDown-p.HemRaise))
		}
	}
	if p.HemRaise > f.HighHipDown+f.UnderBustUp {
		return say.Errorf("hem raise is %.1f: the lower edge would lie above the under-bust", say.MM(p.HemRaise))
	}
	return nil
}
