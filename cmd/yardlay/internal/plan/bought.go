package plan

import (
	"fmt"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/nest/bound"
	"yardlay/shapes/measure"
)

// Lengths is what is known of a cloth that is sold in more lengths than one.
type Lengths struct {
	Cuts      []shelf.Cut // whole bolts, the longest first, each with its marker; none where one length holds everything
	Rest      shelf.Share // with Cuts: what is cut from the counter's length besides
	LeastCost cost.Money  // no purchase that holds the pieces costs less
	LeastFor  cost.Money  // none costs less as the shelf is used
	Bound     bound.Bound // of an open lay of everything in one length
	Split     string      // the parts whose garments no length sold holds whole; "" for none
	Ended     nest.Status // Finished, or why the search for a cheaper purchase ended before
}

// boltCuts are the whole bolts that are cut besides the stretches, where several
// lengths are bought.
func (l Laid) boltCuts() []shelf.Cut {
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
		if i := slices.IndexFunc(sizes, func(b cost.Bolt) bool { return b.Length == p.Length && b.Price == p.Price }); p.Bolt && i >= 0 {
			set.Counts[i] += p.Count
			set.Bolts += p.Count
			set.Cost.Currency = p.Cost.Currency
			set.Cost.Minor += p.Cost.Minor
		}
	}
	return set
}

// bolts describes their markers.
func (l Laid) bolts() []Stretch {
	var list []Stretch
	for i, c := range l.boltCuts() {
		m := l.whole(c, func(pl nest.Placed) nest.Placed { return l.unshelved(c.Source(pl)) }, l.Task.Spread.Cloth.Flaws)
		m.Bolt = i + 1
		list = append(list, m)
	}
	return list
}

// covered is what the pieces cover of all that is bought, mm2.
func (l Laid) covered() nest.Coverage {
	sum := l.Rest.Covered(l.Opened)
	for _, c := range l.boltCuts() {
		sum = sum.Plus(c.Problem.Covered(c.Layout))
	}
	return sum
}

// counterLength is what is bought for the stretches, mm: all, or the length cut
// besides whole bolts.
func (l Laid) counterLength() float64 {
	if len(l.boltCuts()) == 0 {
		return l.Buy.Bought
	}
	for _, p := range l.Buy.Parts {
		if !p.Bolt {
			return p.Length
		}
	}
	return 0
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
func (l Laid) Several() bool { return len(l.boltCuts()) > 0 }

// WithLeast returns a laying of the same pieces with what is known of another: how
// little could be bought at the least.
func (l Laid) WithLeast(of Laid) Laid {
	l.LeastBuy, l.LeastFor = of.LeastBuy, of.LeastBuy // that of how its pieces are shared out is another
	if l.Lengths != nil && of.Lengths != nil {
		lengths := *l.Lengths
		lengths.LeastCost, lengths.LeastFor, lengths.Bound = of.Lengths.LeastCost, of.Lengths.LeastCost, of.Lengths.Bound
		l.Lengths = &lengths
	}
	return l
}

// boughtLengths lists what is bought where that is several lengths: the bolts, then
// what is cut besides, whose stretches are given.
func (l Laid) boughtLengths(stretches, bolts []Stretch) []Length {
	if len(bolts) == 0 {
		return nil
	}
	var list []Length
	add := func(name string, bolt bool, bought, needed, used float64, marker []Placed) {
		list = append(list, Length{name, bolt, bought, needed, used, max(0, bought-needed), marker})
	}
	n := 0
	for _, p := range l.Buy.Parts {
		for range p.Count {
			if p.Bolt {
				b := bolts[n]
				add(b.Name, true, p.Length, l.Task.leastNeeded(b.Used), b.Used, b.Marker)
				n++
			}
		}
	}
	if len(stretches) > 0 {
		used, needed, marker := 0.0, l.Needed, []Placed{}
		for i, s := range stretches {
			used += l.Task.Stretches[i].Cloth(s.Used)
			marker = append(marker, s.Marker...)
		}
		for _, one := range list {
			needed -= one.Needed
		}
		add("cut", false, l.counterLength(), needed, used, marker)
	}
	return list
}

// lengthsWords says which length holds which pieces, where several are bought.
func (l Laid) lengthsWords() string {
	cuts := l.boltCuts()
	if len(cuts) == 0 {
		return ""
	}
	per := l.Task.Spread.Cloth.Offer.Per
	var parts []string
	lengths := l.boughtLengths(l.stretches(showIn(per)), l.bolts())
	for i, one := range lengths {
		var cut []nest.Placed
		if one.Bolt {
			for _, pl := range cuts[i].Layout.Placed {
				cut = append(cut, l.unshelved(cuts[i].Source(pl)))
			}
		} else {
			for _, pl := range l.Opened.Placed {
				cut = append(cut, l.source(pl))
			}
		}
		parts = append(parts, fmt.Sprintf("from %s of %s: %s", map[bool]string{true: one.Name, false: "the cut"}[one.Bolt],
			measure.FormatUp(one.Bought, per), strings.Join(l.Task.Spread.copiesOf(cut), ", ")))
	}
	text := fmt.Sprintf("Cut from %d lengths, each with a marker of its own; %s.", len(lengths), strings.Join(parts, "; "))
	if l.Task.Spread.Cloth.Lots == job.LotsNone {
		text += " Lots may differ: a garment is cut from one length."
	}
	if l.Lengths.Split != "" {
		text += " Nothing sold holds all of " + l.Lengths.Split + ", which comes from several: lay them side by side in daylight before you cut."
	}
	if l.Task.Lay != nest.Open {
		text += " Whole bolts are laid open."
	}
	if len(l.Task.Spread.Cloth.Flaws) > 0 {
		text += " Every length is laid as if it had the flaws."
	}
	return text
}

// LengthName is what a drawing calls a length: a leftover by its name, one of several
// lengths bought by what it is; "" for the only one.
func LengthName(c Cloth, s Stretch) string {
	if len(c.Lengths) == 0 || s.Shelf {
		return s.Name
	}
	one := c.Lengths[len(c.Lengths)-1]
	if s.Bolt > 0 {
		one = c.Lengths[s.Bolt-1]
	}
	return one.Name + " of " + measure.FormatUp(one.Bought, c.Spread.Cloth.Offer.Per)
}

// PurchaseWords says what is bought besides a single length or bolt, and why, with
// what that leaves; "" where there is nothing to say.
func PurchaseWords(offer cost.Offer, p cost.Purchase) string {
	text := ""
	switch {
	case p.Reason != "":
		text = p.Reason + "."
	case p.Lengths() > 1:
		text = "Buy " + offer.InWords(p) + "."
	default:
		return ""
	}
	if rest := restWords(p.Leftover, offer.Per); rest != "" {
		text += " " + rest
	}
	if p.Lengths() > 1 {
		text += " Ask for one dye lot."
	}
	return text
}

// restWords says that a length is left over of what is bought, in the unit it is
// sold by and rounded down; "" where that leaves nothing to tell.
func restWords(leftover float64, per measure.Unit) string {
	left := measure.FormatDown(leftover, per)
	if leftover <= measure.Guard || left == measure.FormatDown(0, per) {
		return ""
	}
	return "It leaves " + left + "."
}
