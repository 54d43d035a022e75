package draft

import (
	"yardlay/shapes"
	"yardlay/shapes/say"
)

// measured is a measure as given, with the name that errors call it by.
type measured struct {
	name string
	mm   float64
}

// positive refuses measures that are not lengths above 0, by name and number.
func positive(list ...measured) error {
	for _, m := range list {
		if err := shapes.Positive(m.name, m.mm); err != nil {
			return err
		}
	}
	return nil
}

// notNegative refuses measures that are not lengths of 0 or more, by name and number.
func notNegative(list ...measured) error {
	for _, m := range list {
		if err := shapes.NotNegative(m.name, m.mm); err != nil {
			return err
		}
	}
	return nil
}

// DefaultChord is the chord error of sampled arcs where a draft states none, mm.
const DefaultChord = 0.1

// leastChord is the finest chord error, mm: finer than any blade, and a skirt of
// it still has fewer than ten thousand vertices.
const leastChord = 0.001

// checkHem refuses what ring sectors cannot take: a hem raised by the whole
// length, a chord error or allowances that are no lengths, an error too fine.
func checkHem(raise, length, chord float64, a shapes.Allowance) error {
	if err := notNegative(measured{"hem raise", raise}, measured{"chord error", chord}); err != nil {
		return err
	}
	if chord > 0 && chord < leastChord {
		return say.Errorf("chord error is %g, must be at least %g", say.MM(chord), say.MM(leastChord))
	}
	if raise >= length {
		return say.Errorf("hem raise is %.6g, must be less than the length of %.6g", say.MM(raise), say.MM(length)).
			Hint("by the hem raise a lining is shorter than the outer cloth")
	}
	return a.Check()
}

// mostShort is how much shorter than its arcs an edge may be that is drawn as chords, mm: half
// of what both sides of a seam may differ by.
const mostShort = 0.25

// chordRound returns the chord error to draw arcs with that turn by an angle (radians) in all.
// Chords of sagitta s are shorter than an arc of that angle by s angle / 3, whatever its radius.
func chordRound(given, angle float64) float64 {
	return max(leastChord, min(chordError(given), 3*mostShort/angle))
}

// chordError returns the chord error to draw with.
func chordError(given float64) float64 {
	if given == 0 {
		return DefaultChord
	}
	return given
}
