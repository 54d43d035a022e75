package plan

import (
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// mostSteps is at how many places a cut is tried: each is a laying more.
const mostSteps = 3

// leastPieced is the least that a piece measures across the grain before its corners are thought of,
// mm: 12 in (our own figure).
const leastPieced = 12 * measure.Inches

// pieceShares are the shares of the widest piece that is left of it at the steps tried; stepsApart
// by what share steps are further apart (our own figures, from trials of twelve skirts).
var pieceShares = []float64{0.7, 0.55, 0.85}

const stepsApart = 0.06

// OuterParts are the parts whose outer cloth is the one given and lies open to changes that only its
// look forbids: no net, and no print that would have to meet at a new seam.
func OuterParts(j *job.Job, cloth string) (parts []job.Part, c job.Cloth) {
	k := slices.IndexFunc(j.Cloths, func(c job.Cloth) bool { return c.ID == cloth })
	if k < 0 || j.Cloths[k].Net || j.Cloths[k].Repeat != (job.Repeat{}) {
		return nil, c
	}
	for _, p := range j.Parts {
		if len(p.Layers) > 0 && p.Layers[0].Cloth == cloth && p.Layers[0].Grain == job.LengthwiseGrain {
			parts = append(parts, p)
		}
	}
	return parts, j.Cloths[k]
}

// PieceSteps are the widths, mm, within which the corners of a part of a cloth may be cut off, whoever wears it:
// so narrow that two or more lie side by side on the cloth, or by a share of the widest piece. The widest come
// first, in whole figures of a unit. parts are those of OuterParts.
func PieceSteps(called string, parts []job.Part, c job.Cloth, unit measure.Unit) (steps []float64) {
	whole, widest := wholes(called, parts, c)
	if widest < leastPieced {
		return nil
	}
	var aims []float64
	for k := 1; k < 9; k++ {
		aims = append(aims, c.Usable()/float64(k))
	}
	for _, share := range pieceShares {
		aims = append(aims, share*widest)
	}
	least, most := 0.5*widest, 0.95*widest
	for _, aim := range aims {
		aim = plain(aim, measure.SizeUnit(unit))
		unlike := func(step float64) bool { return step/aim > 1+stepsApart || aim/step > 1+stepsApart }
		if aim < least || aim > most || slices.ContainsFunc(steps, func(s float64) bool { return !unlike(s) }) {
			continue
		}
		if len(steps) < mostSteps && cuts(whole, aim) {
			steps = append(steps, aim)
		}
	}
	slices.Sort(steps)
	slices.Reverse(steps)
	return steps
}

// plain is a length as it is printed in a unit, rounded down, mm.
func plain(mm float64, unit measure.Unit) float64 {
	if text, err := measure.Parse(measure.FormatDown(mm, unit), unit); err == nil {
		return text
	}
	return mm
}

// uncut is what a layer comes to with its pieces whole, and how they would be pieced.
type uncut struct {
	made    draft.Result
	corners draft.Corners
}

// wholes drafts the layers of a part whole, and returns the width of the widest piece of the outer
// one, mm; 0 where one cannot be drafted or is made of strips.
func wholes(called string, parts []job.Part, c job.Cloth) (all []uncut, widest float64) {
	for _, p := range parts {
		if p.Called != called {
			continue
		}
		for i, l := range p.Layers {
			made, err := l.Whole().Drafted()
			t := made.Tables
			if err != nil || made.Net || t.Layers != nil || t.Tiers != nil || t.Binding != nil {
				return nil, 0
			}
			if made.Apart || made.Fused {
				continue // cut as it is
			}
			corners := job.PiecedWithin(c, draft.WidestSeam(made.Pieces...))
			if l.Corners != nil {
				corners = *l.Corners
			}
			all = append(all, uncut{made, corners})
			for _, piece := range made.Pieces {
				if _, across := piece.Unfold().CutSize(); i == 0 {
					widest = max(widest, across)
				}
			}
		}
	}
	return all, widest
}

// mostVertices is how many vertices are cut to see whether a step can be: with so many all of them are
// tried within half a second. Layers beyond say so in their row (measured: 2 microseconds a vertex
// and cut).
const mostVertices = 10_000

// cuts says whether all layers can be pieced so that no part is wider, and some is pieced.
func cuts(all []uncut, within float64) bool {
	n, vertices := 0, 0
	for i, u := range all {
		for _, p := range u.made.Pieces {
			vertices += len(p.Seam)
		}
		if vertices > mostVertices {
			return i > 0 && n > 0
		}
		u.corners.Within = within
		made, err := u.corners.Of(u.made)
		if err != nil {
			return false
		}
		n += len(made.Parted)
	}
	return n > 0
}
