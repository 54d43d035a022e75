package bound

import (
	"cmp"
	"slices"
)

// mostChains is how many of the dearest chains are told at a time, each of another end.
const mostChains = 6

// dearest returns what the chain is worth that is worth most on one line, and the dearest
// chains of some ends as columns. Slices that are worth nothing are left out: those that
// stay follow each other in the same order, each still its step from the next. What is
// looked at comes off work.
func (t *sliced) dearest(worth []float64, work *int) (most float64, chains []column) {
	var priced []int
	for n, v := range worth {
		if v > 0 {
			priced = append(priced, n)
		}
	}
	best := t.paths(priced, worth, work)
	order := make([]int, len(priced))
	for k := range order {
		order[k] = k
	}
	value := func(k int) float64 { return best.upTo(k, t.slices[priced[k]].last) }
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(value(b), value(a)) })
	for _, k := range order[:min(len(order), mostChains)] {
		most = max(most, value(k))
		chains = append(chains, best.chain(k, t.slices[priced[k]].last, priced, len(t.slices)))
	}
	return most, chains
}

// paths is the dearest chains that end with each slice at each place or before.
type paths struct {
	value [][]float64 // of each slice, by place; -1: none
	since [][]int32   // place at which that value was reached
	from  [][]link    // what comes before it there
}

// link is a slice at a place; slice -1: none.
type link struct{ slice, at int32 }

// paths goes from place to place; a chain that is no dearer than one that ended there
// before is not gone on with.
func (t *sliced) paths(priced []int, worth []float64, work *int) paths {
	p := paths{make([][]float64, len(priced)), make([][]int32, len(priced)), make([][]link, len(priced))}
	for k, n := range priced {
		places := t.slices[n].last + 1
		p.value[k], p.since[k], p.from[k] = make([]float64, places), make([]int32, places), make([]link, places)
		for at := range places {
			p.value[k][at] = -1
		}
		if first := t.slices[n].first; first < places {
			p.value[k][first], p.from[k][first] = worth[n], link{-1, -1}
		}
	}
	steps := make([]int, 0, len(priced)*len(priced)) // from each to each
	for _, n := range priced {
		for _, m := range priced {
			steps = append(steps, t.steps[n][m])
		}
	}
	for at := range acrossBins + 1 {
		for k := range priced {
			value := p.value[k]
			if at >= len(value) {
				continue
			}
			if at > 0 && value[at] <= value[at-1] {
				value[at], p.since[k][at] = value[at-1], p.since[k][at-1]
				continue
			}
			if p.since[k][at] = int32(at); value[at] < 0 {
				continue
			}
			*work -= len(priced)
			p.goOn(k, at, steps[k*len(priced):][:len(priced)], priced, worth)
		}
	}
	return p
}

// goOn adds each slice to the chain that ends with slice k at a place.
func (p paths) goOn(k, at int, steps, priced []int, worth []float64) {
	before, here := p.value[k][at], link{int32(k), int32(at)}
	for to, step := range steps {
		if value := p.value[to]; at+step < len(value) {
			if v := before + worth[priced[to]]; v > value[at+step] {
				value[at+step], p.from[to][at+step] = v, here
			}
		}
	}
}

// upTo is the worth of the dearest chain that ends with a slice at a place or before; 0
// where there is none.
func (p paths) upTo(k, at int) float64 {
	if at < 0 || at >= len(p.value[k]) {
		return 0
	}
	return max(p.value[k][at], 0)
}

// chain is that chain as a column: what it offers of each slice, below nought.
func (p paths) chain(k, at int, priced []int, all int) column {
	c := make(column, all)
	if at < 0 || at >= len(p.value[k]) || p.value[k][at] < 0 {
		return c
	}
	for l := (link{int32(k), p.since[k][at]}); l.slice >= 0; l = p.from[l.slice][l.at] {
		c[priced[l.slice]]--
	}
	return c
}
