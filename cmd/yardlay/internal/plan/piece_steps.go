package plan

import (
	"errors"
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
	whole := wholes(called, parts, c)
	_, widest := largest(whole)
	if widest < leastPieced {
		return nil
	}
	aims := sideBySide(c)
	for _, share := range pieceShares {
		aims = append(aims, share*widest)
	}
	steps, _ = stepsOf(aims, widest, unit, func(aim float64) error {
		return cuts(whole, func(c *draft.Corners) { c.Within = aim })
	})
	return steps
}

// mostBeside is how many pieces are thought of side by side on a cloth.
const mostBeside = 8

// sideBySide are the widths of which one, two and more lie side by side on a cloth, mm.
func sideBySide(c job.Cloth) (widths []float64) {
	for k := 1.0; k <= mostBeside; k++ {
		widths = append(widths, (c.Usable()-(k-1)*c.Gap)/k)
	}
	return widths
}

// leastStep and mostStep are the least and the most that is left of the largest piece, as shares of it.
const leastStep, mostStep = 0.5, 0.95

// stepsOf are the first few of some aims by which pieces can be cut, in whole figures, each less than the largest piece
// and well apart from the others; the largest first. Where there is none the error says why the first that was tried
// cannot be.
func stepsOf(aims []float64, largest float64, unit measure.Unit, cut func(aim float64) error) (steps []float64,
	first error) {
	for _, aim := range aims {
		aim = plain(aim, measure.SizeUnit(unit))
		like := func(step float64) bool { return step/aim <= 1+stepsApart && aim/step <= 1+stepsApart }
		if aim < leastStep*largest || aim > mostStep*largest || slices.ContainsFunc(steps, like) {
			continue
		}
		if len(steps) == mostSteps {
			break
		}
		if err := cut(aim); err == nil {
			steps = append(steps, aim)
		} else if first == nil {
			first = err
		}
	}
	if len(steps) > 0 {
		first = nil
	}
	slices.Sort(steps)
	slices.Reverse(steps)
	return steps, first
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
	outer   bool
}

// largest are the length and the width of the longest and the widest piece of outer layers, mm.
func largest(all []uncut) (long, wide float64) {
	for _, u := range all {
		for _, piece := range u.made.Pieces {
			if along, across := piece.Unfold().CutSize(); u.outer {
				long, wide = max(long, along), max(wide, across)
			}
		}
	}
	return long, wide
}

// wholes drafts the layers of a part whole; none where one cannot be drafted or is made of strips.
func wholes(called string, parts []job.Part, c job.Cloth) (all []uncut) {
	for _, p := range parts {
		if p.Called != called {
			continue
		}
		for i, l := range p.Layers {
			made, err := l.Whole().Drafted()
			t := made.Tables
			if err != nil || made.Net || t.Layers != nil || t.Tiers != nil || t.Binding != nil {
				return nil
			}
			if made.Apart || made.Fused {
				continue // cut as it is
			}
			corners := job.PiecedWithin(c, draft.WidestSeam(made.Pieces...))
			if l.Corners != nil {
				corners = *l.Corners
			}
			all = append(all, uncut{made, corners, i == 0})
		}
	}
	return all
}

// mostVertices is how many vertices are cut to see whether a step can be: with so many all of them are
// tried within half a second. Layers beyond say so in their row (measured: 2 microseconds a vertex
// and cut).
const mostVertices = 10_000

// errUncut says that nothing is pieced.
var errUncut = errors.New("nothing is cut")

// cuts refuses what is no piecing: layers that cannot be pieced as set, or of which none is.
func cuts(all []uncut, set func(*draft.Corners)) error {
	n, vertices := 0, 0
	for _, u := range all {
		for _, p := range u.made.Pieces {
			vertices += len(p.Seam)
		}
		if vertices > mostVertices {
			break
		}
		set(&u.corners)
		made, err := u.corners.Of(u.made)
		if err != nil {
			return err
		}
		n += len(made.Parted)
	}
	if n == 0 {
		return errUncut
	}
	return nil
}
