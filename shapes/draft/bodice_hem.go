package draft

import (
	"yardlay/shapes"
	"yardlay/shapes/say"
)

// lowerEdge is what the waist is called, and what becomes of it.
func (b BodiceBlock) lowerEdge() (string, shapes.EdgeKind) {
	if b.Hemmed {
		return "hem", shapes.Hem
	}
	return "waist", shapes.Waist
}

// raised returns a block at its seam as this layer is: shorter, and as wide there as a straight
// line from the bust line to the hem is.
func (b BodiceBlock) raised() BodiceBlock {
	if b.HemRaise == 0 {
		return b
	}
	bust, waist := b.Bust+b.Ease, b.Waist+b.WaistEase
	b.Waist += (bust - waist) * b.HemRaise / (b.BackLength - b.ArmholeDepth)
	b.BackLength -= b.HemRaise
	return b
}

// checkHemmed refuses layers that are shorter at an edge that is sewn, or that leave no side seam.
func (b BodiceBlock) checkHemmed() error {
	if err := notNegative(measured{"hem raise", b.HemRaise}); err != nil || b.HemRaise == 0 {
		return err
	}
	if !b.Hemmed {
		return say.Errorf("this layer is %.1f shorter at a waist that is sewn to a skirt", say.MM(b.HemRaise)).
			Hint("let its lower edge be a hem, or all layers be as long")
	}
	side := b.BackLength + b.WaistDrop - b.ArmholeDepth
	if left := side - b.HemRaise; left < b.leastSide() {
		return say.Errorf("a layer %.1f shorter has %.1f of side seam left, needs %v", say.MM(b.HemRaise), say.MM(left),
			say.MM(b.leastSide())).Hint("less of a difference")
	}
	return nil
}
