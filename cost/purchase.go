package cost

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Purchase is what to buy of one cloth: one length, or several, each of which is
// laid by itself.
type Purchase struct {
	Used     float64 // mm, that is needed of all lengths together
	Bought   float64 // mm, never less than Used but for measure.Guard
	Bolts    int     // whole bolts of any size; 0 when only a length is cut at the counter
	Cost     Money   // of all that is bought, before tax and shipping
	Leftover float64 // mm, Bought less Used, never negative
	Parts    []Part  // bolts, the longest first, then the cut; the costs sum to Cost
	// Saved is what this purchase costs less than the shortest single piece that
	// would do: the plain cut, or the shortest bolt where none is cut. Reason
	// says so in words, and is empty where nothing is saved.
	Saved  Money
	Reason string
}

// Lengths counts the lengths bought.
func (p Purchase) Lengths() int {
	n := 0
	for _, part := range p.Parts {
		n += part.Count
	}
	return n
}

// Precedes orders purchases of the same cloth by what a maker wants: the cheaper
// one, then all in one length, then the least cloth, then the fewest lengths.
func (p Purchase) Precedes(q Purchase) bool {
	several := func(p Purchase) int { return min(p.Lengths(), 2) }
	return cmp.Or(cmp.Compare(p.Cost.Minor, q.Cost.Minor), cmp.Compare(several(p), several(q)),
		cmp.Compare(p.Bought, q.Bought), cmp.Compare(p.Lengths(), q.Lengths())) < 0
}

// Part is one entry of a purchase: bolts of one size, or the length cut.
type Part struct {
	Count  int     // bolts; 1 for a cut
	Length float64 // mm, of each
	Bolt   bool    // sold whole
	From   float64 // mm; of a cut, where its price begins, 0 for the plain price
	Price  Money   // of each bolt, or of one unit of the cut
	Cost   Money   // of all of the part
}

// purchase writes out a way to buy a used length, for which alone would be needed
// in one piece; 0 where that is not known.
func (o Offer) purchase(used, alone float64, c choice) (Purchase, error) {
	currency := o.currency()
	if !c.cost.IsInt64() {
		return Purchase{}, say.Errorf("%s at %s: %w", measure.FormatUp(used, o.shown()), currency, ErrTooMuch)
	}
	p := Purchase{
		Used: used, Bought: nearest(c.length), Cost: Money{c.cost.Int64(), currency}, Saved: Money{0, currency},
	}
	p.Leftover = max(0, p.Bought-used)
	sizes := o.Sizes()
	for i, n := range c.counts {
		if n > 0 {
			p.Bolts += n
			b := sizes[i]
			p.Parts = append(p.Parts, Part{Count: n, Length: b.Length, Bolt: true, Price: b.Price,
				Cost: Money{int64(n) * b.Price.Minor, currency}})
		}
	}
	slices.SortStableFunc(p.Parts, func(a, b Part) int { return cmp.Compare(b.Length, a.Length) })
	if c.cut.length != nil {
		p.Parts = append(p.Parts, Part{
			Count: 1, Length: nearest(c.cut.length), From: c.cut.from,
			Price: c.cut.price, Cost: Money{c.cut.cost.Int64(), currency},
		})
	}
	o.explain(&p, alone)
	return p, nil
}

// mostLonger is the most longer cuts that Longer lists.
const mostLonger = 256

// Longer lists the same purchase with its cut longer by ever more steps of the
// counter, at most so much dearer. Nothing is needed of what they have more: an order
// may be shipped for nothing from some sum on. Without a cut there are none.
func (o Offer) Longer(p Purchase, dearer Money) []Purchase {
	last := len(p.Parts) - 1
	if last < 0 || p.Parts[last].Bolt {
		return nil
	}
	var all []Purchase
	step := nearest(o.CutStep())
	for was := p; len(all) < mostLonger; {
		length := was.Parts[last].Length
		c, ok := o.bestCut(length + step)
		if !ok || !c.cost.IsInt64() {
			break
		}
		next := p
		next.Saved.Minor, next.Reason = 0, ""
		next.Parts = slices.Clone(p.Parts)
		part := &next.Parts[last]
		part.Length, part.From, part.Price, part.Cost.Minor = nearest(c.cut.length), c.cut.from, c.cut.price,
			c.cost.Int64()
		next.Bought += part.Length - p.Parts[last].Length
		next.Leftover = max(0, next.Bought-next.Used)
		next.Cost.Minor += part.Cost.Minor - p.Parts[last].Cost.Minor
		if part.Length <= length || next.Cost.Minor > p.Cost.Minor+dearer.Minor {
			break
		}
		all, was = append(all, next), next
	}
	return all
}

// explain fills in what is saved against the shortest single piece that would
// do, and why; alone is what that has to hold.
func (o Offer) explain(p *Purchase, alone float64) {
	if alone == 0 {
		return
	}
	plain, ok := o.plain(alone)
	if !ok || !plain.cost.IsInt64() || plain.cost.Int64() <= p.Cost.Minor {
		return
	}
	full := Money{plain.cost.Int64(), p.Cost.Currency}
	p.Saved.Minor = full.Minor - p.Cost.Minor
	instead := measure.FormatUp(nearest(plain.length), o.shown()) + " cut"
	if plain.cut.length == nil {
		instead = "1 bolt of " + measure.FormatUp(nearest(plain.length), o.shown())
	}
	verb := "cost"
	if len(p.Parts) == 1 && p.Parts[0].Count == 1 {
		verb = "costs"
	}
	p.Reason = fmt.Sprintf("%s %s less than %s (%s against %v)", o.InWords(*p), verb, instead, p.Cost.Amount(), full)
}

// plain is the shortest single piece for a used length: the cut asked for
// without a thought of the price, else the shortest bolt, the cheapest of those.
func (o Offer) plain(used float64) (choice, bool) {
	need := needed(used)
	if cuts := o.cuts(need); len(cuts) > 0 {
		return oneCut(cuts[0]), true
	}
	var best choice
	for i, b := range o.Sizes() {
		w := oneBolt(i, b)
		if w.length.Cmp(need) < 0 {
			continue
		}
		if best.cost == nil || cmp.Or(w.length.Cmp(best.length), w.cost.Cmp(best.cost)) < 0 {
			best = w
		}
	}
	return best, best.cost != nil
}

// InWords tells what is bought: "1 bolt of 50 yd and 2 1/2 yd cut".
func (o Offer) InWords(p Purchase) string {
	var list []string
	for _, part := range p.Parts {
		length := measure.FormatUp(part.Length, o.shown())
		switch {
		case part.Bolt && part.Count == 1:
			list = append(list, "1 bolt of "+length)
		case part.Bolt:
			list = append(list, fmt.Sprintf("%d bolts of %s", part.Count, length))
		case part.From > 0:
			list = append(list, length+" at the price from "+measure.FormatUp(part.From, o.shown()))
		default:
			list = append(list, length+" cut")
		}
	}
	return strings.Join(list, " and ")
}
