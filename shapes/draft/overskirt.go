package draft

import (
	"cmp"
	"math"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// Overskirt is a circle skirt worn over another and open at the centre front. Its
// front edges stand a gap apart at the waist; its hem may rise towards them.
//
//	            gap
//	  .--------.   .--------.
//	 /   waist |   |         \
//	|          |   |          |   FrontLength
//	|          |   |          |
//	 \        /     \        /    the hem rises from Length at the centre back
//	  '-.__.-'       '-.__.-'     as half a wave of the cosine, without a kink
//
// The waist left by the gap, W - gap, lies on a radius of (W - gap) / (2 pi f).
type Overskirt struct {
	Waist       float64 // girth where it is sewn on, mm
	Gap         float64 // between the front edges at the waist, mm
	Length      float64 // from waist to hem at the centre back, mm
	FrontLength float64 // of the front edges, mm; 0 means Length
	Fraction    float64 // of a circle, above 0

	BackSeam   bool // a seam at centre back
	BackOnFold bool // centre back on a fold of the cloth; the piece is one half
	Sections   int  // 0: the fewest of at most 180 degrees that the centre back allows

	HemRaise  float64 // how much shorter this layer is than the outer, mm
	Chord     float64 // chord error of curves, mm; 0 means DefaultChord
	Allowance shapes.Allowance
}

// Draft returns the sections from centre front to centre back, left and right
// ones as a pair. The front edges take the seam allowance, to be faced.
func (o Overskirt) Draft() (Result, error) { return named("overskirt")(then(o.wrap())) }

// frontLength is the length of the outer layer's front edges, mm.
func (o Overskirt) frontLength() float64 {
	if o.FrontLength == 0 {
		return o.Length
	}
	return o.FrontLength
}

func (o Overskirt) wrap() (wrap, error) {
	n, err := o.check()
	if err != nil {
		return wrap{}, err
	}
	angle := 2 * math.Pi * o.Fraction
	waist := o.radius()
	hem := swing{middle: waist + o.Length - o.HemRaise, side: waist + o.frontLength() - o.HemRaise, span: angle / 2}
	return wrap{
		what: "overskirt", gap: o.Gap, inner: evenly(waist), outer: hem, angle: angle, sections: n,
		onFold: o.BackOnFold,
		top:    side{"waist", shapes.Waist, o.Allowance.Waist}, hem: side{"hem", shapes.Hem, o.Allowance.Hem},
		seam: o.Allowance.Seam, chord: chordRound(o.Chord, angle),
	}, nil
}

// radius is that of the waist, mm.
func (o Overskirt) radius() float64 { return (o.Waist - o.Gap) / (2 * math.Pi * o.Fraction) }

// check returns the number of sections.
func (o Overskirt) check() (int, error) {
	if err := cmp.Or(
		positive(measured{"waist", o.Waist}, measured{"length", o.Length}, measured{"front length", o.frontLength()}),
		notNegative(measured{"gap", o.Gap}),
	); err != nil {
		return 0, err
	}
	if o.Gap >= o.Waist {
		return 0, say.Errorf("a gap of %.6g leaves nothing of a waist of %.6g", say.MM(o.Gap), say.MM(o.Waist))
	}
	if err := cmp.Or(
		checkFraction(o.Fraction),
		checkHem(o.HemRaise, min(o.Length, o.frontLength()), o.Chord, o.Allowance),
	); err != nil {
		return 0, err
	}
	if err := cmp.Or(
		checkHemRadius(o.Fraction, o.Waist-o.Gap, o.radius()+max(o.Length, o.frontLength())),
		checkInnerRadius("waist", o.radius(), o.Allowance.Waist),
	); err != nil {
		return 0, err
	}
	return shutting{fraction: o.Fraction, seam: o.BackSeam, onFold: o.BackOnFold, asked: o.Sections,
		where: "centre back"}.sections()
}

func (o Overskirt) Division() Division { return inSections(o.Sections) }

func (o Overskirt) Divide(pieces int) Draft { o.Sections = pieces; return o }
