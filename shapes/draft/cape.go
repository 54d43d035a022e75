package draft

import (
	"cmp"
	"math"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// Cape is a part of a circle (or several) around the neck, open at centre front.
// For a fraction f the neck radius is Neck / (2 pi f), the hem lies Length
// further out.
//
//	     centre back
//	    .-----|-----.
//	  .'   .--|--.   '.      the neck of a fitted cape lies NeckDrop lower
//	 /    / \ : / \    \     in front, and is taken in by a dart at each
//	|    |\/     \/|    |    shoulder
//	 \    '.     .'    /
//	  '.    |   |    .'
//	    '---|   |---'
//	     centre front
//
// With the darts folded the neck is smooth: it meets their legs squarely and has a
// peak over their mouths.
//
// It is cut in one when that is no more than 180 degrees and neither a centre
// back seam nor a fold is asked for; else in equal sections, left and right.
type Cape struct {
	Neck     float64 // finished length of the neck edge, darts sewn, mm
	Length   float64 // from neck to hem at the centre back, mm
	Fraction float64 // of a circle, above 0: 1 a full circle, 0.75, 0.5 ...

	BackSeam   bool // a seam at centre back
	BackOnFold bool // centre back on a fold of the cloth; the piece is one half, up to 180 degrees
	Sections   int  // 0: the fewest of at most 180 degrees that the centre back allows

	NeckDrop   float64 // how much lower the neck lies at the centre front than at the centre back, mm
	Dart       float64 // width of the dart at each shoulder, straight across at the neck, mm; 0 for none
	DartLength float64 // from the neck down, mm; needed with a dart
	Shoulder   float64 // along the finished neck from the centre back to the dart, mm; 0 means half way to the front

	HemRaise  float64 // how much shorter this layer is than the outer, mm
	Chord     float64 // chord error of arcs, mm; 0 means DefaultChord
	Allowance shapes.Allowance
}

// Radii returns the finished radius of the neck and of the hem at the centre
// back, hem raise left aside, mm; 0 and the length where there is no such neck.
func (c Cape) Radii() (neck, hem float64) {
	if r, err := c.rim(); err == nil {
		neck = r.radius(0)
	}
	return neck, neck + c.Length
}

func (c Cape) angle() float64 { return 2 * math.Pi * c.Fraction }

// cutNeck is the length of the neck edge with its darts open, mm.
func (c Cape) cutNeck() float64 { return c.Neck + 2*c.Dart }

// neck returns the neck's curve: of the radius at the centre back that gives it
// its length, 0 where there is none.
//
// A radius longer by 1 lengthens the curve by at most its angle, and by the more
// the longer it is: so steps of the surplus over the angle come down from the
// radius of a level neck to the one sought and never pass it.
func (c Cape) neck() swing {
	plain := c.cutNeck() / c.angle()
	if !(c.NeckDrop > 0) {
		return evenly(plain)
	}
	s := swing{middle: plain, side: plain + c.NeckDrop, span: c.angle() / 2}
	for range 500 {
		step := (s.length() - c.cutNeck()) / c.angle()
		s.middle, s.side = s.middle-step, s.side-step
		if !(s.middle > 0) {
			return swing{}
		}
		if step < 1e-9 {
			break
		}
	}
	return s
}

// Draft returns the sections from centre front to centre back, left and right
// ones as a pair. Neck, centre front and seams take the seam allowance; darts are
// marked inside.
func (c Cape) Draft() (Result, error) { return named("cape")(then(c.wrap())) }

func (c Cape) wrap() (wrap, error) {
	n, err := c.check()
	if err != nil {
		return wrap{}, err
	}
	neck, err := c.rim()
	if err != nil {
		return wrap{}, err
	}
	if darted, ok := neck.(dartedNeck); ok {
		if err := darted.checkSeams(c, n); err != nil {
			return wrap{}, err
		}
	}
	return wrap{
		what: "cape", inner: neck, outer: evenly(neck.radius(0) + c.Length - c.HemRaise), angle: c.angle(), sections: n,
		onFold: c.BackOnFold,
		top:    side{"neck", shapes.Top, c.Allowance.Seam}, hem: side{"hem", shapes.Hem, c.Allowance.Hem},
		seam: c.Allowance.Seam, chord: chordRound(c.Chord, c.angle()),
	}, nil
}

// shoulder is the finished way along the neck from the centre back to the dart, mm.
func (c Cape) shoulder() float64 {
	if c.Shoulder == 0 {
		return c.Neck / 4
	}
	return c.Shoulder
}

// check returns the number of sections.
func (c Cape) check() (int, error) {
	if err := cmp.Or(
		positive(measured{"neck", c.Neck}, measured{"length", c.Length}),
		checkFraction(c.Fraction),
		checkHem(c.HemRaise, c.Length, c.Chord, c.Allowance),
		c.checkNeck(),
	); err != nil {
		return 0, err
	}
	return shutting{fraction: c.Fraction, seam: c.BackSeam, onFold: c.BackOnFold, asked: c.Sections,
		where: "centre back"}.sections()
}

// checkNeck refuses a neck that cannot be cut or taken in.
func (c Cape) checkNeck() error {
	if err := notNegative(measured{"neck drop", c.NeckDrop}, measured{"dart", c.Dart},
		measured{"shoulder", c.Shoulder}); err != nil {
		return err
	}
	if c.NeckDrop >= c.Length-c.HemRaise {
		return say.Errorf("neck drop of %.6g leaves nothing of a length of %.6g at the centre front",
			say.MM(c.NeckDrop), say.MM(c.Length-c.HemRaise))
	}
	if c.Dart > 0 {
		if err := positive(measured{"dart length", c.DartLength}); err != nil {
			return err
		}
		if c.DartLength >= c.Length-c.HemRaise-c.NeckDrop {
			return say.Errorf("dart length of %.6g reaches the hem", say.MM(c.DartLength))
		}
		if c.shoulder() >= c.Neck/2 {
			return say.Errorf("shoulder at %.6g from the centre back does not lie on half a neck of %.6g",
				say.MM(c.shoulder()), say.MM(c.Neck/2))
		}
	}
	neck := c.neck()
	if neck.middle == 0 {
		return say.Errorf("neck drop of %.6g is too much for a neck of %.6g", say.MM(c.NeckDrop), say.MM(c.cutNeck()))
	}
	return checkInnerRadius("neck", neck.middle, c.Allowance.Seam)
}

func (c Cape) Division() Division { return inSections(c.Sections) }

func (c Cape) Divide(pieces int) Draft { c.Sections = pieces; return c }
