package search

import "math"

// Shares by which compression shortens the best layout, from the first attempt
// to the last.
const (
	compressFrom = 0.002
	compressTo   = 0.000002
)

// compress makes one attempt to shorten the best layout by a little, the less
// the nearer the end of the budget.
func (l *lane) compress() {
	l.adopt()
	part := math.Min(1, (l.pool.done-exploreShare)/(1-exploreShare))
	share := compressFrom * math.Pow(compressTo/compressFrom, part)
	if !l.load(l.best, l.target(share)) {
		l.giveUp()
		return
	}
	if ok, _ := l.separate(1); ok {
		l.keep()
	}
}
