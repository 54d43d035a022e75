package shelf

import (
	"context"
	"slices"

	"yardlay/nest"
)

// OneAfterOther fills strips until nothing is left, each time the first in order that
// takes something, as often as there is stock of it (0: as often as it takes), and most
// of them in all. It returns which strip each of the plan's is; none where that cannot be.
func (f *Filler) OneAfterOther(ctx context.Context, order, stock []int, most int) (p Plan, filled []int) {
	for _, settled := range f.starts() {
		q, on := f.inTurn(ctx, order, stock, most, settled)
		if on != nil && (filled == nil || len(on) < len(filled)) {
			p, filled = q, on
		}
	}
	return p, filled
}

// inTurn does so with some phases settled.
func (f *Filler) inTurn(ctx context.Context, order, stock []int, most int, settled phases) (p Plan, filled []int) {
	p.rest, p.phases = f.all, settled
	taken := make([]int, len(f.strips))
	for p.rest.total() > 0 {
		n := len(filled)
		for _, i := range order {
			if stock[i] > 0 && taken[i] == stock[i] {
				continue
			}
			if on := f.some(ctx, i, p); on.counts.total() > 0 {
				p.on = append(p.on, packing{})
				p = p.with(n, on)
				filled, p.rest = append(filled, i), p.rest.plus(on.counts, -1)
				taken[i]++
				break
			}
		}
		if len(filled) == n || len(filled) > most {
			return Plan{}, nil
		}
	}
	return p, filled
}

// some lays on a strip what it takes of the largest bundles of a plan's rest in one go,
// one of them at the least where any fits.
func (f *Filler) some(ctx context.Context, strip int, plan Plan) packing {
	left, none, order := plan.rest, make(counts, len(f.bundles)), f.order(strip, rules[0])
	if c := f.take(none, left, order, f.room(strip)); c.total() > 0 {
		if p := f.pack(ctx, strip, c, plan.phases, nest.Trial, false); p.counts.total() > 0 {
			return p
		}
	}
	for _, b := range order {
		one := slices.Clone(none)
		if one[b] = 1; left[b] > 0 {
			if p := f.pack(ctx, strip, one, plan.phases, nest.Trial, true); p.counts.total() > 0 {
				return p
			}
		}
	}
	return packing{counts: none}
}
