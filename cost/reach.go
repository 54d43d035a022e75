package cost

import (
	"cmp"
	"fmt"
	"slices"
)

// sums holds, for each supplier that must ship for nothing, the goods so far,
// cut off at what is asked for; 0 for the others.
type sums [mostSuppliers]int64

// state is the cheapest way to some sums after the first goods.
type state struct {
	sums  sums
	total int64 // taxed goods and shipping
	at    int   // the supplier of the last goods
	back  int   // index of the state before it
}

// reaching is one search of reach.
type reaching struct {
	*sourcing
	set, free uint
	want      sums
	rest      []int64 // least taxed cost of the goods from i on
	most      []sums  // the most that goods from i on can add to each sum
	joint     []int64 // and to all sums together
}

// reach finds the cheapest way to buy everything within a set such that the
// goods from each supplier in free come to what it ships for nothing from. It
// takes the goods one by one and keeps the ways that no other equals or betters
// in total and all sums. It leaves out those that cannot get below the best
// known even if all the rest were bought where it is cheapest, and those that
// cannot reach the sums any more.
func (s *sourcing) reach(set, free uint, shipping int64) error {
	r := s.reaching(set, free)
	n := len(s.costs)
	layers := [][]state{{{total: shipping}}}
	for i := range n {
		next := undominated(r.after(i, layers[i]))
		if s.states += len(next); s.states > mostStates {
			return fmt.Errorf("free shipping over a sum can be reached in too many ways with %d goods from %d suppliers: choose a supplier for some", n, len(s.suppliers))
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

func (s *sourcing) reaching(set, free uint) reaching {
	n := len(s.costs)
	r := reaching{sourcing: s, set: set, free: free, rest: make([]int64, n+1), most: make([]sums, n+1), joint: make([]int64, n+1)}
	for k, seller := range s.suppliers {
		if free>>k&1 == 1 {
			r.want[k] = seller.FreeFrom.Minor
		}
	}
	for i := n - 1; i >= 0; i-- {
		r.rest[i] = r.rest[i+1] + s.taxed[i][s.cheapestOf(i, set)]
		r.most[i] = r.most[i+1]
		var dearest int64
		for k, cost := range s.costs[i] {
			if free>>k&1 == 1 && cost > 0 {
				r.most[i][k] += cost
				dearest = max(dearest, cost)
			}
		}
		r.joint[i] = r.joint[i+1] + dearest
	}
	return r
}

// after lists the ways to buy thing i after the ways before it.
func (r reaching) after(i int, before []state) []state {
	var next []state
	for back, b := range before {
		for k, cost := range r.costs[i] {
			if r.set>>k&1 == 0 || cost < 0 {
				continue
			}
			st := state{b.sums, b.total + r.taxed[i][k], k, back}
			if r.free>>k&1 == 1 {
				st.sums[k] = min(st.sums[k]+cost, r.want[k])
			}
			if st.total+r.rest[i+1] < r.best && r.reachable(i+1, st.sums) {
				next = append(next, st)
			}
		}
	}
	return next
}

// reachable tells whether goods from i on can make up what sums lack.
func (r reaching) reachable(i int, have sums) bool {
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
func undominated(all []state) []state {
	slices.SortStableFunc(all, func(a, b state) int { return cmp.Compare(a.total, b.total) })
	var kept []state
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
