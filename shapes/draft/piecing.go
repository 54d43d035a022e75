package draft

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// piecing is a long flat edge made up of strips that span the cloth. Each strip
// gives up the join allowance at both its ends, so n whole strips of usable
// width w sew up to n (w - 2 join): strips = flat / (w - 2 join), rounded up. In
// a run closed to a ring every one of those ends is in a seam; the first and the last
// end of an open run are hemmed instead:
//
//	first strip     strip      part strip
//	.--.--------+----------+--------.--.
//	|  :        |          |        :  |
//	'--'--------+----------+--------'--'
//	hem        join       join     hem
type piecing struct {
	full       int     // strips across the whole usable width
	width      float64 // cut width of those, mm
	part       float64 // cut width of one narrower strip, mm; 0 for none
	shortFirst bool    // the first strip is as narrow, for no whole one with its hem would leave a last strip
	join       float64 // mm
	ends       ends
}

// ends are those of a run of strips: joined to a ring, or free with a hem.
type ends struct {
	free bool
	hem  float64 // allowance of each free end, mm
}

// ring is a run whose ends are joined.
var ring = ends{}

// sewn is what a strip inside the run measures between its joins, mm.
func (p piecing) sewn() float64 { return p.width - 2*p.join }

// over is what both ends of the run take beyond the joins they would have in a ring, mm.
func (p piecing) over() float64 {
	if p.ends.free {
		return 2 * (p.ends.hem - p.join)
	}
	return 0
}

// pieceLength makes up a flat length, exactly to within a lattice step a strip.
func pieceLength(flat, clothWidth, join float64, e ends) (piecing, error) {
	p, err := newPiecing(clothWidth, join, e)
	if err != nil {
		return piecing{}, err
	}
	if flat <= plane.Lattice {
		return piecing{}, say.Errorf("a flat length of %.6g is too short to cut", say.MM(flat))
	}
	// What is less than a lattice step cannot be cut: it is rounding.
	n := math.Max(1, math.Ceil((flat+p.over()-plane.Lattice)/p.sewn()))
	if err := checkStrips(n); err != nil {
		return piecing{}, err
	}
	if p.full = int(n); p.flat()-flat <= plane.Lattice {
		return p, nil
	}
	p.full--
	rest := flat + p.over() - float64(p.full)*p.sewn() // between joins
	if p.part = rest + 2*p.join; p.full > 0 && rest-p.over()/2 < leastSewn && p.ends.free {
		p.full, p.shortFirst = p.full-1, true
		p.part += (p.width - p.part) / 2
	}
	return p, nil
}

// leastSewn is the least that a strip with a hem measures between hem and join, mm.
const leastSewn = 1.0

// mostGiven is the share by which fullness gives way to whole widths of cloth: nobody
// sees 2 % in a gathered edge, and a strip of a few millimetres is saved (our own
// figure).
const mostGiven = 0.02

// pieceGathered makes up a flat length that is gathered onto an edge: of whole widths
// alone where that changes it by no more than mostGiven, else as pieceLength does.
func pieceGathered(flat, edge, clothWidth, join float64, e ends) (piecing, error) {
	p, err := pieceLength(flat, clothWidth, join, e)
	if err != nil || p.part == 0 {
		return p, err
	}
	eased := piecing{full: int(math.Round((flat + p.over()) / p.sewn())), width: p.width, join: join, ends: e}
	if eased.full < 1 || math.Abs(eased.flat()-flat) > mostGiven*flat || eased.flat() < edge {
		return p, nil
	}
	return eased, nil
}

// easedNote says that an edge is fuller or less full than asked for; "" where it is not.
func easedNote(what string, asked, made float64) []say.Text {
	if math.Abs(made-asked) < 1e-6*asked {
		return nil
	}
	return []say.Text{say.Textf("%s: fullness is eased from %.4g to %.4g, so that whole widths of cloth go round.",
		what,
		asked, made)}
}

// pieceWidths makes up a number of cloth widths; a fraction is a strip of that
// part of the usable width.
func pieceWidths(widths, clothWidth, join float64, e ends) (piecing, error) {
	p, err := newPiecing(clothWidth, join, e)
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
	end := join
	if e.free {
		end = e.hem
	}
	if p.part = fraction * p.width; fraction > 0 && p.part-join-max(join, end) < leastSewn {
		return piecing{}, say.Errorf("the strip of %g of a width is cut %.1f wide: joins of %.6g leave nothing",
			fraction, say.MM(p.part), say.MM(max(join, end)))
	}
	return p, nil
}

// newPiecing keeps the strips on the lattice, rounded down: a strip one step
// wider than the cloth could not be laid.
func newPiecing(clothWidth, join float64, e ends) (piecing, error) {
	if err := cmp.Or(
		positive(measured{"cloth width", clothWidth}),
		notNegative(measured{"join allowance", join}, measured{"allowance of the free ends", e.hem}),
	); err != nil {
		return piecing{}, err
	}
	width := plane.Floor(clothWidth)
	if width-2*join < 1 {
		return piecing{}, say.Errorf("joins of %.6g leave nothing of a cloth width of %.6g", say.MM(join),
			say.MM(clothWidth))
	}
	if e.free && width-2*e.hem < 1 {
		return piecing{}, say.Errorf("hems of %.6g at the ends leave nothing of a cloth width of %.6g", say.MM(e.hem),
			say.MM(clothWidth))
	}
	return piecing{width: width, join: join, ends: e}, nil
}

func checkStrips(n float64) error {
	if n > MaxCount {
		return fmt.Errorf("takes %.0f strips, the most is %d", n, MaxCount)
	}
	return nil
}

// parts returns the number of narrower strips.
func (p piecing) parts() int {
	switch {
	case p.shortFirst:
		return 2
	case p.part > 0:
		return 1
	}
	return 0
}

// count returns the number of strips.
func (p piecing) count() int { return p.full + p.parts() }

// flat returns the length of the strips sewn together, mm.
func (p piecing) flat() float64 {
	return float64(p.full)*p.sewn() + float64(p.parts())*(p.part-2*p.join) - p.over()
}

// stripKind is so many strips alike, one behind the other.
type stripKind struct {
	name         string
	width        float64 // cut, mm
	count        int
	lower, upper side // their ends
}

// kinds returns the strips from the first to the last.
func (p piecing) kinds() []stripKind {
	lower, upper := side{"lower join", shapes.Seam, p.join}, side{"upper join", shapes.Seam, p.join}
	last := stripKind{"part strip", p.part, min(p.parts(), 1), lower, upper}
	all := []stripKind{{"strip", p.width, p.full, lower, upper}, last}
	if p.ends.free {
		start, end := side{"lower end", shapes.Hem, p.ends.hem}, side{"upper end", shapes.Hem, p.ends.hem}
		first := stripKind{"first strip", p.width, 1, start, upper}
		if p.shortFirst {
			first.width = p.part
		}
		if last.count == 0 {
			last = stripKind{"last strip", p.width, 1, lower, upper}
		}
		last.upper = end
		if all[0].count = p.count() - 2; p.count() == 1 {
			last.lower, first.count, all[0].count = start, 0, 0
			if p.part == 0 {
				last.name = "strip"
			}
		}
		all = []stripKind{first, all[0], last}
	}
	return slices.DeleteFunc(all, func(k stripKind) bool { return k.count == 0 })
}

// pieces drafts the strips: depth along the grain, width across it.
func (p piecing) pieces(name string, depth float64, top, bottom side) ([]shapes.Piece, error) {
	var out []shapes.Piece
	for _, k := range p.kinds() {
		piece, err := panel{
			along: depth, across: k.width - k.lower.allowance - k.upper.allowance,
			lower: k.lower, far: bottom, upper: k.upper, near: top,
		}.piece(name + " " + k.name)
		if err != nil {
			return nil, err
		}
		piece.Count = k.count
		out = append(out, piece)
	}
	return out, nil
}
