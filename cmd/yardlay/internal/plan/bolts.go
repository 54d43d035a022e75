package plan

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// Most lengths of a purchase: more markers than anybody cuts for a gown.
const mostLengths = 32

// mostSets is the most sets of bolts that are looked at for one purchase.
const mostSets = 2000

// tried says how many sets are laid at the most, and how many of those that a trial
// does not fill, or with a length cut besides, at the asked effort.
var tried = map[nest.Effort]struct{ sets, finals int }{
	nest.Trial: {2, 1}, nest.Quick: {4, 2}, nest.Normal: {12, 3}, nest.Thorough: {48, 6}, nest.Endless: {96, 12},
}

// squeezing is how hard it is tried to lay on bolts what a trial left over: several
// sets are, so that each gets the work of the next lower effort.
var squeezing = map[nest.Effort]nest.Effort{
	nest.Trial: nest.Trial, nest.Quick: nest.Trial, nest.Normal: nest.Quick, nest.Thorough: nest.Normal,
	nest.Endless: nest.Thorough,
}

// buyer looks for the cheapest lengths that hold the pieces of a task.
type buyer struct {
	t      Task
	o      Options
	offer  cost.Offer
	strips []nest.Strip // of each size
	useful []bool       // some piece fits on it
	floor  *shelf.Floor
	memory *shelf.Memory
	keep   shelf.Keeping
	split  string // the parts that are kept together less than lots ask for, since nothing sold holds them
	stuck  string // those that are not, since they ask for it
	best   *Laid
	alone  float64 // mm, needed in one length; 0 when that was not laid
}

// InLengths says whether a cloth comes in more lengths than the counter cuts.
func (t Task) InLengths() bool { return len(t.Spread.Cloth.Offer.Sizes()) > 0 }

// layBought lays a task on bought cloth alone: in one length or, where whole bolts
// are sold, in those lengths that cost least.
func (t Task) layBought(ctx context.Context, o Options, start *Start) (Laid, error) {
	if !t.InLengths() {
		return t.layShared(ctx, o, start)
	}
	o.Better = nil
	b, err := t.newBuyer(ctx, o)
	if err != nil {
		return Laid{}, err
	}
	inOne, done := within(ctx, 1./2)
	err = b.inOne(inOne, start)
	done()
	if err != nil {
		return Laid{}, err
	}
	if b.best == nil {
		if err := b.inBolts(ctx); err != nil {
			return Laid{}, err
		}
	}
	least, err := b.inSeveral(ctx)
	if err != nil {
		return Laid{}, err
	}
	if b.best == nil {
		return Laid{}, b.refuse()
	}
	l := *b.best
	known := Lengths{}
	if l.Lengths != nil {
		known = *l.Lengths
	}
	known.LeastCost, known.Bound = cost.Money{Minor: min(least, l.Buy.Cost.Minor),
		Currency: l.Buy.Cost.Currency}, b.floor.Full
	known.LeastFor = known.LeastCost
	if l.Several() {
		known.Split = b.split
	}
	if known.Ended = nest.Finished; ctx.Err() != nil {
		known.Ended = nest.Stopped
		if errors.Is(ctx.Err(), context.DeadlineExceeded) {
			known.Ended = nest.OutOfTime
		}
	}
	l.Lengths = &known
	if l.Several() {
		_, used := l.Taken()
		l.LeastBuy = b.t.LeastNeeded(used)
		l.LeastFor = l.LeastBuy
	}
	return l, nil
}

func (t Task) newBuyer(ctx context.Context, o Options) (*buyer, error) {
	b := &buyer{t: t, o: o, offer: t.Spread.Cloth.Offer}
	var strips []shelf.Length
	room := []float64{}
	for _, bolt := range b.offer.Sizes() {
		strip := t.boltStrip(bolt)
		b.strips, room = append(b.strips, strip), append(room, strip.MaxLength)
		if strip.MaxLength > 0 {
			strips = append(strips, shelf.Length{Name: "bolt", Strip: strip})
		}
	}
	f, err := b.keepTogether(ctx, strips)
	if err != nil {
		return nil, err
	}
	b.useful = make([]bool, len(b.strips))
	n := 0
	for i, strip := range b.strips {
		if strip.MaxLength > 0 {
			b.useful[i] = f.TakesAny(n)
			n++
		}
	}
	b.floor = shelf.NewFloor(ctx, f, room, o.Effort)
	return b, nil
}

// boltStrip is a whole bolt as it can be laid on: ends, skew, washing and spare
// taken off; its MaxLength is not above 0 where that leaves nothing. Which length
// has the flaws of a cloth is not known, so each is taken to have them.
func (t Task) boltStrip(bolt cost.Bolt) nest.Strip {
	s := t.Spread
	strip := s.strip(s.Cloth.Width, s.Cloth.Flaws)
	strip.MaxLength = plane.Floor(min(LossOf(s.Cloth).laid(bolt.Length+measure.Guard)-2*s.Cloth.Ends, nest.Reach))
	return strip
}

// filler shares the pieces out over some lengths; what the rest of them costs at
// the counter is weighed.
func (b *buyer) filler(strips []shelf.Length) (*shelf.Filler, error) {
	return shelf.NewFiller(b.t.Problem, strips, shelf.Options{
		Effort: squeezing[b.o.Effort], Seed: b.o.Seed, Workers: b.o.Workers, Progress: b.t.search(b.o).Progress,
		Memory: b.memory, Keep: b.keep,
		Bought: func(needed float64) float64 {
			if minor, ok := b.offer.CutCost(needed); ok {
				return float64(minor)
			}
			return math.Inf(1)
		},
		Fresh: func(ctx context.Context, s shelf.Share, so nest.Options) (float64, map[int]orb.Point, error) {
			if !b.offer.ByLength() {
				return 0, nil, cost.ErrTooShort
			}
			l, err := b.rest(ctx, s.Problem, so.Effort)
			return l.Needed, l.phases(), err
		},
	})
}

// rest lays what is cut from the counter's length, as the cloth lies.
func (b *buyer) rest(ctx context.Context, p nest.Problem, effort nest.Effort) (Laid, error) {
	t, err := b.t.of(p)
	if err != nil {
		return Laid{}, err
	}
	o := b.o
	o.Effort, o.Steady = effort, true
	l, err := t.layShared(ctx, o, nil)
	if errors.Is(err, cost.ErrTooShort) { // it is bought with the bolts
		err = nil
	}
	return l, err
}

// inOne lays everything in one length, where something sold may hold that.
func (b *buyer) inOne(ctx context.Context, start *Start) error {
	if _, err := b.t.buy(b.t.LeastNeeded(b.floor.Full.Length)); errors.Is(err, cost.ErrTooShort) {
		return nil
	}
	l, err := b.t.layShared(ctx, b.o, start)
	switch {
	case errors.Is(err, cost.ErrTooShort):
	case err != nil:
		return err
	default:
		b.best = &l
	}
	b.alone = l.Needed
	return nil
}

// LeastNeeded is the least cloth that a marker of some length takes, mm, however
// it lies.
func (t Task) LeastNeeded(marker float64) float64 {
	if marker <= 0 {
		return 0
	}
	return LossOf(t.Spread.Cloth).Needed(marker + 2*t.Spread.Cloth.Ends)
}

// leastCost is what lengths cost at the least, minor units, that hold pieces of which a
// marker in one length takes so much, mm: markers laid end to end with the gap between
// them would be one.
func (t Task) leastCost(marker float64) int64 {
	offer := t.Spread.Cloth.Offer
	least := int64(math.MaxInt64)
	if p, err := t.buy(t.LeastNeeded(marker)); err == nil {
		least = p.Cost.Minor
	}
	sizes := offer.Sizes()
	useful := make([]bool, len(sizes))
	for i := range useful {
		useful[i] = true
	}
	next := offer.Sets(useful, mostLengths)
	for n := 0; n < mostSets; n++ {
		s, ok := next()
		if !ok || s.Cost.Minor >= least {
			return least
		}
		left := marker
		for i, count := range s.Counts {
			if room := t.boltStrip(sizes[i]).MaxLength; room > 0 {
				left -= float64(count) * (room + t.Problem.Gap)
			}
		}
		if minor, ok := offer.CutCost(t.LeastNeeded(left)); ok {
			least = min(least, s.Cost.Minor+minor)
		}
	}
	return 0
}

// candidate is a set of bolts that may hold the pieces for less than the best
// purchase, with what it costs at the least, in minor units.
type candidate struct {
	cost.Set
	least int64
}

// inSeveral tries the sets of bolts that might be cheaper, the cheapest first, and
// returns what any purchase costs at the least, minor units. A set that cannot
// hold the pieces, or not for less, by the floor, is not laid.
func (b *buyer) inSeveral(ctx context.Context) (least int64, err error) {
	all, least := b.candidates()
	slices.SortStableFunc(all, func(p, q candidate) int {
		return cmp.Or(cmp.Compare(p.least, q.least), cmp.Compare(p.Bolts, q.Bolts))
	})
	left := tried[b.o.Effort]
	for _, c := range all {
		if b.best != nil && c.least >= b.best.Buy.Cost.Minor {
			break
		}
		if left.sets == 0 || ctx.Err() != nil {
			least = min(least, c.least)
			break
		}
		left.sets--
		if err := b.try(ctx, c.Set, &left.finals); err != nil {
			return 0, err
		}
		if b.best == nil || c.least < b.best.Buy.Cost.Minor {
			least = min(least, c.least)
		}
	}
	return least, nil
}

// candidates lists the sets of bolts that might hold the pieces for less than the
// best purchase so far. least is what one length, or a set beyond those looked at,
// costs at the least.
func (b *buyer) candidates() (all []candidate, least int64) {
	least = math.MaxInt64
	if p, err := b.t.buy(b.t.LeastNeeded(b.floor.Full.Length)); err == nil {
		least = p.Cost.Minor
	}
	if b.best != nil && !b.best.Several() {
		if p, err := b.t.buy(b.best.LeastBuy); err == nil {
			least = max(least, p.Cost.Minor)
		}
	}
	next := b.offer.Sets(b.useful, mostLengths)
	for n := 0; ; n++ {
		s, ok := next()
		if !ok || b.best != nil && s.Cost.Minor >= b.best.Buy.Cost.Minor {
			return all, least
		}
		if n == mostSets {
			return all, min(least, s.Cost.Minor)
		}
		cost := s.Cost.Minor
		if cut := b.floor.Cut(s.Counts); cut > 0 {
			minor, ok := b.offer.CutCost(b.t.LeastNeeded(cut))
			if !ok {
				continue
			}
			cost += minor
		}
		if b.best == nil || cost < b.best.Buy.Cost.Minor {
			all = append(all, candidate{s, cost})
		}
	}
}

// try lays the pieces on a set of bolts and a length cut besides, and keeps that
// when it is a better purchase than the best.
func (b *buyer) try(ctx context.Context, s cost.Set, finals *int) error {
	var strips []shelf.Length
	var sizes []int
	for i, n := range s.Counts {
		for range n {
			strips, sizes = append(strips, shelf.Length{Strip: b.strips[i]}), append(sizes, i)
		}
	}
	f, err := b.filler(strips)
	if err != nil {
		return err
	}
	p, ok := f.Cheapest(ctx)
	if !ok {
		return nil
	}
	if !p.Complete() {
		if *finals == 0 {
			return nil
		}
		*finals--
		if p = f.Squeeze(ctx, p); !p.Complete() && !b.offer.ByLength() {
			return nil
		}
	}
	p = f.Prune(ctx, p)
	return b.take(ctx, f, p, sizes)
}

// take lays the rest of a plan, buys what it takes and keeps it when it is better
// than the best. sizes are those of the plan's bolts.
func (b *buyer) take(ctx context.Context, f *shelf.Filler, p shelf.Plan, sizes []int) error {
	set := cost.Set{Counts: make([]int, len(b.strips))}
	for i, size := range sizes {
		if p.Uses(i) {
			bolt := b.offer.Sizes()[size]
			set.Counts[size]++
			set.Bolts++
			set.Cost.Currency = bolt.Price.Currency
			set.Cost.Minor += bolt.Price.Minor
		}
	}
	use, err := f.Use(p)
	if err != nil {
		return err
	}
	l := Laid{Task: b.t, Rest: use.Rest.Problem}
	l.Task.Stretches = nil
	if len(use.Rest.Problem.Pieces) > 0 {
		if l, err = b.rest(ctx, use.Rest.Problem, b.o.Effort); err != nil {
			return err
		}
		l.Task.Problem = b.t.Problem
	}
	cutting := l.Needed
	for i := range use.Cuts {
		l.Needed += b.t.LeastNeeded(use.Cuts[i].Layout.Length)
	}
	if l.Buy, err = b.offer.Together(set, cutting, l.Needed, b.alone); err != nil {
		return err
	}
	if b.best != nil && !l.Buy.Precedes(b.best.Buy) {
		return nil
	}
	b.name(use.Cuts)
	l.Lengths = &Lengths{Cuts: use.Cuts, Rest: use.Rest}
	b.best = &l
	return nil
}

// name puts the bolts in order, the longest first, and numbers them.
func (b *buyer) name(cuts []shelf.Cut) {
	slices.SortStableFunc(cuts, func(p, q shelf.Cut) int { return cmp.Compare(q.Strip.MaxLength, p.Strip.MaxLength) })
	for i := range cuts {
		cuts[i].Name = fmt.Sprintf("bolt %d", i+1)
	}
}
