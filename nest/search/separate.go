package search

// Patience of 50 sweeps lost 0.4 to 1.2 % of density on three of five textile
// instances at equal work; one or two strikes instead of three, no difference
// beyond that of seeds.
const (
	patience   = 100  // sweeps without a gain before a strike
	leastGain  = 0.98 // what counts as a gain: a loss below this share of the least so far
	maxStrikes = 3
)

// separate moves overlapping items apart at the present length. It returns
// true when no overlap is left; otherwise the least overlapping state it saw
// is left in the lane, with that state's loss.
func (l *lane) separate(strikes int) (ok bool, least float64) {
	l.resetWeights()
	least = l.total()
	best := l.at.clone()
	for strike := 0; least > 0 && strike < strikes; {
		atStart := least
		for quiet := 0; quiet < patience; quiet++ {
			if l.pool.stopped() || l.exhausted() {
				l.load(best, l.length)
				return false, least
			}
			l.raiseWeights()
			l.sweep()
			l.sweepGroups()
			total := l.total()
			if total < least {
				if total < leastGain*least {
					quiet = 0
				}
				least = total
				best.copyFrom(l.at)
			}
			if total == 0 {
				return true, 0
			}
		}
		if least < leastGain*atStart {
			strike = 0
		} else {
			strike++
		}
		l.load(best, l.length)
	}
	return least == 0, least
}

// sweep moves every overlapping item once, in random order.
func (l *lane) sweep() {
	var todo [64]int
	list := todo[:0]
	for i := range l.movable {
		if l.overlaps(i) {
			list = append(list, i)
		}
	}
	l.rng.Shuffle(len(list), func(a, b int) { list[a], list[b] = list[b], list[a] })
	for _, i := range list {
		if l.overlaps(i) {
			l.move(i)
			l.pool.meet(l)
			if l.pool.stopped() {
				return
			}
		}
	}
}
