package cost

import (
	"errors"
	"math"
	"math/bits"
	"slices"

	"yardlay/shapes/say"
)

// sourcing searches the cheapest orders. All amounts are minor units.
//
// For a set of suppliers that are ordered from, some of which are counted on to
// ship for nothing, each thing goes to the cheapest of the set: what that costs
// with the shipping of the others is the least the set can cost. If the sums
// for free shipping are reached, that is the answer for the set; if not, and it
// is still below the best known, sums of goods are tracked (see reach).
type sourcing struct {
	suppliers  []Supplier
	options    [][]option // for each of the goods
	best       int64      // the least total known
	bestChoice []int
	states     int
	weighed    int // goods, over all sums that are looked for
	// brief searches on where that is too much, with the best known; missed says that there may be better.
	brief, missed bool
}

// option is one way to buy a thing.
type option struct {
	supplier, choice int
	cost, taxed      int64 // before tax and with it
}

// mostStates is the most sums of goods tracked over one search; past it
// Cheapest refuses and does not guess.
const mostStates = 50_000

// A brief search tracks so many sums, and looks for ways to further ones until it has weighed so many goods.
const mostBrief, mostWeighed = 500, 20_000

// ErrTooManyWays is the error of goods and suppliers of which the cheapest orders
// cannot be told in reasonable time.
var ErrTooManyWays = errors.New("free shipping over a sum can be reached in too many ways")

// mostMoney is the most that goods and shipping may come to, minor units, and
// leaves room for products with worths (see weigh) and their sums.
const mostMoney = math.MaxInt64 / (8 * mostWorth)

func newSourcing(suppliers []Supplier, goods []Goods) (*sourcing, error) {
	s := &sourcing{suppliers: suppliers, best: math.MaxInt64, bestChoice: make([]int, len(goods))}
	var most int64
	for _, g := range goods {
		var options []option
		var dearest int64
		for i, c := range g.Choices {
			_, sum, err := suppliers[c.Supplier].taxed(c.Cost)
			if err != nil {
				return nil, say.Errorf("%s: %w", g.Name, err)
			}
			options = append(options, option{c.Supplier, i, c.Cost.Minor, sum.Minor})
			dearest = max(dearest, sum.Minor)
		}
		s.options = append(s.options, options)
		if most > mostMoney-dearest {
			return nil, say.Errorf("all goods together: %w", ErrTooMuch)
		}
		most += dearest
	}
	for _, seller := range suppliers {
		if most > mostMoney-seller.Shipping.Minor {
			return nil, say.Errorf("goods and shipping together: %w", ErrTooMuch)
		}
		most += seller.Shipping.Minor
	}
	return s, nil
}

// run looks at all sets of suppliers, fewer before more, and for each at all
// ways of counting on free shipping.
func (s *sourcing) run() error {
	if len(s.options) == 0 {
		s.best = 0
		return nil
	}
	sets := make([]uint, 0, 1<<len(s.suppliers))
	for set := uint(1); set < 1<<len(s.suppliers); set++ {
		sets = append(sets, set)
	}
	slices.SortStableFunc(sets, func(a, b uint) int { return bits.OnesCount(a) - bits.OnesCount(b) })
	for _, set := range sets {
		mayBeFree := uint(0)
		for i, seller := range s.suppliers {
			if set>>i&1 == 1 && seller.Shipping.Minor > 0 && seller.FreeFrom != (Money{}) {
				mayBeFree |= 1 << i
			}
		}
		// All subsets of mayBeFree, the empty one first.
		for free := uint(0); ; free = (free - mayBeFree) & mayBeFree {
			if err := s.try(set, free); err != nil {
				return err
			}
			if free == mayBeFree {
				break
			}
		}
	}
	return nil
}

// try prices one set of suppliers, with those that must ship for nothing.
func (s *sourcing) try(set, free uint) error {
	total, from := int64(0), make([]int, len(s.options))
	for i, seller := range s.suppliers {
		if (set&^free)>>i&1 == 1 {
			total += seller.Shipping.Minor
		}
	}
	shipping := total
	sums := make([]int64, len(s.suppliers))
	for i, options := range s.options {
		at := s.cheapestOf(i, set)
		if at < 0 {
			return nil // nobody in the set sells it
		}
		from[i] = at
		total += options[at].taxed
		sums[options[at].supplier] += options[at].cost
	}
	if total >= s.best {
		return nil
	}
	for i, seller := range s.suppliers {
		if free>>i&1 == 1 && sums[i] < seller.FreeFrom.Minor {
			return s.reach(set, free, shipping)
		}
	}
	s.keep(total, from)
	return nil
}

// cheapestOf gives the option of a thing that costs least at a set of suppliers; -1:
// none.
func (s *sourcing) cheapestOf(i int, set uint) int {
	at := -1
	for k, o := range s.options[i] {
		if set>>o.supplier&1 == 1 && (at < 0 || o.taxed < s.options[i][at].taxed) {
			at = k
		}
	}
	return at
}

func (s *sourcing) keep(total int64, from []int) {
	s.best = total
	for i, at := range from {
		s.bestChoice[i] = s.options[i][at].choice
	}
}
