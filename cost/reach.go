package cost

import (
	"cmp"
	"math/bits"
	"slices"

	"yardlay/shapes/say"
)

// sums holds, for each supplier that must ship for nothing, the goods so far,
// cut off at what is asked for; 0 for the others.
type sums [mostSuppliers]int64

// state is the cheapest way to some sums after the first goods.
type state struct {
	sums  sums
	total int64 // taxed goods and shipping
	at    int   // the option taken of the last goods
	back  int   // index of the state before it
}

// reaching is one search of reach.
type reaching struct {
	*sourcing
	set, free uint
	want      sums
	worth     sums    // what a minor unit towards each sum is worth, in 1/worthUnit
	rest      []int64 // least taxed cost less worth of the goods from i on, in 1/worthUnit
	most      []sums  // the most that goods from i on can add to each sum
	joint     []int64 // and to all sums together
	from      []int   // the option that price takes of each of the goods
}

// reach finds the cheapest way to buy everything within a set such that the
// goods from each supplier in free come to what it ships for nothing from. It
// takes the goods one by one and keeps the ways that no other equals or betters
// in total and all sums. It leaves out those that cannot reach the sums any
// more, and those that cannot get below the best known: with any worth given
// to the sums, what is still lacking costs at least its worth and the least
// that the rest can cost less what it is worth (Lagrange's bound).
func (s *sourcing) reach(set, free uint, shipping int64) error {
	n := len(s.options)
	if s.weighed += n; s.brief && s.weighed > mostWeighed {
		s.missed = true
		return nil
	}
	r := s.reaching(set, free)
	start := state{total: shipping}
	if !r.reachable(0, start.sums) {
		return nil
	}
	r.weigh(start)
	if s.missed {
		return nil
	}
	layers := [][]state{{start}}
	for i := range n {
		next := r.undominated(r.after(i, layers[i]))
		if s.states += len(next); s.brief && s.states > mostBrief {
			s.missed = true
			return nil
		} else if s.states > mostStates {
			return say.Errorf("%w with %d goods from %d suppliers: choose a supplier for some", ErrTooManyWays, n,
				len(s.suppliers))
		}
		layers = append(layers, next)
	}
	last := slices.IndexFunc(layers[n], func(st state) bool { return st.sums == r.want })
	if last < 0 {
		return nil
	}
	total, from := layers[n][last].total, make([]int, n)
	for i := n; i > 0; i-- {
		st := layers[i][last]
		from[i-1], last = st.at, st.back
	}
	s.keep(total, from)
	return nil
}

func (s *sourcing) reaching(set, free uint) *reaching {
	n := len(s.options)
	r := &reaching{sourcing: s, set: set, free: free, rest: make([]int64, n+1), most: make([]sums, n+1),
		joint: make([]int64, n+1), from: make([]int, n)}
	for k, seller := range s.suppliers {
		if free>>k&1 == 1 {
			r.want[k] = seller.FreeFrom.Minor
		}
	}
	for i := n - 1; i >= 0; i-- {
		r.most[i] = r.most[i+1]
		var dearest int64
		var most sums
		for _, o := range s.options[i] {
			if free>>o.supplier&1 == 1 {
				most[o.supplier] = max(most[o.supplier], o.cost)
				dearest = max(dearest, o.cost)
			}
		}
		for k := range most {
			r.most[i][k] += most[k]
		}
		r.joint[i] = r.joint[i+1] + dearest
	}
	return r
}

// worthUnit divides what a sum is worth; four times the money is the most it is
// taken to be worth, so that newSourcing's limit keeps all products in an int64.
const worthUnit, mostWorth = 1024, 4 * 1024

// weigh looks for the worths that bound the start best, by a hundred steps
// towards what is lacking, each shorter than the last. Any worths give a bound;
// these are the best seen.
func (r *reaching) weigh(start state) {
	best, bound, worth := sums{}, r.price(sums{}, start, nil), sums{}
	for step := int64(1); step <= 100; step++ {
		var bought sums
		r.price(worth, start, &bought)
		r.consider()
		for k, want := range r.want {
			if want > 0 {
				// The whole of a sum lacking moves its worth by worthUnit / 4, at first.
				worth[k] = min(max(0, worth[k]+(want-bought[k])/max(1, want*step*4/worthUnit)), mostWorth)
			}
		}
		if b := r.price(worth, start, nil); b > bound {
			best, bound = worth, b
		}
	}
	r.price(best, start, nil)
}

// price fills in rest for some worths and returns the bound they give a state
// before all goods, in 1/worthUnit; bought, if any, gets what is bought then.
func (r *reaching) price(worth sums, start state, bought *sums) int64 {
	for i := len(r.options) - 1; i >= 0; i-- {
		least, at := int64(0), -1
		for k, o := range r.options[i] {
			if r.set>>o.supplier&1 == 0 {
				continue
			}
			if c := o.taxed*worthUnit - worth[o.supplier]*o.cost; at < 0 || c < least {
				least, at = c, k
			}
		}
		r.rest[i] = r.rest[i+1] + least
		if r.from[i] = at; bought != nil {
			bought[r.options[i][at].supplier] += r.options[i][at].cost
		}
	}
	r.worth = worth
	return r.bound(0, start)
}

// consider keeps the way that price bought if it is the cheapest known, with the
// shipping that really is to pay.
func (r *reaching) consider() {
	var total int64
	var bought, ordered sums
	for i, at := range r.from {
		o := r.options[i][at]
		total += o.taxed
		bought[o.supplier] += o.cost
		ordered[o.supplier] = 1
	}
	for k, seller := range r.suppliers {
		if !seller.free(bought[k]) {
			total += seller.Shipping.Minor * ordered[k]
		}
	}
	if total < r.best {
		r.keep(total, r.from)
	}
}

// bound is what a way costs at least when the goods from i on are still to be
// bought, in 1/worthUnit.
func (r *reaching) bound(i int, st state) int64 {
	least := st.total*worthUnit + r.rest[i]
	for k, want := range r.want {
		least += r.worth[k] * (want - st.sums[k])
	}
	return least
}

func (r *reaching) hopeless(i int, st state) bool { return r.bound(i, st) >= r.best*worthUnit }

// after lists the ways to buy thing i after the ways before it.
func (r *reaching) after(i int, before []state) []state {
	var next []state
	for back, b := range before {
		for k, o := range r.options[i] {
			if r.set>>o.supplier&1 == 0 {
				continue
			}
			st := state{b.sums, b.total + o.taxed, k, back}
			if at := o.supplier; r.free>>at&1 == 1 {
				st.sums[at] = min(st.sums[at]+o.cost, r.want[at])
			}
			if r.reachable(i+1, st.sums) && !r.hopeless(i+1, st) {
				next = append(next, st)
			}
		}
	}
	return next
}

// reachable tells whether goods from i on can make up what sums lack.
func (r *reaching) reachable(i int, have sums) bool {
	var all int64
	for k, want := range r.want {
		lack := want - have[k]
		if lack > r.most[i][k] {
			return false
		}
		all += lack
	}
	return all <= r.joint[i]
}

// undominated leaves out states that another equals or betters in the total and
// every sum.
func (r *reaching) undominated(all []state) []state {
	slices.SortStableFunc(all, func(a, b state) int { return cmp.Compare(a.total, b.total) })
	var kept []state
	if bits.OnesCount(r.free) == 1 { // one sum: the largest so far tells
		k, most := bits.TrailingZeros(r.free), int64(-1)
		for _, st := range all {
			if st.sums[k] > most {
				kept, most = append(kept, st), st.sums[k]
			}
		}
		return kept
	}
	for _, st := range all {
		if !slices.ContainsFunc(kept, func(k state) bool { return k.sums.cover(st.sums) }) {
			kept = append(kept, st)
		}
	}
	return kept
}

// cover tells whether every sum is at least another's.
func (a sums) cover(b sums) bool {
	for k := range a {
		if a[k] < b[k] {
			return false
		}
	}
	return true
}
