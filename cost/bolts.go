package cost

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"yardlay/shapes/measure"
)

// choice is one way to buy a length: so many bolts of each size and perhaps a
// cut. Without a cost it is none at all.
type choice struct {
	counts []int64  // of the offer's sizes, from the first on
	cut    cut      // without a length: none
	cost   *big.Int // minor units
	length *big.Rat // mm in all
	pieces int64    // bolts and the cut
	whole  bool     // one of the pieces holds the used length alone
}

// beats tells whether a way is better than another: cheaper, then with a piece
// as long as what is used, then shorter, then in fewer pieces.
func (a choice) beats(b choice) bool {
	if b.cost == nil {
		return true
	}
	return cmp.Or(a.cost.Cmp(b.cost), -compareBool(a.whole, b.whole), a.length.Cmp(b.length), cmp.Compare(a.pieces, b.pieces)) < 0
}

// compareBool puts true above false.
func compareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}

// oneCut buys one cut.
func oneCut(c cut) choice {
	return choice{cut: c, cost: c.cost, length: c.length, pieces: 1, whole: true}
}

// oneBolt buys one bolt of the i-th size.
func oneBolt(i int, b Bolt) choice {
	counts := make([]int64, i+1)
	counts[i] = 1
	return choice{counts: counts, cost: big.NewInt(b.Price.Minor), length: exact(b.Length), pieces: 1, whole: true}
}

// longestBolt is the length of the longest bolt sold, mm; 0 where none is.
func (o Offer) longestBolt() float64 {
	longest := 0.0
	for _, b := range o.sizes() {
		longest = max(longest, b.Length)
	}
	return longest
}

// mostWays is the most combinations looked at for one purchase, far more than
// eight sizes of real bolts make; past it Buy refuses and does not guess.
const mostWays = 10_000

// search looks for the cheapest combination: depth first over the sizes, the
// best value for length first and most of the better value first, so that the
// first ways found are good; a way is given up when what is still needed, at the best
// value left, would cost more than the best way known.
type search struct {
	o      *Offer
	need   *big.Rat   // mm
	order  []int      // indices of sizes, by price per length
	sizes  []Bolt     // as o.sizes()
	length []*big.Rat // of each size
	value  []*big.Rat // least price per mm of the sizes from order[i] on and of cuts; nil: nothing
	// cutBest says of a size that the counter's lowest price is better value:
	// fewest of it are tried first.
	cutBest []bool
	counts  []int64
	best    choice
	ways    int
}

// cheapest finds the best way to buy a used length of more than 0.
func (o *Offer) cheapest(used float64) (choice, error) {
	s := search{o: o, need: needed(used), sizes: o.sizes()}
	s.counts = make([]int64, len(s.sizes))
	for i, b := range s.sizes {
		s.order, s.length = append(s.order, i), append(s.length, exact(b.Length))
	}
	each := func(i int) *big.Rat {
		return new(big.Rat).Quo(new(big.Rat).SetInt64(s.sizes[i].Price.Minor), s.length[i])
	}
	slices.SortStableFunc(s.order, func(a, b int) int {
		return cmp.Or(each(a).Cmp(each(b)), -s.length[a].Cmp(s.length[b]))
	})
	s.value = make([]*big.Rat, len(s.order)+1)
	if o.byLength() {
		low := o.Price
		if n := len(o.Breaks); n > 0 {
			low = o.Breaks[n-1].Price
		}
		s.value[len(s.order)] = new(big.Rat).Quo(new(big.Rat).SetInt64(low.Minor), o.Per.Exact())
	}
	s.cutBest = make([]bool, len(s.order))
	for k := len(s.order) - 1; k >= 0; k-- {
		s.value[k] = each(s.order[k])
		if after := s.value[k+1]; after != nil && after.Cmp(s.value[k]) < 0 {
			s.value[k], s.cutBest[k] = after, true
		}
	}
	s.from(0, s.need, new(big.Int), 0)
	if s.ways > mostWays {
		return choice{}, fmt.Errorf("bolts of %d sizes can be put together in too many ways for %s: leave out the shortest",
			len(s.sizes), measure.FormatUp(used, o.shown()))
	}
	return s.best, nil
}

// from tries all counts of the sizes order[k:], when rest is still needed and
// so much is spent on so many pieces. It tells whether that was hopeless from
// the start.
func (s *search) from(k int, rest *big.Rat, spent *big.Int, pieces int64) (hopeless bool) {
	if rest.Sign() <= 0 {
		s.offer(choice{length: new(big.Rat).Sub(s.need, rest), cost: spent, pieces: pieces})
		return false
	}
	if s.hopeless(k, rest, spent) {
		return true
	}
	if s.ways++; s.ways > mostWays {
		return false
	}
	if k == len(s.order) {
		for _, c := range s.o.cuts(rest) {
			length := new(big.Rat).Sub(s.need, rest)
			s.offer(choice{cut: c, length: length.Add(length, c.length), cost: new(big.Int).Add(spent, c.cost), pieces: pieces + 1})
		}
		return false
	}
	i := s.order[k]
	most := stepsUp(rest, s.length[i]).Int64()
	for step := int64(0); step <= most && s.ways <= mostWays; step++ {
		n := step
		if !s.cutBest[k] {
			n = most - step
		}
		s.counts[i] = n
		length := new(big.Rat).Mul(new(big.Rat).SetInt64(n), s.length[i])
		price := new(big.Int).Mul(big.NewInt(n), big.NewInt(s.sizes[i].Price.Minor))
		if s.from(k+1, new(big.Rat).Sub(rest, length), price.Add(price, spent), pieces+n) {
			break // each step from here takes more of what costs more
		}
	}
	s.counts[i] = 0
	return false
}

// hopeless says that no way from here can be as cheap as the best known. A cut
// may be rounded down by half a minor unit.
func (s *search) hopeless(k int, rest *big.Rat, spent *big.Int) bool {
	switch {
	case s.value[k] == nil:
		return true // nothing left to buy
	case s.best.cost == nil:
		return false
	}
	least := new(big.Rat).Mul(rest, s.value[k])
	least.Add(least, new(big.Rat).SetInt(spent)).Sub(least, big.NewRat(1, 2))
	return least.Cmp(new(big.Rat).SetInt(s.best.cost)) > 0
}

// offer keeps a complete way if it is the best so far.
func (s *search) offer(c choice) {
	c.whole = c.cut.length != nil && c.cut.length.Cmp(s.need) >= 0
	for i, n := range s.counts {
		c.whole = c.whole || n > 0 && s.length[i].Cmp(s.need) >= 0
	}
	if c.beats(s.best) {
		c.counts = slices.Clone(s.counts)
		s.best = c
	}
}
