package compare

import (
	"slices"
	"strconv"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes"
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

const withinKey = ".pieced.within"

// stepped returns the key of a way that is one of several steps of a choice; "" for others.
func stepped(way []job.Change) string {
	if len(way) == 1 && strings.HasSuffix(way[0].Key, withinKey) {
		return way[0].Key
	}
	return ""
}

// Steps are the keys of ways that are steps of one choice, of which a comparison keeps the best
// (Options.Best).
func Steps(ways [][]job.Change) (keys []string) {
	for _, way := range ways {
		if key := stepped(way); key != "" && !slices.Contains(keys, key) {
			keys = append(keys, key)
		}
	}
	return keys
}

// outerParts are the parts whose outer cloth is the one given and lies open to changes that only its
// look forbids: no net, and no print that would have to meet at a new seam.
func outerParts(j *job.Job, cloth string) (parts []job.Part, c job.Cloth) {
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

// piecings are the steps for the first part of the outer cloth whose corners can be pieced: so
// narrow that two or more lie side by side on the cloth, or by a share of the widest piece.
func piecings(j *job.Job, cloth string) [][]job.Change {
	parts, c := outerParts(j, cloth)
	tried := map[string]bool{}
	for _, p := range parts {
		if tried[p.Called] {
			continue
		}
		tried[p.Called] = true
		if rows := pieceSteps(j, p.Called, parts, c); len(rows) > 0 {
			return rows
		}
	}
	return nil
}

// pieceSteps are those of one part, whoever wears it; the widest first.
func pieceSteps(j *job.Job, called string, parts []job.Part, c job.Cloth) [][]job.Change {
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
	var steps []float64
	for _, aim := range aims {
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
	var rows [][]job.Change
	for _, step := range steps {
		rows = append(rows, one(called, withinKey[1:], measure.FormatDown(step, measure.SizeUnit(j.Unit))))
	}
	return rows
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

// mostTried is how many vertices are cut to see whether a step can be: with so many all of them are
// tried within half a second. Layers beyond say so in their row (measured: 2 microseconds a vertex
// and cut).
const mostTried = 10_000

// cuts says whether all layers can be pieced so that no part is wider, and some is pieced.
func cuts(all []uncut, within float64) bool {
	n, vertices := 0, 0
	for i, u := range all {
		for _, p := range u.made.Pieces {
			vertices += len(p.Seam)
		}
		if vertices > mostTried {
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

// inOne are the ways to cut two pieces in one, a seam less: at a centre, or with fewer sections.
// Where the cloth is too narrow for it the row says so.
func inOne(j *job.Job, cloth string) (rows [][]job.Change) {
	parts, _ := outerParts(j, cloth)
	seen := map[string]bool{}
	for _, p := range parts {
		if seen[p.Called] {
			continue
		}
		seen[p.Called] = true
		now := p.Layers[0].Draft
		if d, ok := now.(draft.Centred); ok {
			if joined, key, ok := d.InOne(); ok && fewer(joined, now) {
				rows = append(rows, one(p.Called, key, "true"))
			}
		}
		d, ok := now.(draft.Divided)
		if !ok || d.Division().Step > 0 {
			continue // told by its number of gores
		}
		for n := d.Division().Pieces - 1; n > 0; n-- {
			if joined := d.Divide(n); fewer(joined, now) {
				rows = append(rows, one(p.Called, d.Division().Called, strconv.Itoa(n)))
				break
			}
		}
	}
	return rows
}

// fewer says whether a draft can be cut, in fewer pieces than another.
func fewer(a, b draft.Draft) bool {
	count := func(d draft.Draft) (n int) {
		made, err := d.Draft()
		for _, p := range made.Pieces {
			n += p.Count
		}
		if err != nil {
			return 0
		}
		return n
	}
	n := count(a)
	return n > 0 && n < count(b)
}

// smallTilt is the tilt tried, degrees: less than an eye sees, and what cutters give away in a marker
// where they may (common practice, from memory).
const smallTilt = "2"

// tilted is a small tilt of the first part of a cloth that is cut on its straight grain, where that
// changes by the wash the same way along and across or not at all.
func tilted(j *job.Job, cloth string) [][]job.Change {
	parts, c := outerParts(j, cloth)
	if w := c.Shrinkage; !w.Prewash && w.Warp != w.Weft {
		return nil
	}
	for _, p := range parts {
		made, err := p.Layers[0].Drafted()
		biased := slices.ContainsFunc(made.Pieces, func(piece shapes.Piece) bool { return piece.Bias })
		if err == nil && !biased && p.Tilt == 0 {
			return [][]job.Change{one(p.Called, "tilt", smallTilt)}
		}
	}
	return nil
}
