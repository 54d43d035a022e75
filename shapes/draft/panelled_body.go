package draft

import (
	"errors"
	"fmt"
	"math"

	"yardlay/shapes"
)

// panelledBody is what a panelled body is asked to be, mm.
type panelledBody struct {
	figure          Figure
	panels          int
	shares          []float64
	ease, waistEase float64
	gap             float64
	dips            [3]float64 // of the top: centre front, side, centre back
	rises           [2]float64 // of the lower edge: side, centre back
	hemRaise, chord float64
	shape           bodyShape
}

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
		{0.18, 0.22, 0.20, 0.20, 0.20}, {0.25, 0.27, 0.16, 0.16, 0.16}, {0.20, 0.22, 0.22, 0.20, 0.16}, {0.12, 0.20, 0.30, 0.22, 0.16},
	}},
}

// mostEase is the most that a close-fitting body may differ from the figure at a
// level, as a share of the girth: cut smaller it tears or cannot be closed, larger
// it does not stay up (common practice: 2 to 6 hundredths smaller).
const mostEase = 0.12

// panelled makes the girths and lines of the body; name is what errors call it.
func (p panelledBody) panelled(name string) (*panelled, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	table := panelTable[p.panels/2]
	b := &panelled{name: name, levels: p.figure.levels(), shares: table.shares, chord: chordError(p.chord), shape: p.shape,
		topAllowance: p.shape.allowance.Seam}
	if len(p.shares) > 0 {
		b.shares = p.shares
	}
	for j := range b.levels {
		ease := p.ease
		if j == atWaist {
			ease = p.waistEase
		}
		body := b.levels[j].girth
		b.levels[j].girth += ease - p.gap
		if b.levels[j].girth <= 0 {
			return nil, fmt.Errorf("ease of %.1f mm and a lacing gap of %.1f mm leave nothing of the %s of %.1f mm", ease, p.gap, b.levels[j].name, body)
		}
	}
	b.waist = b.levels[atWaist].girth / 2
	b.setLines(p)
	s := table.springs
	weights := [][]float64{s[0], s[1], s[2], nil, s[3]}
	if err := b.fit(weights[:len(b.levels)]); err != nil {
		return nil, err
	}
	return b, b.checkFacing()
}

// setLines lays the top and the lower edge over the half body.
func (b *panelled) setLines(p panelledBody) {
	overBustAt := b.position(1)
	if len(b.shares) == 6 { // the bust lies in the middle of the second panel
		overBustAt = b.position(1) + b.shares[1]/2
	}
	b.top = contour{{0, p.dips[0]}, {overBustAt, 0}, {sidePosition, p.dips[1]}, {1, p.dips[2]}}
	end := b.levels[len(b.levels)-1].x - p.hemRaise
	b.bottom = contour{{0, end}, {sidePosition, end - p.rises[0]}, {1, end - p.rises[1]}}
	b.bottomEdge = side{"lower edge", shapes.Hem, p.shape.allowance.For(shapes.Hem)}
	if p.figure.HighHipDown == 0 {
		b.bottomEdge = side{"waist", shapes.Waist, p.shape.allowance.For(shapes.Waist)}
	}
}

// sidePosition is where the side lies between centre front and centre back.
const sidePosition = 0.5

func (b *panelled) checkFacing() error {
	if f := b.facingShare(); f > 0.9 {
		last := b.shares[len(b.shares)-1] * b.waist
		return fmt.Errorf("a facing of %.1f mm covers the back panel of %.1f mm at the waist", b.shape.facing, last)
	}
	return nil
}

func (p panelledBody) check() error {
	if err := p.figure.check(); err != nil {
		return err
	}
	if p.panels%2 != 0 || p.panels < 6 || p.panels > 12 {
		return fmt.Errorf("panels: %d, must be 6, 8, 10 or 12: as many on the left as on the right", p.panels)
	}
	if err := p.checkShares(); err != nil {
		return err
	}
	for _, l := range p.figure.levels() {
		if l.name != "waist" && !(math.Abs(p.ease) <= mostEase*l.girth) || p.waistEase > mostEase*l.girth {
			return fmt.Errorf("ease of %.1f mm is more than %g %% of the %s of %.1f mm", p.ease, mostEase*100, l.name, l.girth)
		}
	}
	err := notNegative(measured{"facing", p.shape.facing}, measured{"channel width", p.shape.channel},
		measured{"front dip", p.dips[0]}, measured{"side dip", p.dips[1]}, measured{"back dip", p.dips[2]},
		measured{"side rise", p.rises[0]}, measured{"back rise", p.rises[1]})
	if err != nil {
		return err
	}
	if f := p.shape.facing; f > 0 && f < leastFacing {
		return fmt.Errorf("facing is %g mm, must be at least %d mm, or 0 for none", f, leastFacing)
	}
	if err := p.checkChannel(); err != nil {
		return err
	}
	if err := p.checkLines(); err != nil {
		return err
	}
	return checkHem(p.hemRaise, p.figure.OverBustUp, p.chord, p.shape.allowance)
}

// leastFacing is the narrowest facing, mm: what can still be folded back.
const leastFacing = 1

// mostChannel is the widest boning channel, mm: bones are 5 to 15 mm wide.
const mostChannel = 25

func (p panelledBody) checkChannel() error {
	if c := p.shape.channel; c > mostChannel {
		return fmt.Errorf("channel width is %.1f mm, must be at most %d mm", c, mostChannel)
	}
	if p.shape.midBones && p.shape.channel == 0 {
		return errors.New("bones in the middle of the panels need a channel width")
	}
	return nil
}

// checkShares refuses shares that are no division of the half waist, or that leave
// the bust behind the side.
func (p panelledBody) checkShares() error {
	if len(p.shares) == 0 {
		return nil
	}
	half := p.panels / 2
	if len(p.shares) != half {
		return fmt.Errorf("%d shares for %d panels a side", len(p.shares), half)
	}
	sum := 0.0
	for i, s := range p.shares {
		if !(s > 0 && s < 1) {
			return fmt.Errorf("share of the %s panel is %g, must be above 0 and below 1", panelNames(half)[i], s)
		}
		sum += s
	}
	if math.Abs(sum-1) > 1e-6 {
		return fmt.Errorf("shares sum to %.6g, must sum to 1", sum)
	}
	front := p.shares[0]
	if half == 6 {
		front += p.shares[1] / 2
	}
	if front >= sidePosition-0.05 {
		return fmt.Errorf("shares put the bust at %.2f of the half body, must be below %.2f: in front of the side", front, sidePosition-0.05)
	}
	return nil
}

// checkLines refuses a top that bares the bust and a lower edge above the waist.
func (p panelledBody) checkLines() error {
	f := p.figure
	for i, name := range []string{"front", "side", "back"} {
		if most := f.OverBustUp - f.UnderBustUp; p.dips[i] > most {
			return fmt.Errorf("%s dip is %.1f mm: the top edge would lie below the under-bust, %.1f mm down", name, p.dips[i], most)
		}
	}
	for i, name := range []string{"side", "back"} {
		if p.rises[i] > 0 && p.rises[i]+p.hemRaise > f.HighHipDown {
			return fmt.Errorf("%s rise is %.1f mm: the lower edge would lie above the waist, %.1f mm up", name, p.rises[i], f.HighHipDown-p.hemRaise)
		}
	}
	if p.hemRaise > f.HighHipDown+f.UnderBustUp {
		return fmt.Errorf("hem raise is %.1f mm: the lower edge would lie above the under-bust", p.hemRaise)
	}
	return nil
}
