package plan

import (
	"fmt"
	"math"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
)

// turns returns the turns in which pieces of a part may lie on a cloth, degrees
// counter-clockwise, those on the grain itself first: the turns of the nap, from
// each grain the part may be cut on, leant over by no more than its tilt. The
// true bias runs at 45 degrees, and mirrored copies take all turns clockwise, so
// that left and right hang as mirror images.
func turns(nap job.Nap, p job.Part) []float64 {
	var all []float64
	for _, lean := range tilts(p.Tilt) {
		for _, grain := range grains(p.Grain) {
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

// grains returns how far a grain is turned from the lengthwise one, degrees.
func grains(g job.Grain) []float64 {
	switch g {
	case job.CrossGrain:
		return []float64{90}
	case job.EitherGrain:
		return []float64{0, 90}
	case job.BiasGrain:
		return []float64{45}
	}
	return []float64{0}
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
func (s Spread) refuseGrain(j *job.Job) job.Errors {
	w := s.Cloth.Shrinkage
	if w.Prewash || w.Warp == w.Weft {
		return nil
	}
	var bad job.Errors
	for i, p := range s.Parts {
		if i > 0 && s.Parts[i-1].At == p.At {
			continue
		}
		why := ""
		switch {
		case p.Grain == job.BiasGrain:
			why = "on the bias"
		case p.Tilt > 0:
			why = fmt.Sprintf("up to %v degrees off the grain", p.Tilt)
		case p.Grain == job.EitherGrain, s.Cloth.Nap == job.AllWay:
			why = "on either grain"
		}
		if why != "" {
			brief := fmt.Sprintf("%s shrinks and %s may lie %s", s.Cloth.ID, p.Name, why)
			bad = append(bad, briefly(brief, j.ErrorAt(p.At, fmt.Errorf("part `%s` may lie %s, and `%s` changes by %s: its pieces cannot be drawn larger for all ways to lie\n"+
				"  hint: wash the cloth before cutting, by = \"prewash\" in its `shrinkage`, or let the part lie on one grain", p.Name, why, s.Cloth.ID, changes(w)))))
		}
	}
	return bad
}
