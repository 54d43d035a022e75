package plan

import (
	"cmp"
	"context"
	"slices"

	"yardlay/cmd/yardlay/internal/shelf"
)

// inBolts finds bolts that hold everything, good ones or not: each is filled as far
// as it goes, one size before the others. It looks even when the run is interrupted.
func (b *buyer) inBolts(ctx context.Context) error {
	var strips []shelf.Length
	var sizes []int
	for i, strip := range b.strips {
		if b.useful[i] {
			strips, sizes = append(strips, shelf.Length{Strip: strip}), append(sizes, i)
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
	stock := make([]int, len(strips))
	for i, size := range sizes {
		stock[i] = b.offer.Sizes()[size].InStock
	}
	for n := range order {
		first := append([]int{order[n]}, slices.Delete(slices.Clone(order), n, n+1)...)
		plan, filled := f.OneAfterOther(ctx, first, stock, mostLengths)
		if filled == nil {
			continue
		}
		var bolts []shelf.Length
		var of []int
		for _, i := range filled {
			bolts, of = append(bolts, strips[i]), append(of, sizes[i])
		}
		g, err := b.filler(bolts)
		if err != nil {
			return err
		}
		if err := b.take(ctx, g, plan, of); err != nil {
			return err
		}
	}
	return nil
}
