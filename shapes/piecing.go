package shapes

import (
	"fmt"
	"math"

	"yardlay/shapes/plane"
)

// piecing is a long flat edge made up of strips that span the cloth. Each strip
// gives up the join allowance at both its ends, so n whole strips of usable
// width w sew up to n (w - 2 join): strips = flat / (w - 2 join), rounded up. In
// a run closed to a ring every one of those ends is in a seam; the two ends of an
// open run keep theirs for a narrow hem.
type piecing struct {
	full  int     // strips across the whole usable width
	width float64 // cut width of those, mm
	part  float64 // cut width of one narrower strip, mm; 0 for none
	join  float64 // mm
}

// pieceLength makes up a flat length, exactly to within a lattice step a strip.
func pieceLength(flat, clothWidth, join float64) (piecing, error) {
	p, err := newPiecing(clothWidth, join)
	if err != nil {
		return piecing{}, err
	}
	sewn := p.width - 2*join
	whole := math.Floor((flat + plane.Lattice) / sewn)
	if err := checkStrips(whole); err != nil {
		return piecing{}, err
	}
	p.full = int(whole)
	// What is less than a lattice step cannot be cut: it is rounding.
	if rest := flat - whole*sewn; rest > plane.Lattice {
		p.part = rest + 2*join
	}
	if p.count() == 0 {
		return piecing{}, fmt.Errorf("a flat length of %.6g mm is too short to cut", flat)
	}
	return p, nil
}

// mostGiven is the share by which fullness gives way to whole widths of cloth: nobody
// sees 2 % in a gathered edge, and a strip of a few millimetres is saved (our own
// figure).
const mostGiven = 0.02

// pieceGathered makes up a flat length that is gathered onto an edge: of whole widths
// alone where that changes it by no more than mostGiven, else as pieceLength does.
func pieceGathered(flat, edge, clothWidth, join float64) (piecing, error) {
	p, err := pieceLength(flat, clothWidth, join)
	if err != nil || p.part == 0 {
		return p, err
	}
	eased := piecing{full: int(math.Round(flat / (p.width - 2*join))), width: p.width, join: join}
	if eased.full < 1 || math.Abs(eased.flat()-flat) > mostGiven*flat || eased.flat() < edge {
		return p, nil
	}
	return eased, nil
}

// easedNote says that an edge is fuller or less full than asked for; "" where it is not.
func easedNote(what string, asked, made float64) []string {
	if math.Abs(made-asked) < 1e-6*asked {
		return nil
	}
	return []string{fmt.Sprintf("%s: fullness is eased from %.4g to %.4g, so that whole widths of cloth go round.", what, asked, made)}
}

// pieceWidths makes up a number of cloth widths; a fraction is a strip of that
// part of the usable width.
func pieceWidths(widths, clothWidth, join float64) (piecing, error) {
	p, err := newPiecing(clothWidth, join)
	if err != nil {
		return piecing{}, err
	}
	if !(widths > 0) {
		return piecing{}, fmt.Errorf("%g widths of cloth, must be more than 0", widths)
	}
	if err := checkStrips(widths); err != nil {
		return piecing{}, err
	}
	whole, fraction := math.Modf(widths)
	p.full = int(whole)
	if p.part = fraction * p.width; fraction > 0 && p.part-2*join < 1 {
		return piecing{}, fmt.Errorf("the strip of %g of a width is cut %.1f mm wide and joins of %.6g mm leave nothing of it", fraction, p.part, join)
	}
	return p, nil
}

// newPiecing keeps the strips on the lattice, rounded down: a strip one step
// wider than the cloth could not be laid.
func newPiecing(clothWidth, join float64) (piecing, error) {
	if err := positive(measured{"cloth width", clothWidth}); err != nil {
		return piecing{}, err
	}
	if err := notNegative(measured{"join allowance", join}); err != nil {
		return piecing{}, err
	}
	width := math.Floor(clothWidth/plane.Lattice) * plane.Lattice
	if width-2*join < 1 {
		return piecing{}, fmt.Errorf("joins of %.6g mm leave nothing of a cloth width of %.6g mm", join, clothWidth)
	}
	return piecing{width: width, join: join}, nil
}

func checkStrips(n float64) error {
	if n > MaxCount {
		return fmt.Errorf("takes %.0f strips, the most is %d", n, MaxCount)
	}
	return nil
}

// count returns the number of strips.
func (p piecing) count() int {
	if p.part > 0 {
		return p.full + 1
	}
	return p.full
}

// flat returns the length of the strips sewn together, mm.
func (p piecing) flat() float64 {
	sum := float64(p.full) * (p.width - 2*p.join)
	if p.part > 0 {
		sum += p.part - 2*p.join
	}
	return sum
}

// pieces drafts the strips: depth along the grain, width across it.
func (p piecing) pieces(name string, depth float64, top, bottom side) ([]Piece, error) {
	var out []Piece
	add := func(name string, width float64, count int) error {
		if count == 0 {
			return nil
		}
		piece, err := panel{
			along: depth, across: width - 2*p.join,
			lower: side{"lower join", Seam, p.join}, far: bottom,
			upper: side{"upper join", Seam, p.join}, near: top,
		}.piece(name)
		piece.Count = count
		out = append(out, piece)
		return err
	}
	if err := add(name+" strip", p.width, p.full); err != nil {
		return nil, err
	}
	if p.part == 0 {
		return out, nil
	}
	if err := add(name+" part strip", p.part, 1); err != nil {
		return nil, err
	}
	return out, nil
}
