package nest

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// checkFolds checks the folds and the repeat of a strip.
func (s Strip) checkFolds() error {
	switch {
	case s.Folds > FoldBoth:
		return fmt.Errorf("unknown folds %d", s.Folds)
	case !isFinite(s.Middle) || s.Middle < 0:
		return say.Errorf("distance from the middle is %v, must be 0 or more", say.MM(s.Middle))
	case s.Folds != FoldBoth && s.Middle != 0:
		return say.Errorf("distance from the middle is %v, but only a strip with two folds has its selvedges there",
			say.MM(s.Middle))
	case s.Folds == FoldBoth && plane.Snap(s.Width) != s.Width:
		return say.Errorf("the upper fold at %v is off the lattice of %v: snap the width first", say.MM(s.Width),
			say.MM(plane.Lattice))
	case s.Middle > 0 && 2*s.Middle >= s.Width:
		return say.Errorf("nothing may come within %v of the middle, which leaves none of the %v of the width",
			say.MM(s.Middle), say.MM(s.Width))
	}
	if s.Folds != NoFold && s.Repeat.Across > 0 {
		return errors.New("a repeat across the cloth does not meet itself over a fold along it: lay the cloth open")
	}
	for _, r := range []struct {
		which string
		mm    float64
	}{{"along", s.Repeat.Along}, {"across", s.Repeat.Across}} {
		if !isFinite(r.mm) || r.mm < 0 {
			return say.Errorf("repeat %s is %v, must be 0 (none) or more", r.which, say.MM(r.mm))
		}
		if r.mm > 0 && r.mm < leastRepeat {
			return say.Errorf("repeat %s is %v, must be 0 (none) or at least %v", r.which, say.MM(r.mm),
				say.MM(leastRepeat))
		}
	}
	return nil
}

// leastRepeat is the least repeat, mm: a tenth of the width of a thread, and a
// hundred steps of the lattice.
const leastRepeat = 0.1

// within says whether a point is finite and within Reach of the origin.
func within(p orb.Point) bool { return math.Abs(p[0]) <= Reach && math.Abs(p[1]) <= Reach }

// checkPhases checks the phases that are given.
func (p Problem) checkPhases() error {
	for g, phase := range p.Phases {
		if !within(phase) {
			return say.Errorf("phase %v of group %d is not within %v of the origin", phase, g, say.MM(Reach))
		}
	}
	return nil
}

// checkFold checks what a piece says of folds and repeats.
func (piece Piece) checkFold(s Strip) error {
	if m := piece.Match; m != nil {
		if !within(m.Point) {
			return say.Errorf("match point %v is not within %v of the origin", m.Point, say.MM(Reach))
		}
		if n := len(m.Groups); n > 0 && n != piece.Count {
			return fmt.Errorf("the match gives the group of %d copies, there are %d", n, piece.Count)
		}
	}
	if piece.Half != nil {
		if err := piece.checkHalf(); err != nil {
			return say.Errorf("half: %w", err)
		}
	}
	if !piece.OnFold {
		return nil
	}
	switch {
	case s.Folds == NoFold:
		return errors.New("must lie against a fold, and the strip has none")
	case piece.Mirror != AsDrawn:
		return errors.New("lies on a fold, which makes it its own mirror image: it has no left and right")
	case !slices.ContainsFunc(piece.turns(), func(t float64) bool { _, ok := foldOf(t, false); return ok }):
		return fmt.Errorf("must lie against a fold, which turns of 0 and 180 degrees allow, not %v", piece.turns())
	}
	return nil
}

// checkHalf checks that the outline is its half joined to the half's mirror image.
func (piece Piece) checkHalf() error {
	if piece.OnFold {
		return errors.New("a piece that lies on a fold is a half itself")
	}
	if err := checkOutline(piece.Half); err != nil {
		return err
	}
	half := plane.SnapRing(piece.Half)
	whole := plane.Unfold(half, plane.Bounds(half).Min[1])
	if !slices.Equal(plane.Canonical(whole), plane.Canonical(plane.SnapRing(piece.Outline))) {
		return errors.New("unfolded about its least y it is not the outline, to the lattice: " +
			"snap the half, then unfold it")
	}
	return nil
}
