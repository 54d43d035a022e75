package shelf

import (
	"cmp"
	"context"
	"math"
	"slices"
	"sync"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// waysFew is the most ways to take some of the copies, up to which all ways to
// share them out are tried: five pieces, each of them different.
const waysFew = 32

// sharings returns plans that may put something on the strips.
func (f *Filler) sharings(ctx context.Context) []Plan {
	plan, ways := f.everyWay, 1
	for _, n := range f.all {
		if ways *= n + 1; ways > waysFew {
			plan = f.byRules
			break
		}
	}
	var plans []Plan
	for _, settled := range f.starts() {
		plans = append(plans, plan(ctx, settled)...)
	}
	for _, p := range plans {
		if q, ok := f.largestFirst(ctx, p); ok {
			plans = append(plans, q)
		}
	}
	return plans
}

// Cheapest returns the plan that may put something on the strips for which the least
// is bought; false when there is none.
func (f *Filler) Cheapest(ctx context.Context) (Plan, bool) {
	plans := f.sharings(ctx)
	slices.SortStableFunc(plans, func(p, q Plan) int {
		return cmp.Or(cmp.Compare(p.bought, q.bought), cmp.Compare(p.rest.area(f.bundles), q.rest.area(f.bundles)))
	})
	if len(plans) == 0 {
		return Plan{}, false
	}
	return plans[0], true
}

// plans returns plans that put something on the shelf, the best first.
func (f *Filler) plans(ctx context.Context) []Plan {
	plans := f.sharings(ctx)
	plans = slices.DeleteFunc(plans, func(p Plan) bool { return p.strips() == 0 || math.IsInf(p.bought, 1) })
	slices.SortStableFunc(plans, Plan.better)
	plans = slices.CompactFunc(plans, func(p, q Plan) bool { return slices.Equal(p.rest, q.rest) })
	if len(plans) > 0 {
		plans[0] = f.Prune(ctx, plans[0])
	}
	return plans
}

// Prune gives back the strips without which no more is bought, the smallest
// first.
func (f *Filler) Prune(ctx context.Context, p Plan) Plan {
	for _, i := range f.byRoom(func(i int) float64 { return -f.room(i) }) {
		if !p.Uses(i) || p.strips() == 1 {
			continue
		}
		without := p.with(i, packing{})
		without.rest = p.rest.plus(p.on[i].counts, 1)
		if without = f.layRest(ctx, without); without.bought <= p.bought {
			p = without
		}
	}
	return p
}

// rule is one way to fill the shelf: which strip first, and which copies first.
type rule struct {
	bigStripFirst bool
	worth         func(f *Filler, strip, bundle int) float64 // the most worth first
	snug          bool                                       // takes what covers the most of the strip
}

// rules fill the shelf: what is big is hard to place later, what fills a strip
// well leaves little waste, and what is small finds room where nothing else does.
var rules = []rule{
	{worth: bigFirst},
	{bigStripFirst: true, worth: fillFirst},
	{bigStripFirst: true, worth: bigFirst},
	{worth: smallFirst},
	{worth: bigFirst, snug: true},
}

func bigFirst(f *Filler, _, b int) float64   { return f.bundles[b].area }
func smallFirst(f *Filler, _, b int) float64 { return -f.bundles[b].area }

// fillFirst is the share of the strip that boxes round the copies of bundles of one
// entry cover, each kind in rows by itself.
func fillFirst(f *Filler, strip, b int) float64 {
	bundle := f.bundles[b]
	most := float64(len(bundle.each))
	for _, k := range f.held(bundle) {
		most = min(most, f.inRows(strip, k)/float64(bundle.of[k]))
	}
	return most * bundle.area
}

// inRows counts the copies of a kind that a strip holds in rows, in the best turn.
func (f *Filler) inRows(strip, kind int) float64 {
	s, piece := f.strips[strip].Strip, f.whole.Pieces[f.kinds[kind].piece]
	turns := piece.Turns
	if len(turns) == 0 {
		turns = []float64{0}
	}
	most := 0.0
	for _, t := range turns {
		box := plane.Bounds(plane.Pose{Turn: t}.Apply(piece.Outline))
		most = max(most, math.Floor(s.MaxLength/(box.Max[0]-box.Min[0]))*math.Floor(s.Width/(box.Max[1]-box.Min[1])))
	}
	return most
}

// byRules makes a plan by each rule, as many at a time as there are workers.
func (f *Filler) byRules(ctx context.Context, settled phases) []Plan {
	plans := make([]Plan, len(rules))
	free := make(chan struct{}, f.o.Workers)
	var all sync.WaitGroup
	for i, r := range rules {
		if len(f.strips) == 1 && i > 0 && slices.ContainsFunc(rules[:i], func(q rule) bool {
			return f.sameOrder(q, r)
		}) {
			continue
		}
		free <- struct{}{}
		all.Go(func() {
			defer func() { <-free }()
			plans[i] = f.byRule(ctx, r, settled)
		})
	}
	all.Wait()
	return slices.DeleteFunc(plans, func(p Plan) bool { return p.on == nil })
}

// sameOrder says whether two rules take the copies alike on a shelf of one strip.
func (f *Filler) sameOrder(q, r rule) bool {
	return q.snug == r.snug && slices.Equal(f.order(0, q), f.order(0, r))
}

// order lists the bundles that fit on a strip, the most worth by the rule first.
func (f *Filler) order(strip int, r rule) []int {
	var order []int
	for b := range f.bundles {
		if f.fits[strip][b] {
			order = append(order, b)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(r.worth(f, strip, b), r.worth(f, strip, a)) })
	return order
}

func (f *Filler) byRule(ctx context.Context, r rule, settled phases) Plan {
	p := Plan{on: make([]packing, len(f.strips)), rest: f.all, phases: settled}
	sign := -1.0
	if r.bigStripFirst {
		sign = 1
	}
	for _, i := range f.byRoom(func(i int) float64 { return sign * f.room(i) }) {
		on := f.fill(ctx, i, p, f.order(i, r), r)
		if len(on.places) > 0 {
			p = p.with(i, on)
			p.rest = p.rest.plus(on.counts, -1)
		}
	}
	return f.layRest(ctx, p)
}

// layRest finds out by a trial what is bought for the rest of a plan.
func (f *Filler) layRest(ctx context.Context, p Plan) Plan {
	r := f.rest(ctx, p.rest, p.phases)
	p.used, p.bought, p.phases = r.used, f.bought(r.used), p.phases.and(r.phases)
	return p
}

// trials is how often a strip is filled anew by one rule.
const trials = 3

// fill lays as much as it can of a plan's rest on a strip: first as many copies as its area could
// hold, then as many as lie on it as densely as those did, then what was kept with
// more of them.
func (f *Filler) fill(ctx context.Context, strip int, plan Plan, order []int, r rule) packing {
	left, none := plan.rest, make(counts, len(f.bundles))
	best, bestArea := packing{counts: none}, 0.0
	take := f.take
	if r.snug {
		take = f.snug
	}
	c := take(none, left, order, f.room(strip))
	for n := range trials {
		if c.total() == 0 || ctx.Err() != nil {
			break
		}
		p := f.pack(ctx, strip, c, plan.phases, nest.Trial, false)
		if area := p.counts.area(f.bundles); area > bestArea {
			best, bestArea = p, area
		}
		dense := min(1, c.area(f.bundles)/(p.length*f.strips[strip].Strip.Width)) * f.room(strip)
		next := take(none, left, order, dense)
		if n > 0 || slices.Equal(next, c) || !(dense < f.room(strip)) {
			next = take(best.counts, left, order, dense)
		}
		if slices.Equal(next, best.counts) {
			next = f.addSmallest(best.counts, left, order, f.room(strip))
		}
		if slices.Equal(next, c) {
			break
		}
		c = next
	}
	return best
}

// take adds bundles in the order given, as long as their area fits in room. Of a
// pair the drawn and the mirrored one go together, so that what is left folds.
func (f *Filler) take(have, left counts, order []int, room float64) counts {
	c := slices.Clone(have)
	area := c.area(f.bundles)
	for i := 0; i < len(order); i++ {
		alike := order[i : i+1]
		if i+1 < len(order) && f.ofOnePiece(order[i], order[i+1]) {
			alike = order[i : i+2]
			i++
		}
		for more := true; more; {
			more = false
			for _, k := range alike {
				if left[k] > c[k] && area+f.bundles[k].area <= room {
					c[k]++
					area += f.bundles[k].area
					more = true
				}
			}
		}
	}
	return c
}

// snugSums is how many sums of areas are told apart.
const snugSums = 2048

// snug adds those of the bundles that together cover the most of room: of sums that
// differ by less than a part in snugSums the first is kept.
func (f *Filler) snug(have, left counts, order []int, room float64) counts {
	type sum struct {
		counts
		area float64
	}
	sums := make([]*sum, snugSums+1)
	first := &sum{have, have.area(f.bundles)}
	if first.area > room {
		return have
	}
	at := func(area float64) int { return int(area / room * snugSums) }
	sums[at(first.area)] = first
	best := first
	for _, b := range order {
		for from := snugSums; from >= 0; from-- { // from above, so that sums grow by this bundle once
			s := sums[from]
			for n := 1; s != nil && s.counts[b]+n <= left[b]; n++ {
				area := s.area + float64(n)*f.bundles[b].area
				if area > room*(1+1e-9) {
					break
				}
				if to := min(at(area), snugSums); sums[to] == nil {
					next := &sum{slices.Clone(s.counts), area}
					next.counts[b] += n
					if sums[to] = next; area > best.area {
						best = next
					}
				}
			}
		}
	}
	return best.counts
}

// ofOnePiece says whether bundles are single copies of one piece.
func (f *Filler) ofOnePiece(a, b int) bool {
	i, one := f.bundles[a].single()
	k, other := f.bundles[b].single()
	return one && other && f.kinds[i].piece == f.kinds[k].piece
}

// addSmallest adds one of the smallest bundles that are left.
func (f *Filler) addSmallest(have, left counts, order []int, room float64) counts {
	c, least := slices.Clone(have), -1
	for _, k := range order {
		if left[k] > c[k] && (least < 0 || f.bundles[k].area < f.bundles[least].area) {
			least = k
		}
	}
	if least >= 0 && c.area(f.bundles)+f.bundles[least].area <= room {
		c[least]++
	}
	return c
}
