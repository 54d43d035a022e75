package nest

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/nest/judge"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Limits of what is laid: beyond them a layout, or a look at one, would take too long
// to answer an interruption.
const (
	MostPieces  = 10_000 // copies in all
	MostCorners = 5_000  // of one outline, or one zone
)

// Check says why p cannot be solved or judged, naming the piece and what is
// wrong with it; nil when nothing is. A piece that is sound but fits on the cloth
// in none of its allowed turns gives a *SizeError, pins that cannot be a *PinError.
func (p Problem) Check() error {
	if err := p.checkSound(); err != nil {
		return err
	}
	for i := range p.Pieces {
		if err := p.checkLattice(i); err != nil {
			return err
		}
		if miss := p.sizeOf(i); miss != nil {
			return miss
		}
	}
	if err := p.checkPins(); err != nil {
		return err
	}
	if miss := p.sizeOfGroups(); miss != nil {
		return miss
	}
	return nil
}

// checkLattice refuses a piece so thin that turning and snapping leave it no area.
func (p Problem) checkLattice(i int) error {
	for _, mirrored := range []bool{false, true} {
		for _, turn := range p.Pieces[i].turnsOf(mirrored) {
			if err := judge.CheckCut(p.Outline(Placed{Piece: i, Turn: turn, Mirrored: mirrored})); err != nil {
				return say.Errorf("piece %q turned %v degrees: %w", p.Pieces[i].Name, turn, err)
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
		return say.Errorf("strip width is %v, must be above 0", say.MM(s.Width))
	case !isFinite(s.MaxLength) || s.MaxLength < 0:
		return say.Errorf("longest strip is %v, must be 0 (no limit) or more", say.MM(s.MaxLength))
	case !isFinite(p.Gap) || p.Gap < 0:
		return say.Errorf("gap between pieces is %v, must be 0 or more", say.MM(p.Gap))
	case len(p.Pieces) == 0:
		return errors.New("no pieces to lay")
	}
	if err := s.checkFolds(); err != nil {
		return err
	}
	if err := p.checkPhases(); err != nil {
		return err
	}
	for i, zone := range s.Forbidden {
		if err := checkZone(zone); err != nil {
			return say.Errorf("forbidden zone %d: %w", i, err)
		}
	}
	pieces := 0
	for _, piece := range p.Pieces {
		if err := piece.check(); err != nil {
			return say.Errorf("piece %q: %w", piece.Name, err)
		}
		if pieces += piece.Count; pieces > MostPieces {
			return fmt.Errorf("more than %d pieces with %q: lay them in several lots", MostPieces, piece.Name)
		}
		if err := piece.checkFold(s); err != nil {
			return say.Errorf("piece %q: %w", piece.Name, err)
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
			return say.Errorf("vertex %d at %v is off the lattice of %v: snap the ring first", i, plane.Point(v),
				say.MM(plane.Lattice))
		}
	}
	return nil
}

func checkOutline(ring orb.Ring) error {
	if n := len(ring) - 1; n > MostCorners {
		return fmt.Errorf("outline: %d corners, at most %d are laid: draw it coarser, "+
			"a corner every millimetre is plenty", n, MostCorners)
	}
	if err := plane.CheckSimple(ring); err != nil {
		return say.Errorf("outline: %w", err)
	}
	for i, v := range ring {
		if max(math.Abs(v[0]), math.Abs(v[1])) > Reach {
			return say.Errorf("outline: vertex %d at %v is more than %v from the origin", i, plane.Point(v),
				say.MM(Reach))
		}
	}
	return nil
}

func (piece Piece) check() error {
	if err := checkOutline(piece.Outline); err != nil {
		return err
	}
	if piece.Count < 1 || piece.Count > MostPieces {
		return fmt.Errorf("count is %d, must be from 1 to %d", piece.Count, MostPieces)
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

func isFinite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
