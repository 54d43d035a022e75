package shapes

import (
	"errors"
	"fmt"
	"math"

	"yardlay/shapes/plane"
)

// Cape is a part of a circle (or several) around the neck, open at centre front.
// For a fraction f the neck radius is Neck / (2 pi f), the hem lies Length
// further out.
//
// It is cut in one when that is no more than 180 degrees and neither a centre
// back seam nor a fold is asked for; else in equal sections, left and right.
type Cape struct {
	Neck     float64 // finished length of the neck edge, mm
	Length   float64 // from neck to hem, mm
	Fraction float64 // of a circle, above 0: 1 a full circle, 0.75, 0.5 ...

	BackSeam   bool // a seam at centre back
	BackOnFold bool // centre back on a fold of the cloth; the piece is one half, up to 180 degrees
	Sections   int  // 0: the fewest of at most 180 degrees that the centre back allows

	HemRaise  float64 // how much shorter this layer is than the outer, mm
	Chord     float64 // chord error of arcs, mm; 0 means DefaultChord
	Allowance Allowance
}

// Radii returns the finished radius of the neck and of the hem, hem raise left
// aside, mm.
func (c Cape) Radii() (neck, hem float64) {
	neck = c.Neck / (2 * math.Pi * c.Fraction)
	return neck, neck + c.Length
}

func (c Cape) angle() float64 { return 2 * math.Pi * c.Fraction }

// Draft returns the sections from centre front to centre back, left and right
// ones as a pair. Neck, centre front and seams take the seam allowance.
func (c Cape) Draft() ([]Piece, error) {
	n, err := c.check()
	if err != nil {
		return nil, fmt.Errorf("cape: %w", err)
	}
	if c.BackOnFold {
		return c.half()
	}
	var out []Piece
	for i := range (n + 1) / 2 {
		p, err := c.section(i, n)
		if err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	return out, MatchNotches(out, c.joins(n))
}

// section drafts section i of n, counted from centre front; section n-1-i is
// its mirror image. The piece as drawn is the left one: seen from outside with
// the neck up its upper side, towards the back, is on the right.
func (c Cape) section(i, n int) (Piece, error) {
	half := c.angle() / float64(n) / 2
	front, back := c.side("front seam", Seam), c.side("back seam", Seam)
	switch {
	case n == 1:
		front = c.side("left centre front", Opening)
	case i == 0:
		front = c.side("centre front", Opening)
	case i == n-1-i: // across centre back, between two alike
		front, back = c.side("left seam", Seam), c.side("right seam", Seam)
	}
	switch {
	case n == 1:
		back = c.side("right centre front", Opening)
	case i == n-2-i:
		back = c.side("centre back", Seam)
	}
	p, err := c.piece(sectionName(i, n), -half, half, front, back)
	if i < n-1-i {
		p.Count, p.Pair, p.Labels = 2, true, []string{"left", "right"}
	}
	return p, err
}

// sectionName calls sections by their place: front next to the opening, back
// next to or across centre back, sides between.
func sectionName(i, n int) string {
	last := (n+1)/2 - 1
	switch {
	case n == 1:
		return "cape"
	case n == 2:
		return "cape half"
	case i == 0:
		return "cape front"
	case i == last:
		return "cape back"
	case last == 2:
		return "cape side"
	}
	return fmt.Sprintf("cape side %d", i)
}

// half drafts the one half of a cape with its centre back on a fold.
func (c Cape) half() ([]Piece, error) {
	p, err := c.piece("cape", 0, c.angle()/2, c.side("centre back", Fold), c.side("centre front", Opening))
	if err == nil {
		err = plane.CheckSimple(p.Unfold().Cut)
	}
	if err != nil {
		return nil, fmt.Errorf("cape: %.1f degrees opened from the fold leave no room for the allowances at centre front: %w\n"+
			"  hint: a smaller fraction of a circle, or a centre back seam", c.angle()*180/math.Pi, err)
	}
	return []Piece{p}, nil
}

func (c Cape) piece(name string, from, to float64, lower, upper side) (Piece, error) {
	neck, hem := c.Radii()
	return NewPiece(name, sector{neck, hem - c.HemRaise, from, to, chordError(c.Chord)}.edges(
		lower, c.side("hem", Hem), upper, side{"neck", Top, c.Allowance.Seam}))
}

func (c Cape) side(name string, kind EdgeKind) side { return side{name, kind, c.Allowance.For(kind)} }

// check returns the number of sections.
func (c Cape) check() (int, error) {
	if err := positive(measured{"neck", c.Neck}, measured{"length", c.Length}); err != nil {
		return 0, err
	}
	if err := checkFraction(c.Fraction); err != nil {
		return 0, err
	}
	if err := checkHem(c.HemRaise, c.Length, c.Chord, c.Allowance); err != nil {
		return 0, err
	}
	neck, _ := c.Radii()
	if err := checkInnerRadius("neck", neck, c.Allowance.Seam); err != nil {
		return 0, err
	}
	switch {
	case c.BackSeam && c.BackOnFold:
		return 0, errors.New("centre back cannot both be a seam and lie on a fold")
	case c.BackOnFold && c.Sections > 1:
		return 0, fmt.Errorf("%d sections with centre back on a fold\n  hint: on a fold the cape is cut in one", c.Sections)
	case c.BackOnFold && c.Fraction > 1:
		return 0, fmt.Errorf("fraction of a circle is %g, on a fold it is at most 1\n  hint: a centre back seam", c.Fraction)
	case c.BackSeam && c.Sections%2 != 0:
		return 0, fmt.Errorf("%d sections have no seam at centre back\n  hint: an even number of sections", c.Sections)
	case c.BackOnFold:
		return 1, nil
	}
	n, err := sections(c.angle(), c.Sections)
	if err == nil && c.BackSeam && c.Sections == 0 {
		n += n % 2
	}
	return n, err
}
