package search

import (
	"sync"
	"sync/atomic"
)

// mostFirstPairs bounds the pairs of ways of different kinds that a first layout
// looks at with all straight ways: two or three thousand no-fit regions, a second or
// so of work for curved outlines.
const mostFirstPairs = 4000

// A first layout of very many kinds is one of rows: that of corners looks at each
// item beside each other, in regions that are used once or twice.
const mostCornerPairs = 100_000

// mostSearched bounds the items of a lot that is searched at all: a lane keeps the
// overlaps and weights of all pairs, 16 bytes each. Larger lots are laid in rows.
const mostSearched = 2500

// firstPairs counts the pairs of ways of different kinds that a first layout may
// look at.
func (in *instance) firstPairs() int {
	kinds, ways := map[int]bool{}, 0
	for i := range in.movable {
		if kind := in.items[i].kind; !kinds[kind] {
			kinds[kind] = true
			ways += len(in.items[i].straight)
		}
	}
	return ways * len(kinds) / 2
}

// waysOf lists the ways in which a first layout may lay item i: the straight ones,
// or, of a lot of many kinds, those among them that are as short along the strip as
// the shortest.
func (c *builder) waysOf(i int) []int32 {
	all := c.items[i].straight
	if !c.few {
		return all
	}
	width := func(w int32) float64 { return c.shapes[c.items[i].ways[w].shape].w }
	least := width(all[0])
	for _, w := range all {
		least = min(least, width(w))
	}
	var out []int32
	for _, w := range all {
		if width(w) <= least+c.tolerance {
			out = append(out, w)
		}
	}
	return out
}

// makeRegions makes the regions that item i will be laid by, some at a time: one by
// one as they are asked for, a single processor would have to make them all.
func (c *builder) makeRegions(i int) {
	if c.workers < 2 {
		return
	}
	var missing [][2]int32
	seen := map[[2]int32]bool{}
	for _, w := range c.waysOf(i) {
		s := c.items[i].ways[w].shape
		from := c.soonest[[2]int32{int32(c.items[i].kind), w}]
		for k, t := range c.placedShape {
			if pair := [2]int32{t, s}; !seen[pair] && c.boxes[k].x1-c.shapes[s].loX >= from-c.tolerance &&
				!c.regions.has(t, s) {
				seen[pair] = true
				missing = append(missing, pair)
			}
		}
	}
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(c.workers, len(missing)) {
		all.Go(func() {
			for k := next.Add(1) - 1; k < int64(len(missing)) && !c.stop(); k = next.Add(1) - 1 {
				c.regions.of(missing[k][0], missing[k][1])
			}
		})
	}
	all.Wait()
}
