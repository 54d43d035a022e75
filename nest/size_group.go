package nest

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// sizeOfGroups returns a *SizeError unless the copies of every group have a place
// on the strip each at one phase, however they lie over each other.
func (p Problem) sizeOfGroups() *SizeError {
	repeat := [2]float64{p.Strip.Repeat.Along, p.Strip.Repeat.Across}
	if repeat == [2]float64{} {
		return nil
	}
	phases := p.settledPhases()
	groups := p.groups()
	for _, g := range groups {
		phase, given := phases[g.number]
		settled := &phase
		if !given {
			settled = nil
		}
		if len(g.copies) == 1 && !given {
			continue // it sets the phase
		}
		var ranges [][]phaseRange
		for _, c := range g.copies {
			ranges = append(ranges, p.phaseRanges(c))
		}
		if _, ok := commonPhase(repeat, ranges, settled); ok {
			continue
		}
		for n, c := range g.copies {
			if _, ok := commonPhase(repeat, ranges[:n+1], settled); !ok {
				miss := p.extents(c.piece, c.mirrored)
				miss.Repeat = true
				return miss
			}
		}
	}
	return nil
}

// group is the copies of a problem that share a phase, alike ones once.
type group struct {
	number int
	copies []groupCopy
}

type groupCopy struct {
	piece, copy int
	mirrored    bool // the mirrored one of a pair
}

// groups lists the groups of a problem in the order of their first copies.
func (p Problem) groups() []group {
	var list []group
	at := map[int]int{}
	for i, piece := range p.Pieces {
		if piece.Match == nil {
			continue
		}
		seen := map[[2]int]bool{} // group and side of this piece
		for k := range piece.Count {
			g := piece.Match.group(k)
			n, ok := at[g]
			if !ok {
				n = len(list)
				at[g] = n
				list = append(list, group{number: g})
			}
			mirrored, side := piece.Mirror == Paired && k%2 == 1, 0
			if mirrored {
				side = 1
			}
			if !seen[[2]int{g, side}] {
				seen[[2]int{g, side}] = true
				list[n].copies = append(list[n].copies, groupCopy{i, k, mirrored})
			}
		}
	}
	return list
}

// phaseRange is a set of phases at which a copy has a place, in one way to lie: an
// arc of the circle of phases on each axis.
type phaseRange [2]arc

// arc begins at a phase and goes on for a length, mm; an infinite one is all.
type arc struct{ from, length float64 }

// phaseSlack is how far the phase may put a copy off its place, mm. Rounding makes
// up for half a step of the lattice; two copies that pull either way share less.
const phaseSlack = 0.24 * plane.Lattice

// phaseRanges lists the phases at which a copy has a place on the strip.
func (p Problem) phaseRanges(c groupCopy) []phaseRange {
	piece := p.Pieces[c.piece]
	var ranges []phaseRange
	for _, pl := range p.Ways(c.piece, c.copy) {
		box := plane.Bounds(p.Outline(pl))
		point := plane.Pose{Mirrored: pl.Mirrored, Turn: pl.Turn}.ApplyPoint(piece.Match.Point)
		span := func(axis int, low, high float64) arc {
			low, high = plane.Ceil(low)-phaseSlack, plane.Floor(high)+phaseSlack
			return arc{low + point[axis] - box.Min[axis], high - low}
		}
		far := math.Inf(1)
		if p.Strip.MaxLength > 0 {
			far = p.Strip.MaxLength - (box.Max[0] - box.Min[0])
		}
		for _, r := range p.levels(piece) {
			high := r.high - (box.Max[1] - box.Min[1])
			if far >= 0 && high >= r.low {
				ranges = append(ranges, phaseRange{span(0, 0, far), span(1, r.low, high)})
			}
		}
	}
	return ranges
}

// has says whether a phase lies on the arc, to the accuracy of sums of floats.
func (a arc) has(repeat, phase float64) bool {
	const tiny = 1e-9 // mm
	off := phase - a.from
	off -= math.Floor(off/repeat) * repeat
	return repeat == 0 || a.length >= repeat || off <= a.length+tiny || off >= repeat-tiny
}

// whole says whether every phase lies on the arc.
func (a arc) whole(repeat float64) bool { return repeat == 0 || a.length >= repeat }

// commonPhase returns a phase at which each of the copies has one of its ranges.
// Where there is any there is one whose part on each axis begins some arc.
func commonPhase(repeat [2]float64, copies [][]phaseRange, given *orb.Point) (orb.Point, bool) {
	along := []float64{0}
	if given != nil {
		along = []float64{given[0]}
	} else {
		for _, ranges := range copies {
			for _, s := range ranges {
				if !s[0].whole(repeat[0]) {
					along = append(along, s[0].from)
				}
			}
		}
	}
	for _, x := range along {
		if y, ok := commonAcross(repeat, copies, x, given); ok {
			return orb.Point{x, y}, true
		}
	}
	return orb.Point{}, false
}

// commonAcross does so for a given part along.
func commonAcross(repeat [2]float64, copies [][]phaseRange, x float64, given *orb.Point) (float64, bool) {
	type event struct {
		at   float64
		open int
	}
	var events []event
	bound := 0 // copies that do not lie at every phase
	for _, ranges := range copies {
		var arcs []arc
		all := false
		for _, s := range ranges {
			if !s[0].has(repeat[0], x) {
				continue
			}
			if given != nil && s[1].has(repeat[1], given[1]) || given == nil && s[1].whole(repeat[1]) {
				all = true
				break
			}
			arcs = append(arcs, s[1])
		}
		switch {
		case all:
			continue
		case len(arcs) == 0 || given != nil:
			return 0, false
		}
		bound++
		for _, r := range joinedArcs(repeat[1], arcs) {
			events = append(events, event{r[0], 1}, event{r[1], -1})
		}
	}
	if bound == 0 {
		if given != nil {
			return given[1], true
		}
		return 0, true
	}
	slices.SortFunc(events, func(a, b event) int {
		return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(b.open, a.open))
	})
	open := 0
	for _, e := range events {
		if open += e.open; open == bound {
			return e.at, true
		}
	}
	return 0, false
}

// joinedArcs cuts arcs open at phase 0 and joins those that overlap: ranges from
// low to high, in order.
func joinedArcs(repeat float64, arcs []arc) [][2]float64 {
	var cut [][2]float64
	for _, a := range arcs {
		from := a.from - math.Floor(a.from/repeat)*repeat
		cut = append(cut, [2]float64{from, min(from+a.length, repeat)})
		if over := from + a.length - repeat; over >= 0 {
			cut = append(cut, [2]float64{0, over})
		}
	}
	slices.SortFunc(cut, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	joined := cut[:1]
	for _, r := range cut[1:] {
		if last := &joined[len(joined)-1]; r[0] <= last[1] {
			last[1] = max(last[1], r[1])
		} else {
			joined = append(joined, r)
		}
	}
	return joined
}
