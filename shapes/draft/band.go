package draft

import (
	"cmp"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Waistband is a straight band folded along its middle, closed at centre back:
//
//	 start                                        underlap
//	+---------+---------+---------+---------+------+
//	|         |         |         |         |      |  outer half
//	|- - - - - - - - - - fold - - - - - - - - - - -|
//	|         |         |         |         |      |  inner half
//	+---------+---------+---------+---------+------+
//	CB      side       CF       side       CB
//
// Its finished length is waist + ease + underlap, its finished width that of
// one half.
type Waistband struct {
	Waist    float64 // waist girth, mm
	Ease     float64 // added to the girth, mm; negative where the waist is laced in
	Underlap float64 // passes under the other end at the closing, mm
	Width    float64 // finished width, folded, mm
	Across   bool    // the long side lies across the cloth instead of along the grain

	// InterfacingAllowance is cut outside the sewn line of the interfacing, mm.
	// 0, cut at the sewn line, keeps it out of the seams: common practice for
	// fusibles.
	InterfacingAllowance float64

	Allowance shapes.Allowance
}

// Draft returns the band in one piece, its fold marked inside and both long
// edges notched at the quarters of the waist and at the underlap. The long edges
// take the waist allowance, like the skirt they are sewn to, the ends the seam
// allowance. Lengths that come to nothing are refused.
func (w Waistband) Draft() (Result, error) {
	if err := w.check(); err != nil {
		return Result{}, say.Errorf("waistband: %w", err)
	}
	p, err := w.lay("waistband", w.Allowance.For(shapes.Waist), w.Allowance.For(shapes.Seam))
	if err != nil {
		return Result{}, err
	}
	if err := w.notch(&p); err != nil {
		return Result{}, err
	}
	return Result{Pieces: []shapes.Piece{p}, Waist: w.sewn()}, nil
}

// sewn is the outer edge; the underlap runs past what it is sewn to.
func (w Waistband) sewn() shapes.JoinSide {
	return shapes.JoinSide{Edges: []shapes.SewnEdge{along("waistband", bandOuter)},
		Treatment: shapes.Treatment{Lap: w.Underlap}}
}

// Length returns the finished length, underlap included, mm.
func (w Waistband) Length() float64 { return w.Waist + w.Ease + w.Underlap }

func (w Waistband) check() error {
	if err := cmp.Or(
		positive(measured{"waist", w.Waist}, measured{"width", w.Width}),
		notNegative(measured{"underlap", w.Underlap}),
	); err != nil {
		return err
	}
	if err := positive(measured{"waist with ease", w.Waist + w.Ease}); err != nil {
		return say.Errorf("%w", err).
			Hint("ease %.6g takes away the whole waist of %.6g", say.MM(w.Ease), say.MM(w.Waist))
	}
	return w.Allowance.Check()
}

// Names of the band's edges.
const (
	bandOuter = "outer waist"
	bandInner = "inner waist"
)

// lay drafts the unfolded band with its fold line, along or across the grain.
func (w Waistband) lay(name string, long, end float64) (shapes.Piece, error) {
	outer, inner := side{bandOuter, shapes.Waist, long}, side{bandInner, shapes.Waist, long}
	start, finish := side{"start", shapes.Seam, end}, side{"underlap end", shapes.Seam, end}
	length, unfolded := w.Length(), 2*w.Width
	middle := long + w.Width
	if w.Across {
		p, err := panel{along: unfolded, across: length, lower: start, far: outer, upper: finish,
			near: inner}.piece(name)
		p.Inside = []orb.LineString{{{middle, end}, {middle, end + length}}}
		return p, err
	}
	p, err := panel{along: length, across: unfolded, lower: outer, far: finish, upper: inner, near: start}.piece(name)
	p.Inside = []orb.LineString{{{end, middle}, {end + length, middle}}}
	// In the middle the arrow would lie on the fold line.
	quarter := long + w.Width/2
	p.Grain = orb.LineString{{end + 0.15*length, quarter}, {end + 0.85*length, quarter}}
	return p, err
}

// notch marks the quarters of the waist and the underlap, counted from the
// start, on both long edges. The outer one runs from the start to the underlap,
// the inner one back.
func (w Waistband) notch(p *shapes.Piece) error {
	girth := w.Waist + w.Ease
	at := []float64{girth / 4, girth / 2, 3 * girth / 4}
	if w.Underlap > plane.Lattice { // less is rounding, and its mark would miss the edge
		at = append(at, girth)
	}
	for _, d := range at {
		if err := cmp.Or(p.AddNotch(bandOuter, d), p.AddNotch(bandInner, w.Length()-d)); err != nil {
			return err
		}
	}
	return nil
}

// Interfacing is that of the whole of a waistband, inner and outer half, for a cloth of
// its own.
type Interfacing Waistband

// Draft returns the one piece, cut at the sewn line but for its own allowance.
func (i Interfacing) Draft() (Result, error) {
	w := Waistband(i)
	if err := cmp.Or(
		w.check(),
		notNegative(measured{"interfacing allowance", w.InterfacingAllowance}),
	); err != nil {
		return Result{}, say.Errorf("waistband: %w", err)
	}
	p, err := w.lay("waistband interfacing", w.InterfacingAllowance, w.InterfacingAllowance)
	return Result{Pieces: []shapes.Piece{p}, Fused: true}, err
}
