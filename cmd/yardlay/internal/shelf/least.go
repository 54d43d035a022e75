package shelf

import (
	"context"
	"fmt"
	"math"
	"slices"

	"yardlay/nest"
	"yardlay/nest/bound"
	"yardlay/shapes/plane"
)

// Floor says how little could ever be cut at the counter besides some whole bolts:
// how many bundles a bolt may hold at the most follows from bounds of their open
// lay, freed of flaws and repeats, which hold however the cloth is folded.
type Floor struct {
	ctx   context.Context
	f     *Filler
	room  []float64 // of each size, mm laid on
	Full  bound.Bound
	work  int // corners that bounds may still be looked for with
	known map[string]float64
	most  [][]counts          // by size, what it may hold at the most
	left  map[string][]counts // by bolts, the least that may be left for the counter
}

// mostStates is the most ways to take some of the bundles up to which all of them
// are looked at, and boundWork the corners of outlines that bounds of some of them
// are looked for with: a rectangle's takes a millisecond, a gore's twenty times that.
const mostStates, boundWork = 128, 1200

// NewFloor finds out first what all bundles of the filler take in one length. room is
// how long each size of bolt can be laid, mm.
func NewFloor(ctx context.Context, f *Filler, room []float64, effort nest.Effort) *Floor {
	b := &Floor{ctx: ctx, f: f, room: room, known: map[string]float64{}, left: map[string][]counts{},
		most: make([][]counts, len(room))}
	if effort != nest.Trial {
		b.work = boundWork
	}
	b.Full = b.bound(f.all, effort != nest.Trial)
	b.known[fmt.Sprint(f.all)] = b.Full.Length
	return b
}

// bound is that of some bundles laid open; in full it takes its time.
func (b *Floor) bound(c counts, full bool) bound.Bound {
	p := newDealer(b.f.whole, b.f.kinds, b.f.bundles).share(nest.Strip{Width: b.f.whole.Strip.Width}, c, nil).Problem
	p.Phases = nil
	for i := range p.Pieces {
		p.Pieces[i].Match, p.Pieces[i].Half = nil, nil
	}
	ctx, cancel := context.WithCancel(b.ctx)
	defer cancel()
	if !full {
		cancel()
	}
	return nest.LowerBound(ctx, p)
}

// length is never more than a marker of some bundles takes, mm.
func (b *Floor) length(c counts) float64 {
	if c.total() == 0 {
		return 0
	}
	key := fmt.Sprint(c)
	if mm, ok := b.known[key]; ok {
		return mm
	}
	if b.ctx.Err() != nil { // the run is over: the area has to do
		on := nest.Strip{Width: b.f.whole.Strip.Width}
		return plane.SnapDown(newDealer(b.f.whole, b.f.kinds, b.f.bundles).share(on,
			c, nil).Problem.LeastArea() / on.Width)
	}
	corners := 0
	for i, n := range c {
		for _, k := range b.f.held(b.f.bundles[i]) {
			if n > 0 {
				corners += len(b.f.whole.Pieces[b.f.kinds[k].piece].Outline)
			}
		}
	}
	full := b.work >= corners
	if full {
		b.work -= corners
	}
	mm := b.bound(c, full).Length
	b.known[key] = mm
	return mm
}

// Cut is the shortest marker that must be laid on a length of the counter besides
// so many bolts of each size, mm; 0 where the bolts might hold everything.
func (b *Floor) Cut(bolts []int) float64 {
	least := b.Full.Length
	for i, n := range bolts {
		least -= float64(n) * (b.room[i] + b.f.whole.Gap)
	}
	shortest := math.Inf(1)
	for _, rest := range b.rests(bolts) {
		shortest = min(shortest, b.length(rest))
	}
	return max(least, shortest, 0)
}

// rests lists the bundles that may be left when so many bolts of each size are
// filled; what leaves more of all entries than another is left out.
func (b *Floor) rests(bolts []int) []counts {
	states := 1
	for _, n := range b.f.all {
		if states *= n + 1; states > mostStates {
			return []counts{b.eachAlone(bolts)}
		}
	}
	key := fmt.Sprint(bolts)
	if left, ok := b.left[key]; ok {
		return left
	}
	left := []counts{b.f.all}
	if last := slices.IndexFunc(bolts, func(n int) bool { return n > 0 }); last >= 0 {
		fewer := slices.Clone(bolts)
		fewer[last]--
		var all []counts
		for _, rest := range b.rests(fewer) {
			for _, c := range b.holds(last) {
				all = append(all, rest.less(c))
			}
		}
		left = minimal(all)
	}
	b.left[key] = left
	return left
}

// holds lists what a bolt of a size may hold at the most.
func (b *Floor) holds(size int) []counts {
	if b.most[size] != nil {
		return b.most[size]
	}
	most := []counts{make(counts, len(b.f.all))}
	for _, c := range b.f.subsets(b.f.all) {
		if !slices.ContainsFunc(most, func(d counts) bool { return c.within(d) }) && b.length(c) <= b.room[size] {
			most = append(most, c)
		}
	}
	b.most[size] = most
	return most
}

// eachAlone is what is left at the least of each entry, when each is taken to have
// the bolts for itself.
func (b *Floor) eachAlone(bolts []int) counts {
	rest := slices.Clone(b.f.all)
	for i, n := range bolts {
		if n == 0 {
			continue
		}
		if b.most[i] == nil {
			each := make(counts, len(rest))
			for k, all := range b.f.all {
				c := make(counts, len(rest))
				// The greatest number whose bound is no longer than the bolt.
				low, high := 0, all+1
				for low+1 < high {
					c[k] = (low + high) / 2
					if b.length(c) <= b.room[i] {
						low = c[k]
					} else {
						high = c[k]
					}
				}
				each[k] = low
			}
			b.most[i] = []counts{each}
		}
		for k := range rest {
			rest[k] = max(0, rest[k]-n*b.most[i][0][k])
		}
	}
	return rest
}

// less takes counts away, none below 0.
func (c counts) less(d counts) counts {
	out := c.plus(d, -1)
	for k := range out {
		out[k] = max(0, out[k])
	}
	return out
}

// minimal leaves out what another has no more of.
func minimal(all []counts) []counts {
	slices.SortStableFunc(all, func(c, d counts) int { return c.total() - d.total() })
	var kept []counts
	for _, c := range all {
		if !slices.ContainsFunc(kept, func(d counts) bool { return d.within(c) }) {
			kept = append(kept, c)
		}
	}
	return kept
}
