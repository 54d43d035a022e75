package shapes

import (
	"fmt"
	"math"
)

// Flounce is a ring sector: its top edge is sewn on flat and its longer lower
// edge falls in folds. From the two lengths and the depth,
//
//	radius = top depth / (bottom - top),   angle = (bottom - top) / depth
//
// (L. Baldt, "Clothing for Women", 1916, for the radius; the angle, in radians,
// is top / radius).
type Flounce struct {
	Top, Bottom float64 // finished length of the upper and the lower edge, mm
	Depth       float64 // finished, mm
	Sections    int     // equal sections with seams between; 0: the fewest of at most 180 degrees
	HemRaise    float64 // how much shorter this layer is than the outer, mm
	Chord       float64 // chord error of arcs, mm; 0 means DefaultChord
	Allowance   Allowance
}

// Radii returns the radius of the upper and of the lower edge and the angle of
// the whole sector in degrees, hem raise left aside.
func (f Flounce) Radii() (top, bottom, angle float64) {
	top = f.Top * f.Depth / (f.Bottom - f.Top)
	return top, top + f.Depth, f.angle() * 180 / math.Pi
}

func (f Flounce) angle() float64 { return (f.Bottom - f.Top) / f.Depth }

// Draft returns the flounce, or one of its equal sections with their count. The
// upper edge and the ends take the seam allowance. A lower edge that is not
// longer than the upper one is refused.
func (f Flounce) Draft() ([]Piece, error) {
	n, err := f.check()
	if err != nil {
		return nil, fmt.Errorf("flounce: %w", err)
	}
	name := "flounce"
	if n > 1 {
		name = "flounce section"
	}
	inner, outer, _ := f.Radii()
	half := f.angle() / float64(n) / 2
	seam := f.Allowance.Seam
	p, err := NewPiece(name, sector{inner, outer - f.HemRaise, -half, half, chordError(f.Chord)}.edges(
		side{"lower end", Seam, seam}, side{"hem", Hem, f.Allowance.Hem},
		side{"upper end", Seam, seam}, side{"top", Top, seam}))
	if err != nil {
		return nil, err
	}
	p.Count = n
	pieces := []Piece{p}
	if err := MatchNotches(pieces, f.joins(n)); err != nil {
		return nil, err
	}
	return pieces, notchQuarters(pieces, f.top(n))
}

// check returns the number of sections.
func (f Flounce) check() (int, error) {
	if err := positive(measured{"top", f.Top}, measured{"bottom", f.Bottom}, measured{"depth", f.Depth}); err != nil {
		return 0, err
	}
	if err := checkHem(f.HemRaise, f.Depth, f.Chord, f.Allowance); err != nil {
		return 0, err
	}
	if f.Bottom-f.Top < leastFlare {
		return 0, fmt.Errorf("bottom (%.6g mm) is not longer than top (%.6g mm) by %.6g mm or more\n"+
			"  hint: draft a strip instead", f.Bottom, f.Top, leastFlare)
	}
	if turns := f.angle() / (2 * math.Pi); turns > maxFraction {
		return 0, fmt.Errorf("bottom %.6g mm on top %.6g mm goes %.1f times round at a depth of %.6g mm, the most is %g\n"+
			"  hint: a deeper flounce, a shorter bottom, or gather the top", f.Bottom, f.Top, turns, f.Depth, maxFraction)
	}
	top, _, _ := f.Radii()
	if err := checkInnerRadius("top", top, f.Allowance.Seam); err != nil {
		return 0, err
	}
	return sections(f.angle(), f.Sections)
}

// leastFlare is the least difference of bottom and top, mm: less cannot be cut,
// and the radius grows beyond bounds as it vanishes.
const leastFlare = 1.0
