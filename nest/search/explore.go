package search

import (
	"cmp"
	"math"
	"slices"
)

// run is the life of a lane: leap, explore, then compress, until the budget is used.
func (l *lane) run() {
	for !l.pool.stopped() {
		if l.best.length <= l.enough() {
			l.evals = max(l.evals, l.nextMeet) // nothing to gain: go and say so
			l.pool.meet(l)
			continue
		}
		switch {
		case l.search < l.pool.search:
			l.begin(l.pool.search, l.pool.first)
		case l.pool.phase() == compressing:
			l.compress()
		case l.mayLeap():
			l.leap()
		default:
			l.explore()
		}
		l.evals++ // an attempt always costs something, so that all end
		l.pool.meet(l)
	}
}

// begin begins anew from a layout.
func (l *lane) begin(search int, from *placement) {
	if l.aside == nil || l.best.length < l.aside.length {
		l.aside = l.best
	}
	l.search, l.best = search, from
	l.rate, l.leaps = boldest, leaper{stride: firstLeap}
	l.failed.clear()
}

// enough is the length at which a layout counts as having reached the bound.
func (in *instance) enough() float64 { return in.bound * (1 + 1e-6) }

// Shares by which an attempt shortens the strip: the next is half as bold
// after a failure, bolder after a success. A timidest share of 0.0005 or 0.0002
// made no difference beyond that of seeds.
const (
	boldest  = 0.02
	timidest = 0.001
)

// explore makes one attempt at a shorter strip: from the best layout, or from
// a disturbed failure when there is one.
func (l *lane) explore() {
	l.adopt()
	length := l.target(l.rate)
	from, failed := l.best, l.failed.pick(l.rng.Float64())
	if failed != nil {
		from = failed
	}
	if built := l.shortestBuilt(); built != nil {
		if l.isBest(built) {
			return
		}
		if l.rng.IntN(2) == 1 {
			from, failed = built, nil
		}
	}
	if !l.load(from, length) {
		l.giveUp()
		return
	}
	ok, least := false, 0.0
	if failed != nil {
		l.disturb()
	} else {
		ok = l.polish()
	}
	if !ok {
		ok, least = l.separate(maxStrikes)
	}
	if ok {
		l.keep()
		l.rate = math.Min(boldest, l.rate*1.5)
	} else {
		l.failed.add(l.at.clone(), least)
		l.rate = math.Max(timidest, l.rate/2)
	}
}

// target is the length of an attempt that is to save the given share, no
// shorter than the bound. An exact fit needs a little more while slanted edges are
// kept loose, and is closed on the lattice.
func (l *lane) target(share float64) float64 {
	const boundSlack = 1e-5
	length := math.Max(l.bound*(1+boundSlack), l.best.length*(1-share))
	if length >= l.best.length {
		length = l.bound
	}
	if l.maxLength > 0 {
		length = math.Min(length, l.maxLength)
	}
	return length
}

// keep records the present state, which is free of overlap.
func (l *lane) keep() {
	l.best = l.at.clone()
	l.best.length = l.extent(l.best)
	l.failed.clear()
}

// isBest takes over a layout without overlap that is shorter than the best.
func (l *lane) isBest(p *placement) bool {
	if p.length >= l.best.length {
		return false
	}
	l.best = p
	l.failed.clear()
	return true
}

// giveUp counts an attempt at a length at which some group has no phase: far less
// work than any other, and not to be tried for ever.
func (l *lane) giveUp() {
	l.rate = math.Max(timidest, l.rate/2)
	l.evals += 1 << 12
}

// adopt takes over the pool's best layout when it is shorter than the lane's own.
func (l *lane) adopt() {
	if shared := l.pool.shared; l.search == l.pool.search && shared.length < l.best.length {
		l.best = shared.clone()
		l.failed.clear()
	}
}

// failures keeps the least overlapping ones, best first.
type failures struct{ states []failure }

type failure struct {
	at   *placement
	loss float64
}

// mostFailures is not critical: picks fall on the first few.
const mostFailures = 20

func (f *failures) clear() { f.states = f.states[:0] }

func (f *failures) add(at *placement, loss float64) {
	k, _ := slices.BinarySearchFunc(f.states, loss, func(one failure, loss float64) int {
		return cmp.Compare(one.loss, loss)
	})
	f.states = slices.Insert(f.states, k, failure{at, loss})
	if len(f.states) > mostFailures {
		f.states = f.states[:mostFailures]
	}
}

// pick returns one of them, the less overlapping the likelier: u in [0, 1)
// is cubed, so that half of the picks fall on the first eighth.
func (f *failures) pick(u float64) *placement {
	if len(f.states) == 0 {
		return nil
	}
	return f.states[int(u*u*u*float64(len(f.states)))].at
}

// largeShare, not tuned: items count as large while the larger ones together make up less
// than this share of all area.
const largeShare = 0.75

// disturb swaps the places of two large items of different kinds, or moves a group
// to another phase.
func (l *lane) disturb() {
	if len(l.groups) > 0 && l.rng.IntN(2) == 1 {
		l.rephase(l.rng.IntN(len(l.groups)))
		return
	}
	order := l.bigFirst()
	sum, large := 0.0, 0
	for large < len(order) && sum < largeShare*l.area {
		sum += l.items[order[large]].area
		large++
	}
	if large < 2 {
		return
	}
	for range 20 {
		i, j := order[l.rng.IntN(large)], order[l.rng.IntN(large)]
		if l.items[i].kind != l.items[j].kind {
			l.swap(i, j)
			return
		}
	}
}

// swap exchanges the centres of two items.
func (l *lane) swap(i, j int) {
	a, b := &l.shapes[l.shapeNow[i]], &l.shapes[l.shapeNow[j]]
	ax, ay := l.at.x[i]+a.w/2, l.at.y[i]+a.h/2
	bx, by := l.at.x[j]+b.w/2, l.at.y[j]+b.h/2
	l.placeNear(i, bx-a.w/2, by-a.h/2)
	l.placeNear(j, ax-b.w/2, ay-b.h/2)
}

// placeNear moves item i, in the way it lies, to the allowed place nearest to (x, y).
func (l *lane) placeNear(i int, x, y float64) {
	way := &l.items[i].ways[l.at.way[i]]
	l.place(i, l.at.way[i], l.along(i, way).nearest(x), l.across(i, way).nearest(y))
}
