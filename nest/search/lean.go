package search

import (
	"cmp"
	"slices"
)

// Ways that lean a few degrees off a straight one multiply the pairs of shapes, and
// the no-fit regions with them. Where that comes to more than can be made and kept,
// a lean has to wait until it is worth its while: first layout and exploring know
// straight ways alone; once layouts are compressed, when pieces lie snug and a degree
// may be all that is lacking, a piece tries the leans next to the one it has, near
// where it lies.

// mostPairsAtOnce bounds the pairs of outlines, in all motions, with which leans are
// tried like any other way: the regions for that take a second or two to make, and
// some 80 MB.
const mostPairsAtOnce = 4000

// deferLeans decides whether leans have to wait.
func (in *instance) deferLeans() {
	leans := slices.ContainsFunc(in.items, func(it item) bool { return len(it.straight) < len(it.ways) })
	in.leansDeferred = leans && len(in.outlines)*len(in.shapes)/2 > mostPairsAtOnce
	if in.leansDeferred {
		return
	}
	for i := range in.items {
		if !in.items[i].paired {
			in.items[i].straight = in.items[i].every()
		}
	}
}

// sortWays sorts the ways of an item into those tried everywhere and, for each
// way, those next to it in lean. Where no straight way fits, all are tried.
func (it *item) sortWays(choices []Choice) {
	it.nextLeans = make([][]int32, len(it.ways))
	families := map[int][]int32{}
	for w := range it.ways {
		c := &choices[it.ways[w].choice]
		families[c.Family] = append(families[c.Family], int32(w))
		if c.Lean == 0 && it.ways[w].lo <= it.ways[w].hi {
			it.straight = append(it.straight, int32(w))
		}
	}
	if len(it.straight) == 0 {
		if it.straight = it.every(); it.paired {
			it.straight = it.leastLeaning()
		}
		return
	}
	for _, family := range families {
		slices.SortStableFunc(family, func(a, b int32) int {
			return cmp.Compare(choices[it.ways[a].choice].Lean, choices[it.ways[b].choice].Lean)
		})
		for k, w := range family {
			for _, n := range []int{k - 1, k + 1} {
				if n >= 0 && n < len(family) && !slices.Contains(it.straight, family[n]) {
					it.nextLeans[w] = append(it.nextLeans[w], family[n])
				}
			}
		}
	}
}

// every lists all ways.
func (it *item) every() []int32 {
	out := make([]int32, len(it.ways))
	for w := range out {
		out[w] = int32(w)
	}
	return out
}
