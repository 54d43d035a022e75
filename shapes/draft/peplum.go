package draft

import (
	"cmp"
	"math"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// Peplum is a short skirt sewn to the waist of a bodice: a ring sector whose inner
// edge is as long as the waist. It is open at the centre back, or at the front.
//
//	     waist
//	    .-----.
//	  .'  hip  '.     at the depth d below the waist it goes round
//	 /  '-----'  \    W + 2 pi f d
//	'-_         _-'
//	   "--___--"  hem
//
// Without a fraction of a circle it lies smoothly over the hip: the fraction is
// the one whose girth at the hip depth is the hip's, f = (hip - waist) / (2 pi d),
// or the larger one that the high hip asks for.
type Peplum struct {
	Waist    float64 // finished length of the edge sewn to the bodice, mm
	Length   float64 // from waist to hem, mm
	Fraction float64 // of a circle; 0: as the hip asks for
	Hip      float64 // girth to clear, ease included, mm; needed without a fraction, 0 is not checked with one
	HipDepth float64 // from waist to hip, mm; needed with a hip
	HighHip  HighHip // to clear besides

	FrontOpen bool // open at the centre front instead of the back
	OnFold    bool // the other centre on a fold of the cloth; the piece is one half
	Sections  int  // 0: the fewest of at most 180 degrees

	HemRaise  float64 // how much shorter this layer is than the outer, mm
	Chord     float64 // chord error of arcs, mm; 0 means DefaultChord
	Allowance shapes.Allowance
}

// fraction returns the fraction of a circle it is cut from.
func (p Peplum) fraction() float64 {
	if p.Fraction == 0 {
		return leastFraction(p.Waist, p.Hip, p.HipDepth, p.HighHip)
	}
	return p.Fraction
}

// Radii returns the finished radii of waist and hem, hem raise left aside, mm.
func (p Peplum) Radii() (waist, hem float64) {
	waist = p.Waist / (2 * math.Pi * p.fraction())
	return waist, waist + p.Length
}

// Draft returns the sections from the opening round to the other centre. Seams
// and the opening take the seam allowance.
func (p Peplum) Draft() (Result, error) { return named("peplum")(then(p.wrap())) }

func (p Peplum) wrap() (wrap, error) {
	n, err := p.check()
	if err != nil {
		return wrap{}, err
	}
	waist, hem := p.Radii()
	return wrap{
		what: "peplum", openBack: !p.FrontOpen, inner: evenly(waist), outer: evenly(hem - p.HemRaise),
		angle: 2 * math.Pi * p.fraction(), sections: n, onFold: p.OnFold,
		top: side{"waist", shapes.Waist, p.Allowance.Waist}, hem: side{"hem", shapes.Hem, p.Allowance.Hem},
		seam: p.Allowance.Seam, chord: chordRound(p.Chord, 2*math.Pi*p.fraction()),
	}, nil
}

// check returns the number of sections.
func (p Peplum) check() (int, error) {
	if err := cmp.Or(
		positive(measured{"waist", p.Waist}, measured{"length", p.Length}),
		checkHem(p.HemRaise, p.Length, p.Chord, p.Allowance),
	); err != nil {
		return 0, err
	}
	switch {
	case p.Fraction == 0 && p.Hip == 0:
		return 0, say.Errorf("neither a fraction of a circle nor a hip to lie over is given").
			Hint("give the hip and its depth")
	case p.Fraction != 0:
		if err := cmp.Or(
			checkFraction(p.Fraction),
			checkClears(p.Waist, p.Fraction, p.Hip, p.HipDepth, p.HighHip),
		); err != nil {
			return 0, err
		}
	default:
		if err := positive(measured{"hip", p.Hip}, measured{"hip depth", p.HipDepth}); err != nil {
			return 0, err
		}
		if p.Hip-p.Waist < leastFlare {
			return 0, say.Errorf("hip of %.1f is not wider than the waist of %.1f by %g or more: no sector lies "+
				"smoothly over it", say.MM(p.Hip), say.MM(p.Waist), say.MM(leastFlare)).
				Hint("give a fraction of a circle")
		}
		if err := cmp.Or(p.HighHip.check(p.HipDepth), checkFraction(p.fraction())); err != nil {
			return 0, err
		}
	}
	waist, hem := p.Radii()
	if hem > shapes.MaxExtent/2 {
		return 0, say.Errorf("so little flare has a hem radius of %.0f, the most is %v", say.MM(hem),
			say.MM(shapes.MaxExtent/2))
	}
	if err := checkInnerRadius("waist", waist, p.Allowance.Waist); err != nil {
		return 0, err
	}
	where := "centre front"
	if p.FrontOpen {
		where = "centre back"
	}
	return shutting{fraction: p.fraction(), onFold: p.OnFold, asked: p.Sections, where: where}.sections()
}

func (p Peplum) Division() Division { return inSections(p.Sections) }

func (p Peplum) Divide(pieces int) Draft { p.Sections = pieces; return p }
