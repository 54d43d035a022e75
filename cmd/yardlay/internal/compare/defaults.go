package compare

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// mostDefault is the most rows that are derived from a job beside the one it is
// written in: what a maker reads at a glance.
const mostDefault = 15

// Widths that cloth is usually sold in, by the unit of its job: common practice.
// Plain cloth in inches and centimetres, net and tulle in inches and centimetres,
// interfacing in both. 45 also stands for 44, 60 for 58.
var usualWidths = map[kind][2][]float64{
	plain:       {{36, 45, 54, 60, 72}, {90, 110, 114, 137, 150}},
	net:         {{54, 72, 108, 118}, {137, 150, 280, 300}},
	interfacing: {{36, 45}, {90, 110}},
}

// kind is what a cloth is, as far as its usual widths go.
type kind int

const (
	plain kind = iota
	net
	interfacing
)

// stiffenings are words for cloth that is sold narrow.
var stiffenings = []string{"interfacing", "fusible", "canvas", "buckram"}

func kindOf(c job.Cloth) kind {
	name := strings.ToLower(c.ID + " " + c.Title)
	switch {
	case c.Net:
		return net
	case slices.ContainsFunc(stiffenings, func(word string) bool { return strings.Contains(name, word) }):
		return interfacing
	}
	return plain
}

// near is how close two widths are the same to a counter: 1 in.
const near = measure.Inches

// Defaults derives from a job the ways that are worth comparing with it, each of one change: for the outer cloth of its
// first part the naps, the lays and three usual widths; a gore more and one fewer; corners pieced and pieces cut
// across, by some steps of which the best is kept (Steps), two pieces cut in one, a small tilt; for every further cloth
// the lay and the next usual widths; at last every two sectors in one. The likeliest to matter come first, at most
// mostDefault rows.
func Defaults(j *job.Job) [][]job.Change {
	var rows [][]job.Change
	first := outer(j)
	for _, c := range j.Cloths {
		if c.ID == first {
			rows = append(rows, naps(j, c)...)
			rows = append(rows, lays(j, c)...)
			rows = append(rows, widths(j.Unit, c, 2, 1)...)
		}
	}
	seen := map[string]bool{} // several bodies share a part of the file
	for _, p := range j.Parts {
		if !seen[p.Called] {
			seen[p.Called] = true
			rows = append(rows, gores(p)...)
		}
	}
	rows = append(rows, piecings(j, first)...)
	rows = append(rows, acrosses(j, first)...)
	rows = append(rows, inOne(j, first)...)
	rows = append(rows, tilted(j, first)...)
	for _, c := range j.Cloths {
		if c.ID != first && cutFrom(j, c.ID) {
			rows = append(rows, lays(j, c)...)
			rows = append(rows, widths(j.Unit, c, 1, 1)...)
		}
	}
	return atMost(append(rows, paired(j, first)...), mostDefault)
}

// atMost keeps the first ways that come to so many rows, steps of one choice counted as one.
func atMost(ways [][]job.Change, most int) [][]job.Change {
	seen := map[string]bool{}
	rows := 0
	for i, way := range ways {
		if key := stepped(way); key == "" || !seen[key] {
			seen[key] = true
			rows++
		}
		if rows > most {
			return ways[:i]
		}
	}
	return ways
}

// outer is the outer cloth of the first part.
func outer(j *job.Job) string {
	for _, p := range j.Parts {
		if len(p.Layers) > 0 {
			return p.Layers[0].Cloth
		}
	}
	return ""
}

func cutFrom(j *job.Job, id string) bool {
	return slices.ContainsFunc(j.Parts, func(p job.Part) bool {
		return slices.ContainsFunc(p.Layers, func(l job.Layer) bool { return l.Cloth == id })
	})
}

// one is a way of a single change to a table.
func one(table, key, value string) []job.Change {
	return []job.Change{{Key: table + "." + key, Value: value}}
}

// naps are the next freer and the next stricter one that change a right. What all-way
// cloth allows beyond two-way is for parts whose grain is free, and for no others: no
// row bends the grain of a part.
func naps(j *job.Job, c job.Cloth) [][]job.Change {
	all := []job.Nap{job.OneWay, job.TwoWay}
	if freeOfGrain(j, c.ID) {
		all = append(all, job.AllWay)
	} else if c.Nap == job.AllWay {
		c.Nap = job.TwoWay
	}
	var rows [][]job.Change
	at := slices.Index(all, c.Nap)
	for _, i := range []int{at - 1, at + 1} {
		if i >= 0 && i < len(all) {
			rows = append(rows, one(c.ID, "nap", string(all[i])))
		}
	}
	return rows
}

// freeOfGrain says whether something is cut from a cloth whose grain is free.
func freeOfGrain(j *job.Job, id string) bool {
	return slices.ContainsFunc(j.Parts, func(p job.Part) bool {
		return slices.ContainsFunc(p.Layers,
			func(l job.Layer) bool { return l.Cloth == id && l.Grain == job.FreeGrain })
	})
}

// lays are the fold that is usual for an open cloth, and the double fold where
// pieces are drawn for a fold; and the open lay for a folded one. Interfacing is
// for small pieces, nobody folds it to save cloth.
func lays(j *job.Job, c job.Cloth) [][]job.Change {
	key := c.ID
	switch {
	case c.TurnUpper:
		return [][]job.Change{{{Key: key + ".lay", Value: string(job.Open)},
			{Key: key + ".upper_turned", Value: "false"}}}
	case c.Lay != job.Open:
		return [][]job.Change{one(key, "lay", string(job.Open))}
	case kindOf(c) == interfacing:
		return nil
	}
	rows := [][]job.Change{one(key, "lay", string(job.LengthwiseFold))}
	if hasFold(j, c.ID) {
		rows = append(rows, one(key, "lay", string(job.DoubleFold)))
	}
	return rows
}

// hasFold says whether a piece of the cloth is drawn for a fold. Drafts that
// fail say so in their own rows.
func hasFold(j *job.Job, id string) bool {
	for _, p := range j.Parts {
		for _, l := range p.Layers {
			if l.Cloth != id {
				continue
			}
			made, err := l.Drafted()
			if err == nil && slices.ContainsFunc(made.Pieces, func(p shapes.Piece) bool { return p.OnFold }) {
				return true
			}
		}
	}
	return false
}

// widths are the usual ones nearest to the cloth's own: so many narrower and so
// many wider, the narrowest first.
func widths(unit measure.Unit, c job.Cloth, narrower, wider int) [][]job.Change {
	u, system := measure.Inch, 0
	if unit.Metric() {
		u, system = measure.Centimetre, 1
	}
	usual := slices.DeleteFunc(slices.Clone(usualWidths[kindOf(c)][system]), func(w float64) bool {
		return math.Abs(w*u.Millimetres()-c.Width) < near
	})
	slices.SortFunc(usual, cmp.Compare)
	first, _ := slices.BinarySearch(usual, c.Width/u.Millimetres())
	var rows [][]job.Change
	for _, w := range usual[max(0, first-narrower):min(len(usual), first+wider)] {
		rows = append(rows, one(c.ID, "width", fmt.Sprintf("%g %v", w, u)))
	}
	return rows
}

// gores are one fewer and one more; two where the centre front is cut on a fold
// and their number has to stay even.
func gores(p job.Part) [][]job.Change {
	if len(p.Layers) == 0 {
		return nil
	}
	drawn, ok := p.Layers[0].Draft.(draft.Divided)
	if !ok {
		return nil
	}
	var rows [][]job.Change
	for d, step := drawn.Division(), -1; d.Step > 0 && step <= 1; step += 2 {
		if n := d.Pieces + step*d.Step; n > 0 {
			rows = append(rows, one(p.Called, d.Called, strconv.Itoa(n)))
		}
	}
	return rows
}
