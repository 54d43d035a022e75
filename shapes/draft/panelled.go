package draft

import (
	"cmp"
	"math"

	"github.com/paulmach/orb"
	"gonum.org/v1/gonum/interp"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// panelled is a close-fitting body of panels, what Corset and StraplessBodice have
// in common. One half, centre front to centre back, is divided at the waist in
// given shares. At every other level what the half is wider than at the waist, its
// spring, is divided among the seams in given weights; each seam gives half of its
// spring to the panel before it and half to the one behind:
//
//	         y  centre back
//	over-bust :  .----.  .----.  .----.     spring of a seam = a + b:
//	bust      : (      )(      )(      |
//	under-bust:  \    /  \    /  \     |       \ a | b /
//	waist     :   |  |    |  |    |    |        \  |  /   waist 0
//	high hip  :  /    \  /    \  /     |        /  |  \
//
// So the two sides of a seam are mirror images, of one length, and the widths at
// each level sum to its girth. Centre front and centre back are straight and lie
// along the grain. Through the springs of the half runs a cubic without overshoot
// (Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5, 1984), and the weights go over
// from level to level: so the girth lies between those of the levels everywhere. A
// cubic of its own for each seam would not do: where one seam opens upwards and
// another downwards, their sum bulges between the levels.
type panelled struct {
	PanelledBody
	name         string
	waistEase    float64 // added to the waist, mm
	laced        bool    // at centre back, or at centre front where that is sewn
	frontOpening bool
	backSeam     bool // centre back is sewn, and centre front opens

	levels  []figureLevel // girths as made
	waist   float64       // half the waist as made, mm
	shares  []float64
	springs []spring // of each seam
	gussets []gusset
	chord   float64

	top, bottom contour // x over the position
	bottomEdge  side
}

// fit lays the spring of the half through the levels and divides it among the seams.
func (b *panelled) fit(weights [][]float64) error {
	xs, ys := make([]float64, len(b.levels)), make([]float64, len(b.levels))
	for j, l := range b.levels {
		xs[j], ys[j] = l.x, l.girth/2-b.waist
	}
	half := &interp.FritschButland{}
	if err := half.Fit(xs, ys); err != nil {
		return err
	}
	if b.gusseted() {
		var err error
		if half, err = b.withoutGussets(half, xs, ys); err != nil {
			return err
		}
	}
	for k := range len(b.shares) - 1 {
		var weight smooth
		for j, l := range b.levels {
			if j != atWaist { // nothing to divide there
				weight = append(weight, orb.Point{l.x, weights[j][k]})
			}
		}
		b.springs = append(b.springs, spring{half, weight})
	}
	return cmp.Or(b.checkPanels(weights), b.checkChannels(), b.placeGussets())
}

// leastPanel is the narrowest that a panel may be, mm: less leaves no room between
// the allowances of its seams.
const leastPanel = 15

// checkPanels refuses panels too narrow to sew and seams too steep to press.
func (b *panelled) checkPanels(weights [][]float64) error {
	for i, name := range panelNames(len(b.shares)) {
		for _, l := range b.levels {
			lower, upper := b.bounds(i, l.x)
			if upper-lower < leastPanel {
				return say.Errorf("%s panel is %.1f wide at the %s, must be %v or more", name, say.MM(upper-lower),
					l.name, say.MM(leastPanel)).
					Hint("fewer panels, or other shares")
			}
		}
	}
	for j := 1; j < len(b.levels); j++ {
		a, c := b.levels[j-1], b.levels[j]
		for k := range b.springs {
			rise := math.Abs(b.springs[k].Predict(c.x)-b.springs[k].Predict(a.x)) / 2
			if rise > c.x-a.x {
				return say.Errorf("from %s to %s a seam of %s bends out by %.1f over %.1f, more than half a right "+
					"angle", a.name, c.name, b.name, say.MM(rise), say.MM(c.x-a.x)).
					Hint("more panels")
			}
		}
	}
	return nil
}

// bounds returns the seam lines of panel i at a place below the over-bust, the
// front one first; the panel's own front edge at the waist is at 0.
func (b *panelled) bounds(i int, x float64) (lower, upper float64) {
	upper = b.shares[i] * b.waist
	if i > 0 {
		lower = -b.springs[i-1].Predict(x) / 2
	}
	if i < len(b.springs) {
		upper += b.springs[i].Predict(x) / 2
	}
	return lower, upper
}

// position returns where on the half body the front seam of panel i lies.
func (b *panelled) position(i int) float64 {
	sum := 0.0
	for _, s := range b.shares[:i] {
		sum += s
	}
	return sum
}

// seam returns half the spring of the seam behind panel k, sampled from its top to
// its bottom: points (x, half spring).
func (b *panelled) seam(k int) orb.LineString {
	at := b.position(k + 1)
	curve := func(x float64) orb.Point { return orb.Point{x, b.springs[k].Predict(x) / 2} }
	top, bottom := b.top.at(at), b.bottom.at(at)
	line := orb.LineString{curve(top)}
	for _, l := range append(b.levels[:len(b.levels):len(b.levels)], figureLevel{x: bottom}) {
		if from := line[len(line)-1][0]; l.x > from && l.x <= bottom {
			line = append(line, sampled(curve, from, l.x, b.chord)[1:]...)
		}
	}
	return line
}

// across returns the top or bottom line of panel i from its front to its back
// edge, the facing included.
func (b *panelled) across(i int, c contour) orb.LineString {
	start, share := b.position(i), b.shares[i]
	curve := func(t float64) orb.Point {
		x := c.at(start + t*share)
		lower, upper := b.bounds(i, x)
		return orb.Point{x, lower + t*(upper-lower)}
	}
	line, from := orb.LineString{curve(0)}, 0.0
	for _, anchor := range append(c.smooth[:len(c.smooth):len(c.smooth)], orb.Point{start + share}) {
		if to := (anchor[0] - start) / share; to > from+1e-9 && to <= 1+1e-9 {
			line, from = append(line, sampled(curve, from, min(to, 1), b.chord)[1:]...), to
		}
	}
	if i < len(b.springs) {
		return line
	}
	end := line[len(line)-1]
	if b.EasePleat > 0 {
		return append(line, orb.Point{end[0], end[1] + b.EasePleat})
	}
	if b.Facing == 0 {
		return line
	}
	facing := func(t float64) orb.Point {
		back := curve(1 - t*b.facingShare())
		return orb.Point{back[0], end[1] + t*b.Facing}
	}
	return append(line, sampled(facing, 0, 1, b.chord)[1:]...)
}

// facingShare is the facing's width over that of the centre back panel at the waist.
func (b *panelled) facingShare() float64 {
	return b.Facing / (b.shares[len(b.shares)-1] * b.waist)
}

// edges returns the finished outline of panel i.
func (b *panelled) edges(i int) []shapes.Edge {
	a := b.Allowance
	top, bottom := b.across(i, b.top), b.across(i, b.bottom)
	top.Reverse()
	front, back := b.sides(i)
	front.Line, back.Line = orb.LineString{top[len(top)-1], bottom[0]}, orb.LineString{bottom[len(bottom)-1], top[0]}
	if i > 0 {
		front.Line = plane.MirrorLine(b.seam(i-1), 0)
		front.Line.Reverse()
	}
	if i < len(b.springs) {
		back.Line = b.seam(i)
		plane.MoveLine(back.Line, orb.Point{0, b.shares[i] * b.waist})
		back.Line.Reverse()
	}
	front.Allowance, back.Allowance = a.For(front.Kind), a.For(back.Kind)
	return []shapes.Edge{
		front,
		{Name: b.bottomEdge.name, Kind: b.bottomEdge.kind, Line: bottom, Allowance: b.bottomEdge.allowance},
		back,
		{Name: "top", Kind: shapes.Top, Line: top, Allowance: a.Seam},
	}
}

// sides names the front and the back edge of panel i.
func (b *panelled) sides(i int) (front, back shapes.Edge) {
	front, back = shapes.Edge{Name: "front seam"}, shapes.Edge{Name: "back seam"}
	if i == 0 {
		front.Name = "centre front"
		switch {
		case b.FrontOnFold:
			front.Kind = shapes.Fold
		case b.frontOpening:
			front.Kind = shapes.Opening
		}
	}
	if i == len(b.springs) {
		back.Name, back.Kind = "centre back", shapes.Opening
		if b.backSeam {
			back.Kind = shapes.Seam
		}
		if b.Facing > 0 {
			back.Name = "facing"
		}
	}
	return front, back
}
