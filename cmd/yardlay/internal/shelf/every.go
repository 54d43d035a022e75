package shelf

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"yardlay/nest"
)

// everyWay makes a plan of every way to share out few bundles: on each strip in
// turn, as many as fit. To put fewer on a strip than fit never helps, since what
// more fits may come from the others.
func (f *Filler) everyWay(ctx context.Context, settled phases) []Plan {
	e := &enumeration{Filler: f, ctx: ctx, seen: map[string]bool{}, full: map[string][]packing{}}
	e.from(0, Plan{on: make([]packing, len(f.strips)), rest: f.all, phases: settled})
	slices.SortStableFunc(e.plans, func(p, q Plan) int {
		return cmp.Compare(p.rest.area(f.bundles), q.rest.area(f.bundles))
	})
	best := f.bought(f.rest(ctx, f.all, nil).used)
	kept := e.plans[:0]
	for _, p := range e.plans {
		if f.leastBought(p.rest) > best || ctx.Err() != nil {
			continue
		}
		p = f.layRest(ctx, p)
		best = min(best, p.bought)
		kept = append(kept, p)
	}
	return kept
}

// enumeration goes through the ways to fill strips.
type enumeration struct {
	*Filler
	ctx   context.Context
	seen  map[string]bool
	full  map[string][]packing // by strip and what is left
	plans []Plan               // each with another rest, the fewest strips first
}

// from fills the strips from number i on.
func (e *enumeration) from(i int, p Plan) {
	key := fmt.Sprint(i, p.rest)
	if e.seen[key] {
		return
	}
	e.seen[key] = true
	if i == len(e.strips) {
		e.plans = append(e.plans, p)
		return
	}
	e.from(i+1, p) // without it: a strip that is not needed is left alone
	for _, on := range e.fullest(i, p.rest, p.phases) {
		next := p.with(i, on)
		next.rest = p.rest.plus(on.counts, -1)
		e.from(i+1, next)
	}
}

// fullest returns the packings of a strip that nothing more of what is left can
// be added to.
func (e *enumeration) fullest(strip int, left counts, settled phases) []packing {
	key := fmt.Sprint(strip, left, settled)
	if full, ok := e.full[key]; ok {
		return full
	}
	var full []packing
	for _, c := range e.subsets(left) {
		switch {
		case c.total() == 0 || c.area(e.bundles) > e.room(strip) || !e.eachFits(strip, c):
			continue
		case slices.ContainsFunc(full, func(p packing) bool { return c.within(p.counts) }) || e.ctx.Err() != nil:
			continue
		}
		if p := e.pack(e.ctx, strip, c, settled, nest.Trial, true); p.counts.total() == c.total() {
			full = append(full, p)
		}
	}
	e.full[key] = full
	return full
}

// subsets lists the ways to take some of what is left, the most area first.
func (f *Filler) subsets(left counts) []counts {
	all := []counts{make(counts, len(left))}
	for k, n := range left {
		for _, c := range slices.Clone(all) {
			for taken := 1; taken <= n; taken++ {
				d := slices.Clone(c)
				d[k] = taken
				all = append(all, d)
			}
		}
	}
	slices.SortStableFunc(all, func(c, d counts) int { return cmp.Compare(d.area(f.bundles), c.area(f.bundles)) })
	return all
}
