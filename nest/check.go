package nest

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Reach is the farthest a coordinate may lie from the origin, mm: 2^16 mm, a
// little over 65 m, or 2^26 steps of the lattice. Within it the judge's products
// fit an int64.
const Reach = 1 << 16

// SizeError says that a piece fits on the cloth in none of its allowed turns.
type SizeError struct {
	Piece     int     // index into Problem.Pieces
	Name      string  // the piece's name
	Mirrored  bool    // it is the mirrored copies of a pair that do not fit
	Along     float64 // extent along the cloth in the allowed turn that is least across it, mm
	Across    float64 // least extent across the cloth over the allowed turns, mm
	Width     float64 // usable width of the strip, mm
	MaxLength float64 // longest the strip may be, mm; 0: no limit
}

// Error names the piece with both sizes.
func (e *SizeError) Error() string {
	limit := fmt.Sprintf("%s mm wide", millimetres(e.Width))
	if e.MaxLength > 0 {
		limit += fmt.Sprintf(" and at most %s mm long", millimetres(e.MaxLength))
	}
	return fmt.Sprintf("%q fits in no allowed turn: it takes %s mm across and %s mm along, the strip is %s",
		e.Name, millimetres(e.Across), millimetres(e.Along), limit)
}

// Check says why p cannot be solved or judged, naming the piece and what is
// wrong with it; nil when nothing is. A piece that is sound but fits on the cloth
// in none of its allowed turns gives a *SizeError.
func (p Problem) Check() error {
	if err := p.checkSound(); err != nil {
		return err
	}
	for i := range p.Pieces {
		if err := p.checkLattice(i); err != nil {
			return err
		}
		if err := p.checkFits(i); err != nil {
			return err
		}
	}
	return nil
}

// checkLattice refuses a piece so thin that turning and snapping leave it no area.
func (p Problem) checkLattice(i int) error {
	for _, turn := range p.Pieces[i].turns() {
		for _, mirrored := range []bool{false, true} {
			if _, err := newCutLine(p.Outline(Placed{Piece: i, Turn: turn, Mirrored: mirrored})); err != nil {
				return fmt.Errorf("piece %q turned %v degrees: %w", p.Pieces[i].Name, turn, err)
			}
		}
	}
	return nil
}

// checkSound checks everything but whether the pieces fit on the cloth.
func (p Problem) checkSound() error {
	s := p.Strip
	switch {
	case !isFinite(s.Width) || s.Width <= 0:
		return fmt.Errorf("strip width is %v mm, must be above 0", s.Width)
	case !isFinite(s.MaxLength) || s.MaxLength < 0:
		return fmt.Errorf("longest strip is %v mm, must be 0 (no limit) or more", s.MaxLength)
	case !isFinite(p.Gap) || p.Gap < 0:
		return fmt.Errorf("gap between pieces is %v mm, must be 0 or more", p.Gap)
	case len(p.Pieces) == 0:
		return errors.New("no pieces to lay")
	}
	for i, zone := range s.Forbidden {
		if err := checkZone(zone); err != nil {
			return fmt.Errorf("forbidden zone %d: %w", i, err)
		}
	}
	for _, piece := range p.Pieces {
		if err := piece.check(); err != nil {
			return fmt.Errorf("piece %q: %w", piece.Name, err)
		}
	}
	return nil
}

func checkZone(zone orb.Ring) error {
	if err := checkOutline(zone); err != nil {
		return err
	}
	for i, v := range zone {
		if plane.SnapPoint(v) != v {
			return fmt.Errorf("vertex %d at %s is off the lattice of %v mm: snap the ring first", i, at(v), plane.Lattice)
		}
	}
	return nil
}

func checkOutline(ring orb.Ring) error {
	if err := plane.CheckSimple(ring); err != nil {
		return fmt.Errorf("outline: %w", err)
	}
	for i, v := range ring {
		if max(math.Abs(v[0]), math.Abs(v[1])) > Reach {
			return fmt.Errorf("outline: vertex %d at %s is more than %d mm from the origin", i, at(v), Reach)
		}
	}
	return nil
}

func (piece Piece) check() error {
	if err := checkOutline(piece.Outline); err != nil {
		return err
	}
	if piece.Count < 1 {
		return fmt.Errorf("count is %d, must be at least 1", piece.Count)
	}
	for _, turn := range piece.Turns {
		if !isFinite(turn) {
			return fmt.Errorf("turn of %v degrees is not finite", turn)
		}
	}
	switch piece.Mirror {
	case AsDrawn, Free:
	case Paired:
		if piece.Count%2 != 0 {
			return fmt.Errorf("count is %d, must be even for left and right pairs", piece.Count)
		}
	default:
		return fmt.Errorf("unknown mirror right %d", piece.Mirror)
	}
	return nil
}

// checkFits returns a *SizeError unless each way round that piece i must be cut
// has an allowed turn in which it fits.
func (p Problem) checkFits(i int) error {
	drawn, mirrored := p.fits(i, false), p.fits(i, true)
	switch p.Pieces[i].Mirror {
	case Paired:
		if drawn == nil && mirrored != nil {
			return mirrored
		}
	case Free:
		if mirrored == nil {
			return nil
		}
	}
	if drawn == nil {
		return nil
	}
	return drawn
}

// fits returns nil when piece i, mirrored or not, fits in one of its turns. Whole
// lattice moves bring its least corner to the origin, so extents decide.
func (p Problem) fits(i int, mirrored bool) *SizeError {
	piece, strip := p.Pieces[i], p.Strip
	miss := &SizeError{
		Piece: i, Name: piece.Name, Mirrored: mirrored,
		Across: math.Inf(1), Width: strip.Width, MaxLength: strip.MaxLength,
	}
	for _, turn := range piece.turns() {
		box := plane.Bounds(p.Outline(Placed{Piece: i, Turn: turn, Mirrored: mirrored}))
		along, across := box.Max[0]-box.Min[0], box.Max[1]-box.Min[1]
		if across <= strip.Width && (strip.MaxLength == 0 || along <= strip.MaxLength) {
			return nil
		}
		if across < miss.Across {
			miss.Along, miss.Across = along, across
		}
	}
	return miss
}

func isFinite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
