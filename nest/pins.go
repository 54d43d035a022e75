package nest

import (
	"maps"

	"github.com/paulmach/orb"

	"yardlay/nest/bound"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// PinError says what is wrong with pins: the rule that they break as they lie.
type PinError struct {
	Broken *Broken
}

// Error names the piece, the rule and the place, and what would help.
func (e *PinError) Error() string { return say.Join(e.Parts(nil)) }

// Parts says so with lengths as shown.
func (e *PinError) Parts(show say.Show) (what, hint string) {
	what, _ = e.Broken.Parts(show)
	hint = "move it, or take its pin out"
	switch e.Broken.Rule {
	case WrongTurn, WrongMirror:
		hint = "turn it as the nap allows, or take its pin out"
	case Overlap, TooClose, MixedGrain:
		hint = "move one of the two, or take its pin out"
	case WrongCount:
		hint = "pin each copy once"
	}
	return "a pinned piece cannot lie there: " + what, hint
}

// Unwrap returns the rule broken.
func (e *PinError) Unwrap() error { return e.Broken }

// checkPins refuses pins that could be in no layout: by the rules of the judge, as far as
// they hold for the pins alone.
func (p Problem) checkPins() error {
	if len(p.Pins) == 0 {
		return nil
	}
	alone := p
	alone.Pins = nil
	err := alone.Judge().VerifyPart(Layout{Placed: p.Pins}.toJudge().Placed, func() bool { return false })
	if b, ok := err.(*Broken); ok {
		return &PinError{b}
	}
	return err
}

// pinned are the pins by piece and copy.
type pinned map[[2]int]Placed

// pinned returns the pins of p.
func (p Problem) pinned() pinned {
	pins := make(pinned, len(p.Pins))
	for _, pin := range p.Pins {
		pins[[2]int{pin.Piece, pin.Copy}] = pin
	}
	return pins
}

// of returns the pin of copy k of piece i, if it has one.
func (pins pinned) of(i, k int) (pin Placed, ok bool) {
	if len(pins) > 0 {
		pin, ok = pins[[2]int{i, k}]
	}
	return pin, ok
}

// settledPhases returns the phases that are given, and those that pins give their groups.
func (p Problem) settledPhases() map[int]orb.Point {
	if len(p.Pins) == 0 {
		return p.Phases
	}
	phases := p.PhasesOf(Layout{Placed: p.Pins})
	maps.Copy(phases, p.Phases)
	return phases
}

// farthestPin returns where the pin that lies farthest along the strip ends, mm; false
// where there is none.
func (p Problem) farthestPin() (pin Placed, end float64, any bool) {
	for _, one := range p.Pins {
		if far := plane.Bounds(p.Outline(one)).Max[0]; far > end {
			pin, end, any = one, far, true
		}
	}
	return pin, end, any
}

// pastPins returns a bound of the pieces of p, or where its last pin ends, whichever is
// longer.
func (p Problem) pastPins(b bound.Bound) bound.Bound {
	if pin, end, any := p.farthestPin(); any && end > b.Length {
		return bound.AtPin(p.Pieces[pin.Piece].Name, end)
	}
	return b
}
