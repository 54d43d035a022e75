package compare

import (
	"slices"
	"strconv"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// withinKey is the key of a part that says where its corners are cut off, acrossKey that for where it is cut across.
const withinKey, acrossKey = ".pieced.within", ".pieced.length"

// stepped returns the key of a way that is one of several steps of a choice; "" for others.
func stepped(way []job.Change) string {
	if len(way) == 1 && (strings.HasSuffix(way[0].Key, withinKey) || strings.HasSuffix(way[0].Key, acrossKey)) {
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

// piecings are the steps for the first part of the outer cloth whose corners can be pieced: so
// narrow that two or more lie side by side on the cloth, or by a share of the widest piece.
func piecings(j *job.Job, cloth string) [][]job.Change {
	return firstSteps(j, cloth, withinKey, func(p job.Part, parts []job.Part, c job.Cloth) []float64 {
		return plan.PieceSteps(p.Called, parts, c, j.Unit)
	})
}

// acrosses are the steps for the first part that is pieced and whose pieces can be cut across, where the job says
// nothing of that: so long that two or more lie side by side on the cloth, or by a share of the longest piece. A seam
// all round is not proposed for what is to be whole.
func acrosses(j *job.Job, cloth string) [][]job.Change {
	return firstSteps(j, cloth, acrossKey, func(p job.Part, parts []job.Part, c job.Cloth) []float64 {
		if corners := p.Layers[0].Corners; corners == nil || corners.Length > 0 || p.Place.Across {
			return nil
		}
		steps, _ := plan.LengthSteps(p.Called, parts, c, j.Unit)
		return steps
	})
}

// firstSteps are the values of a key for the first part of a cloth that has some, whoever wears it; the largest first.
func firstSteps(j *job.Job, cloth, key string, of func(p job.Part, parts []job.Part, c job.Cloth) []float64) (
	rows [][]job.Change,
) {
	parts, c := plan.OuterParts(j, cloth)
	tried := map[string]bool{}
	for _, p := range parts {
		if tried[p.Called] || rows != nil {
			continue
		}
		tried[p.Called] = true
		for _, step := range of(p, parts, c) {
			rows = append(rows, one(p.Called, key[1:], measure.FormatDown(step, measure.SizeUnit(j.Unit))))
		}
	}
	return rows
}

// inOne are the ways to cut two pieces in one, a seam less: at a centre, or with fewer sections.
// Where the cloth is too narrow for it the row says so.
func inOne(j *job.Job, cloth string) (rows [][]job.Change) {
	parts, _ := plan.OuterParts(j, cloth)
	seen := map[string]bool{}
	for _, p := range parts {
		if seen[p.Called] {
			continue
		}
		seen[p.Called] = true
		now := p.Layers[0].Draft
		if d, ok := now.(draft.Centred); ok {
			if joined, key, seam, ok := d.InOne(); ok && fewer(joined, now) {
				row := one(p.Called, key, "true")
				if seam != "" {
					row = append(row, one(p.Called, seam, "false")...)
				}
				rows = append(rows, row)
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

// paired are the ways to cut every two pieces beside each other in one, of what lies flat when they are sewn together.
func paired(j *job.Job, cloth string) (rows [][]job.Change) {
	parts, _ := plan.OuterParts(j, cloth)
	seen := map[string]bool{}
	for _, p := range parts {
		d, ok := p.Layers[0].Draft.(draft.Divided)
		if seen[p.Called] || !ok {
			continue
		}
		seen[p.Called] = true
		now := d.Division()
		if now.Flat && now.Pieces > 2 && now.Pieces%2 == 0 && fewer(d.Divide(now.Pieces/2), d) {
			rows = append(rows, one(p.Called, now.Called, strconv.Itoa(now.Pieces/2)))
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
	parts, c := plan.OuterParts(j, cloth)
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
