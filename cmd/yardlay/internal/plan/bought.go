package plan

import (
	"slices"

	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/nest/bound"
)

// Lengths is what is known of a cloth that is sold in more lengths than one.
type Lengths struct {
	// whole bolts, the longest first, each with its marker; none where one length holds everything
	Cuts      []shelf.Cut
	Rest      shelf.Share // with Cuts: what is cut from the counter's length besides
	LeastCost cost.Money  // no purchase that holds the pieces costs less
	LeastFor  cost.Money  // none costs less as the shelf is used
	Bound     bound.Bound // of an open lay of everything in one length
	Split     string      // the parts whose garments no length sold holds whole; "" for none
	Ended     nest.Status // Finished, or why the search for a cheaper purchase ended before
}

// BoltCuts are the whole bolts that are cut besides the stretches, where several
// lengths are bought.
func (l Laid) BoltCuts() []shelf.Cut {
	if l.Lengths == nil {
		return nil
	}
	return l.Lengths.Cuts
}

// boltSet is the whole bolts bought.
func (l Laid) boltSet() cost.Set {
	sizes := l.Task.Spread.Cloth.Offer.Sizes()
	set := cost.Set{Counts: make([]int, len(sizes))}
	for _, p := range l.Buy.Parts {
		if i := slices.IndexFunc(sizes,
			func(b cost.Bolt) bool { return b.Length == p.Length && b.Price == p.Price }); p.Bolt && i >= 0 {
			set.Counts[i] += p.Count
			set.Bolts += p.Count
			set.Cost.Currency = p.Cost.Currency
			set.Cost.Minor += p.Cost.Minor
		}
	}
	return set
}

// LeastCost is what is paid at the least, whatever the layouts of these stretches or,
// of a cloth that comes in several lengths, whatever lengths are bought.
func (l Laid) LeastCost() cost.Money {
	if l.Lengths != nil {
		return l.Lengths.LeastCost
	}
	least, err := l.Task.Spread.Cloth.Offer.Buy(l.LeastBuy)
	if err != nil || least.Cost.Minor > l.Buy.Cost.Minor {
		return l.Buy.Cost
	}
	return least.Cost
}

// Several says whether more than one length is bought.
func (l Laid) Several() bool { return len(l.BoltCuts()) > 0 }

// WithLeast returns a laying of the same pieces with what is known of another: how
// little could be bought at the least.
func (l Laid) WithLeast(of Laid) Laid {
	l.LeastBuy, l.LeastFor = of.LeastBuy, of.LeastBuy // that of how its pieces are shared out is another
	if l.Lengths != nil && of.Lengths != nil {
		lengths := *l.Lengths
		lengths.LeastCost, lengths.LeastFor, lengths.Bound = of.Lengths.LeastCost, of.Lengths.LeastCost,
			of.Lengths.Bound
		l.Lengths = &lengths
	}
	return l
}

// CounterLength is what is bought for the stretches, mm: all, or the length cut besides whole
// bolts; 0 where bolts, or the shelf, are enough.
func (l Laid) CounterLength() float64 {
	if !l.Several() {
		return l.Buy.Bought
	}
	for _, p := range l.Buy.Parts {
		if !p.Bolt {
			return p.Length
		}
	}
	return 0
}

// Taken returns the cloth that the markers of all bought lengths take, every layer
// counted, and the least that it could be.
func (l Laid) Taken() (used, least float64) {
	for i, s := range l.Task.Stretches {
		used += s.Cloth(l.Results[i].Layout.Length)
		least += s.Cloth(l.Results[i].Bound.Length)
	}
	if cuts := l.BoltCuts(); len(cuts) > 0 {
		for _, c := range cuts {
			used += c.Layout.Length
		}
		// One behind the other they would be one lay, with a gap between two.
		least = l.Lengths.Bound.Length - float64(l.Buy.Lengths()-1)*l.Task.Problem.Gap
	}
	return used, least
}

// Source returns the copy of the whole problem that a copy of the rest is.
func (l Laid) Source(pl nest.Placed) nest.Placed {
	if len(l.BoltCuts()) > 0 {
		pl = l.Lengths.Rest.Source(pl)
	}
	return l.Unshelved(pl)
}

// Unshelved returns the copy of the whole problem that a copy of what is cut from
// bought cloth is.
func (l Laid) Unshelved(pl nest.Placed) nest.Placed {
	if l.Shelf != nil && l.Shelf.Verdict != shelf.Idle {
		return l.Shelf.Rest.Source(pl)
	}
	return pl
}
