package search

import (
	"cmp"
	"math"
	"slices"
)

// Left and right of a pair lean alike. So an item that is paired keeps its lean when it
// moves: both of a pair take up another one together, near where they lie. Layouts are
// begun with all of them straight.

// partners finds for each item the other one of its pair; -1: it has none.
func partners(items []Item) []int {
	out, first := make([]int, len(items)), map[int]int{}
	for i, it := range items {
		out[i] = -1
		if j, met := first[it.Pair]; it.Pair > 0 && met {
			out[i], out[j] = j, i
		} else {
			first[it.Pair] = i
		}
	}
	return out
}

// leaning lists the ways of an item that lean so much.
func (it *item) leaning(lean float64) (list []int32) {
	for w := range it.ways {
		if it.ways[w].lean == lean {
			list = append(list, int32(w))
		}
	}
	return list
}

// leastLeaning lists those that fit across the strip and lean the least.
func (it *item) leastLeaning() []int32 {
	least, found := 0.0, false
	for w := range it.ways {
		way := &it.ways[w]
		if way.lo <= way.hi && (!found || math.Abs(way.lean) < math.Abs(least)) {
			least, found = way.lean, true
		}
	}
	return it.leaning(least)
}

// otherLeans lists the leans of an item but for one, the nearest first.
func (it *item) otherLeans(lean float64) (list []float64) {
	for w := range it.ways {
		if v := it.ways[w].lean; v != lean && !slices.Contains(list, v) {
			list = append(list, v)
		}
	}
	slices.SortStableFunc(list, func(a, b float64) int { return cmp.Compare(math.Abs(a-lean), math.Abs(b-lean)) })
	return list
}

// leantTo returns the way of item i that differs from the one it lies in by its lean
// alone, if there is room for it.
func (l *lane) leantTo(i int, lean float64) (int32, bool) {
	it := &l.items[i]
	for _, w := range it.leaning(lean) {
		if way := &it.ways[w]; way.family == it.ways[l.at.way[i]].family && l.hasRoom(l.at, i, way, l.length) {
			return w, true
		}
	}
	return 0, false
}

// evenOut gives a pair a lean for which there is room, the same to both: its own, if it
// has one.
func (l *lane) evenOut(i, j int) {
	fits := func(lean float64) bool {
		v, ok := l.leantTo(i, lean)
		w, also := l.leantTo(j, lean)
		if ok && also {
			l.at.way[i], l.at.way[j] = v, w
		}
		return ok && also
	}
	own := l.items[i].ways[l.at.way[i]].lean
	if own == l.items[j].ways[l.at.way[j]].lean && l.hasRoom(l.at, i, &l.items[i].ways[l.at.way[i]], l.length) &&
		l.hasRoom(l.at, j, &l.items[j].ways[l.at.way[j]], l.length) || fits(own) {
		return
	}
	for w := range l.items[i].ways {
		if fits(l.items[i].ways[w].lean) {
			return
		}
	}
	for _, w := range l.items[j].leaning(own) { // there is no room at all
		l.at.way[j] = w
	}
}

// leanShare is the part of all work that leans of pairs may take: with more of it layouts
// of many pairs came out longer than without any lean.
const leanShare = 0.15

// mayLean says whether it is time for another lean.
func (l *lane) mayLean() bool {
	return (!l.leansDeferred || l.pool.phase() == compressing) && float64(l.leant) <= leanShare*float64(l.evals)
}

// leanTogether tries other leans of item i and its partner, for both, and takes the
// first by which they overlap less.
func (l *lane) leanTogether(i int) {
	j := l.partner[i]
	if j < 0 {
		return
	}
	before := l.lossOfBoth(i, j)
	a := trial{way: l.at.way[i], x: l.at.x[i], y: l.at.y[i]}
	b := trial{way: l.at.way[j], x: l.at.x[j], y: l.at.y[j]}
	for _, lean := range l.items[i].otherLeans(l.items[i].ways[a.way].lean) {
		if !l.leanOver(i, lean) {
			continue
		}
		if l.leanOver(j, lean) && l.lossOfBoth(i, j) < before {
			return
		}
		l.place(i, a.way, a.x, a.y)
		l.place(j, b.way, b.x, b.y)
	}
}

// leanOver gives item i another lean, at the cheapest of some places near where it lies.
func (l *lane) leanOver(i int, lean float64) bool {
	w, ok := l.leantTo(i, lean)
	if !ok {
		return false
	}
	way, was := &l.items[i].ways[w], &l.shapes[l.shapeNow[i]]
	now, sh := trial{way: w, x: l.at.x[i], y: l.at.y[i]}, &l.shapes[way.shape]
	now.x = l.along(i, way).nearest(now.x + (was.w-sh.w)/2)
	now.y = l.across(i, way).nearest(now.y + (was.h-sh.h)/2)
	best := untried()
	l.sample(i, w, now, 0, &best)
	winner := l.newton(i, now)
	if !math.IsInf(best[0].loss, 1) {
		if t := l.newton(i, best[0]); t.loss < winner.loss {
			winner = t
		}
	}
	l.place(i, winner.way, winner.x, winner.y)
	return true
}

// lossOfBoth is the weighted overlap of two items with all else and with each other.
func (l *lane) lossOfBoth(i, j int) float64 {
	sum, n := 0.0, len(l.items)
	for k := range l.items {
		if d := l.depths[i*n+k]; d > 0 {
			sum += l.weights[i*n+k] * weightedDepth(d) * l.roots[i] * l.roots[k]
		}
		if d := l.depths[j*n+k]; d > 0 && k != i {
			sum += l.weights[j*n+k] * weightedDepth(d) * l.roots[j] * l.roots[k]
		}
	}
	return sum
}
