package report

import (
	"fmt"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// bolts describes their markers.
func (l laying) bolts() []Stretch {
	var list []Stretch
	for i, c := range l.BoltCuts() {
		m := l.whole(c, func(pl nest.Placed) nest.Placed { return l.Unshelved(c.Source(pl)) },
			l.Task.Spread.Cloth.Flaws)
		m.Bolt = i + 1
		list = append(list, m)
	}
	return list
}

// covered is what the pieces cover of all that is bought, mm2.
func (l laying) covered() nest.Coverage {
	sum := l.Rest.Covered(l.Opened)
	for _, c := range l.BoltCuts() {
		sum = sum.Plus(c.Problem.Covered(c.Layout))
	}
	return sum
}

// boughtLengths lists what is bought where that is several lengths: the bolts, then
// what is cut besides, whose stretches are given.
func (l laying) boughtLengths(stretches, bolts []Stretch) []Length {
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
				add(b.Name, true, p.Length, l.Task.LeastNeeded(b.Used), b.Used, b.Marker)
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
		add("cut", false, l.CounterLength(), needed, used, marker)
	}
	return list
}

// lengthsWords says which length holds which pieces, where several are bought.
func (l laying) lengthsWords() string {
	cuts := l.BoltCuts()
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
				cut = append(cut, l.Unshelved(cuts[i].Source(pl)))
			}
		} else {
			for _, pl := range l.Opened.Placed {
				cut = append(cut, l.Source(pl))
			}
		}
		parts = append(parts, fmt.Sprintf("from %s of %s: %s",
			map[bool]string{true: one.Name, false: "the cut"}[one.Bolt],
			measure.FormatUp(one.Bought, per), strings.Join(copiesOf(l.Task.Spread, cut), ", ")))
	}
	text := fmt.Sprintf("Cut from %d lengths, each with a marker of its own; %s.", len(lengths),
		strings.Join(parts, "; "))
	if l.Task.Spread.Cloth.Lots == job.LotsNone {
		text += " Lots may differ: a garment is cut from one length."
	}
	if l.Lengths.Split != "" {
		text += " Nothing sold holds all of " + l.Lengths.Split +
			", which comes from several: lay them side by side in daylight before you cut."
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
