package plan

import (
	"cmp"
	"context"
	"slices"

	"yardlay/nest"
)

// inBolts finds bolts that hold everything, good ones or not: each is filled as far
// as it goes, one size before the others. It looks even when the run is interrupted.
func (b *buyer) inBolts(ctx context.Context) error {
	var strips []ShelfStrip
	var sizes []int
	for i, strip := range b.strips {
		if b.useful[i] {
			strips, sizes = append(strips, ShelfStrip{Strip: strip}), append(sizes, i)
		}
	}
	f, err := b.filler(strips)
	if err != nil {
		return err
	}
	order := make([]int, len(strips)) // the best value first
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(p, q int) int {
		each := func(i int) float64 {
			return float64(b.offer.Sizes()[sizes[i]].Price.Minor) / b.strips[sizes[i]].MaxLength
		}
		return cmp.Compare(each(p), each(q))
	})
	for n := range order {
		filled := b.oneAfterOther(ctx, f, append([]int{order[n]}, slices.Delete(slices.Clone(order), n, n+1)...), sizes)
		if filled == nil {
			continue
		}
		all := shelfPlan{rest: make(counts, len(f.bundles))}
		var bolts []ShelfStrip
		var of []int
		for _, one := range filled {
			all.on, bolts, of = append(all.on, one.packing), append(bolts, strips[one.strip]), append(of, sizes[one.strip])
		}
		g, err := b.filler(bolts)
		if err != nil {
			return err
		}
		if err := b.take(ctx, g, all, of); err != nil {
			return err
		}
	}
	return nil
}

// filled is a bolt with what lies on it.
type filled struct {
	packing
	strip int // of the filler
}

// oneAfterOther fills bolts until nothing is left, each of the first size in order
// that takes something; nil where that cannot be.
func (b *buyer) oneAfterOther(ctx context.Context, f *filler, order, sizes []int) []filled {
	var all []filled
	rest, taken := f.all, make([]int, len(sizes))
	for rest.total() > 0 {
		n := len(all)
		for _, i := range order {
			if stock := b.offer.Sizes()[sizes[i]].InStock; stock > 0 && taken[i] == stock {
				continue
			}
			if p := f.some(ctx, i, rest); p.counts.total() > 0 {
				all, rest = append(all, filled{p, i}), rest.plus(p.counts, -1)
				taken[i]++
				break
			}
		}
		if len(all) == n || len(all) > mostLengths {
			return nil
		}
	}
	return all
}

// some lays on a strip what it takes of the largest bundles in one go, one of them at
// the least where any fits.
func (f *filler) some(ctx context.Context, strip int, left counts) packing {
	none, order := make(counts, len(f.bundles)), f.order(strip, rules[0])
	if c := f.take(none, left, order, f.room(strip)); c.total() > 0 {
		if p := f.pack(ctx, strip, c, nest.Trial, false); p.counts.total() > 0 {
			return p
		}
	}
	for _, b := range order {
		one := slices.Clone(none)
		if one[b] = 1; left[b] > 0 {
			if p := f.pack(ctx, strip, one, nest.Trial, true); p.counts.total() > 0 {
				return p
			}
		}
	}
	return packing{counts: none}
}
