package cost

import (
	"cmp"
	"container/heap"
	"fmt"
	"math/big"
	"slices"

	"yardlay/shapes/measure"
)

// choice is one way to buy: so many bolts of each size and perhaps a cut.
// Without a cost it is none at all.
type choice struct {
	counts []int    // of the offer's sizes, from the first on
	cut    cut      // without a length: none
	cost   *big.Int // minor units
	length *big.Rat // mm in all
}

// beats tells whether a length bought in one piece is better than another:
// cheaper, then shorter.
func (a choice) beats(b choice) bool {
	return b.cost == nil || cmp.Or(a.cost.Cmp(b.cost), a.length.Cmp(b.length)) < 0
}

// oneCut buys one cut.
func oneCut(c cut) choice { return choice{cut: c, cost: c.cost, length: c.length} }

// oneBolt buys one bolt of the i-th size.
func oneBolt(i int, b Bolt) choice {
	counts := make([]int, i+1)
	counts[i] = 1
	return choice{counts: counts, cost: big.NewInt(b.Price.Minor), length: exact(b.Length)}
}

// longestBolt is the length of the longest bolt sold, mm; 0 where none is.
func (o Offer) longestBolt() float64 {
	longest := 0.0
	for _, b := range o.Sizes() {
		longest = max(longest, b.Length)
	}
	return longest
}

// Set is some whole bolts bought together.
type Set struct {
	Counts []int // of the offer's Sizes
	Bolts  int   // in all, at least 1
	Cost   Money
}

// Sets goes through the sets of whole bolts that an offer has, the cheapest first
// and of equally dear ones that of fewer bolts: next returns one after the other,
// and false after the last. A set has bolts of useful sizes alone, at most so many
// in all, and of no size more than there are.
func (o Offer) Sets(useful []bool, most int) (next func() (Set, bool)) {
	h := &setHeap{}
	sizes := o.Sizes()
	push := func(from Set, first int) {
		for i := first; i < len(sizes) && from.Bolts < most; i++ {
			if !useful[i] || sizes[i].InStock > 0 && from.Counts[i] >= sizes[i].InStock {
				continue
			}
			s := Set{Counts: slices.Clone(from.Counts), Bolts: from.Bolts + 1}
			s.Counts[i]++
			var err error
			if s.Cost, err = from.Cost.Add(sizes[i].Price); err == nil {
				heap.Push(h, setFrom{s, i})
			}
		}
	}
	push(Set{Counts: make([]int, len(sizes)), Cost: Money{0, o.currency()}}, 0)
	return func() (Set, bool) {
		if h.Len() == 0 {
			return Set{}, false
		}
		s := heap.Pop(h).(setFrom)
		push(s.Set, s.last)
		return s.Set, true
	}
}

// setFrom is a set with the last of its sizes: sets grow by that size or later
// ones, so that each is met once.
type setFrom struct {
	Set
	last int
}

type setHeap []setFrom

func (h setHeap) Len() int { return len(h) }
func (h setHeap) Less(a, b int) bool {
	return cmp.Or(cmp.Compare(h[a].Cost.Minor, h[b].Cost.Minor), cmp.Compare(h[a].Bolts, h[b].Bolts),
		slices.Compare(h[b].Counts, h[a].Counts)) < 0
}
func (h setHeap) Swap(a, b int) { h[a], h[b] = h[b], h[a] }
func (h *setHeap) Push(x any)   { *h = append(*h, x.(setFrom)) }
func (h *setHeap) Pop() any {
	last := (*h)[len(*h)-1]
	*h = (*h)[:len(*h)-1]
	return last
}

// Together buys a set of bolts and, when a length of more than 0 mm is to be cut
// besides, the cheapest cut that holds it. used is what is needed of all of them
// together, and alone what would be needed in one length, mm; 0 where that is not
// known.
func (o Offer) Together(s Set, cutting, used, alone float64) (Purchase, error) {
	for _, mm := range []float64{cutting, used, alone} {
		if err := o.check(mm); err != nil {
			return Purchase{}, err
		}
	}
	c := choice{counts: s.Counts, cost: big.NewInt(s.Cost.Minor), length: new(big.Rat)}
	for i, b := range o.Sizes() {
		n := new(big.Rat).SetInt64(int64(s.Counts[i]))
		c.length.Add(c.length, n.Mul(n, exact(b.Length)))
	}
	if cutting > 0 {
		best, ok := o.bestCut(cutting)
		if !ok {
			return Purchase{}, fmt.Errorf("no length is cut: %s cannot be bought besides whole bolts",
				measure.FormatUp(cutting, o.shown()))
		}
		c.cut = best.cut
		c.cost.Add(c.cost, best.cost)
		c.length.Add(c.length, best.length)
	}
	return o.purchase(used, alone, c)
}

// bestCut is the cheapest cut that holds a length of more than 0; ok when
// lengths are cut.
func (o Offer) bestCut(used float64) (best choice, ok bool) {
	for _, c := range o.cuts(needed(used)) {
		if w := oneCut(c); w.beats(best) {
			best = w
		}
	}
	return best, best.cost != nil
}

// CutCost is what the cheapest cut that holds a length costs, in minor units; ok
// when lengths are cut and it is no more money than there is. It never falls for
// more.
func (o Offer) CutCost(used float64) (minor int64, ok bool) {
	if used <= 0 {
		return 0, true
	}
	best, ok := o.bestCut(used)
	if !ok || !best.cost.IsInt64() {
		return 0, false
	}
	return best.cost.Int64(), true
}
