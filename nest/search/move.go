package search

import "math"

// Sample counts of one move, by experiment: 10 + 5 beat 80 + 30, since many
// cheap sweeps with changing weights beat few thorough ones. Refining one
// sample instead of three lost 0.2 to 0.7 % on four of five instances.
const (
	samplesWide = 10 // places over the whole strip, for each way
	samplesNear = 5  // places about the present one, for each way
	refined     = 3  // the best of those take a first step, and the present place: see race
)

// trial is a place tried for an item.
type trial struct {
	way  int32
	x, y float64
	loss float64
}

// untried is the best of no trials yet.
func untried() (best [refined]trial) {
	for k := range best {
		best[k].loss = math.Inf(1)
	}
	return best
}

// move looks for the cheapest place for item i and puts it there.
func (l *lane) move(i int) {
	it := &l.items[i]
	now := trial{way: l.at.way[i], x: l.at.x[i], y: l.at.y[i]}
	now.loss = l.loss(i, l.shapeNow[i], now.x, now.y, math.Inf(1))
	if now.loss == 0 {
		return
	}
	best := untried()
	switch {
	case it.paired:
		for _, w := range it.leaning(it.ways[now.way].lean) {
			l.sample(i, w, now, samplesWide, &best)
		}
	case l.leansDeferred && len(it.straight) < len(it.ways) && l.pool.phase() == compressing:
		l.sampleLeans(i, now, &best)
	default:
		for _, w := range it.straight {
			l.sample(i, w, now, samplesWide, &best)
		}
	}
	winner := l.race(i, now, best)
	if winner.loss < now.loss {
		l.place(i, winner.way, winner.x, winner.y)
	}
	if winner.loss > 0 && it.paired && l.mayLean() {
		before := l.evals
		l.leanTogether(i)
		l.leant += l.evals - before
	}
}

// sampleLeans tries the way of item i and the leans next to it, near where it lies.
func (l *lane) sampleLeans(i int, now trial, best *[refined]trial) {
	l.sample(i, now.way, now, 0, best)
	for _, w := range l.items[i].nextLeans[now.way] {
		l.sample(i, w, now, 0, best)
	}
}

// sample tries random places for one way of item i, so many of them over the whole
// strip, and keeps the cheapest.
func (l *lane) sample(i int, w int32, now trial, wide int, best *[refined]trial) {
	way := &l.items[i].ways[w]
	s, sh := way.shape, &l.shapes[way.shape]
	along, across := l.along(i, way), l.across(i, way)
	if along.empty() || across.empty() {
		return
	}
	reach := 0.25 * math.Min(sh.w+sh.h, l.width)
	for k := range wide + samplesNear {
		var x, y float64
		if k < wide {
			x, y = along.part(l.rng.Float64()), across.part(l.rng.Float64())
		} else {
			x = along.nearest(now.x + reach*(2*l.rng.Float64()-1))
			y = across.nearest(now.y + reach*(2*l.rng.Float64()-1))
		}
		loss := l.loss(i, s, x, y, best[refined-1].loss)
		if loss >= best[refined-1].loss {
			continue
		}
		at := refined - 1
		for at > 0 && best[at-1].loss > loss {
			best[at] = best[at-1]
			at--
		}
		best[at] = trial{w, x, y, loss}
	}
}
