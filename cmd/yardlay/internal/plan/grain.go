package plan

import (
	"fmt"
	"math"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/nest"
	"yardlay/shapes/say"
)

// turns returns the turns in which pieces of a part may lie on a cloth, degrees
// counter-clockwise, those on the grain itself first: the turns of the nap, from
// each grain the part may be cut on, leant over by no more than its tilt. The
// true bias runs at 45 degrees, and mirrored copies take all turns clockwise, so
// that left and right hang as mirror images.
func turns(nap job.Nap, p job.Part) []float64 {
	var all []float64
	for _, lean := range tilts(p.Tilt) {
		for _, grain := range grains(nap, p.Grain) {
			for _, turn := range nap.Turns() {
				turn = math.Mod(turn+grain+lean+360, 360)
				if !slices.Contains(all, turn) {
					all = append(all, turn)
				}
			}
		}
	}
	return all
}

// grains returns how far a grain is turned from the lengthwise one, degrees. A free
// one makes use of its freedom on cloth that looks alike all ways.
func grains(nap job.Nap, g job.Grain) []float64 {
	switch {
	case g == job.CrossGrain:
		return []float64{90}
	case g == job.EitherGrain, g == job.FreeGrain && nap == job.AllWay:
		return []float64{0, 90}
	case g == job.BiasGrain:
		return []float64{45}
	}
	return []float64{0}
}

// alike keeps left and right of a pair on the same grain, and leaning alike. Of several
// lengths, from the shelf or in bolts, one may take the left and another the right: there
// a pair lies on one grain only, the first on which it fits the cloth, and straight.
func (s Spread) alike(i int, laid nest.Piece, strip nest.Strip) nest.Piece {
	laid.Alike = true
	if len(s.Cloth.Have) == 0 && len(s.Cloth.Offer.Sizes()) == 0 {
		return laid
	}
	part := s.Cuts[i].Part
	part.Tilt = 0
	on := []job.Grain{part.Grain}
	if len(grains(s.Cloth.Nap, part.Grain)) > 1 {
		on = []job.Grain{job.LengthwiseGrain, job.CrossGrain}
	}
	for _, g := range on {
		part.Grain = g
		one := laid
		one.Turns, one.Alike = turns(s.Cloth.Nap, part), false
		if (nest.Problem{Strip: strip, Pieces: []nest.Piece{one}}).Check() == nil {
			return one
		}
	}
	return laid
}

// LiesOn returns the grain that a copy of piece i lies on, turned as placed: how far
// its length runs from the warp, degrees, up to half turns, as its turns are counted;
// and in the words of the job. What it leans off that is its tilt.
func (s Spread) LiesOn(i int, turn float64, mirrored bool) (grain float64, word job.Grain) {
	if mirrored {
		turn = -turn
	}
	for _, g := range grains(s.Cloth.Nap, s.Cuts[i].Part.Grain) {
		if math.Abs(math.Remainder(turn-g, 180)) < 45 {
			grain = g
		}
	}
	switch {
	case s.OnBias(i):
		return grain, job.BiasGrain
	case grain == 90:
		return grain, job.CrossGrain
	}
	return grain, job.LengthwiseGrain
}

// Grain returns how far piece i is turned from the warp where it lies on the first of
// its grains, degrees.
func (s Spread) Grain(i int) float64 { return grains(s.Cloth.Nap, s.Cuts[i].Part.Grain)[0] }

// OnBias says whether piece i is cut on the bias.
func (s Spread) OnBias(i int) bool {
	return s.Cuts[i].Piece.Bias || s.Cuts[i].Part.Grain == job.BiasGrain
}

// CutOn says how the grain of piece i runs on the cloth, in the words of the job:
// either where that is open until it is laid.
func (s Spread) CutOn(i int) job.Grain {
	all := grains(s.Cloth.Nap, s.Cuts[i].Part.Grain)
	if len(all) > 1 && !s.OnBias(i) {
		return job.EitherGrain
	}
	_, word := s.LiesOn(i, all[0], false)
	return word
}

// tilts returns the leanings tried within a tolerance, degrees.
func tilts(most float64) []float64 {
	if most == 0 {
		return []float64{0}
	}
	return []float64{0, -most / 2, most / 2, -most, most}
}

// onFold says whether a piece in these turns may lie with its fold along the
// cloth.
func onFold(turns []float64) bool { return slices.Contains(turns, 0) || slices.Contains(turns, 180) }

// refuseGrain refuses parts that cannot be drawn larger for a cloth that shrinks
// by more one way than the other, because it is open which way of the piece that
// will be.
func (s Spread) refuseGrain(j *job.Job) strict.Errors {
	w := s.Cloth.Shrinkage
	if w.Prewash || w.Warp == w.Weft {
		return nil
	}
	var bad strict.Errors
	for i, cut := range s.Cuts {
		p := cut.Part
		if i > 0 && s.Cuts[i-1].Part.At == p.At {
			continue
		}
		why := ""
		switch {
		case p.Grain == job.BiasGrain:
			why = "on the bias"
		case p.Tilt > 0:
			why = fmt.Sprintf("up to %v degrees off the grain", p.Tilt)
		case len(grains(s.Cloth.Nap, p.Grain)) > 1:
			why = "on either grain"
		}
		if why != "" {
			brief := fmt.Sprintf("%s shrinks and %s may lie %s", s.Cloth.ID, p.Name, why)
			bad = append(bad, briefly(brief, j.ErrorAt(p.At, say.Errorf("part `%s` may lie %s, and `%s` changes by "+
				"%s: its pieces cannot be drawn larger for all ways to lie", p.Name, why, s.Cloth.ID, ChangeWords(w)).
				Hint("wash the cloth before cutting, by = \"prewash\" in its `shrinkage`, or let the part lie on one "+
					"grain"))))
		}
	}
	return bad
}
