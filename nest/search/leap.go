package search

// Between ordinary attempts a lane makes leaps: attempts at lengths that steps of a
// few percent never come to, since what stands in full columns of like items has to
// be taken apart before anything is gained. The first goes midway between the bound
// and the best layout; each failure halves it, until it is no bolder than an
// ordinary attempt. Then, and after a success, the next goes midway again. They
// begin from the best layout and from first layouts of other kinds in turn.
//
// On twelve corset panels twice, one leap in ten or so succeeds, from whichever
// start, for a fiftieth of the budget each; once one has, the rest is found soon. A
// lane that went on from first layouts of its own and shared nothing found no more
// there and cost up to 1 % on the published instances.
const (
	firstLeap   = 0.5 // of the way to the bound
	leapStrikes = 1   // see maxStrikes: most leaps go too far, and should say so soon
	leapShare   = 10  // one evaluation in so many
	leapsEnd    = 0.5 // of the budget
	leapMost    = 8   // no leap takes more than one in so many of the budget, or of the work so far

	// While the best layout is so many times as long as the bound, leaps wait until so many
	// steps in a row have failed; then they take one evaluation in so many, until so many of
	// them in a row have failed as well. With the last lane leaping from the start gown cloths
	// came out 0.3 % longer (benchmarks/README.md, "Leaps").
	farAbove = 1.25
	stuck    = 6
	farShare = 2
	inVain   = 40
)

// leaper keeps account of the leaps of a lane.
type leaper struct {
	stride float64 // share of the way to the bound that the next one goes
	count  int     // of all so far
	failed int     // since the last that succeeded
	used   int64   // evaluations
	over   bool    // they take too long for the budget
}

// mayLeap says whether it is time for a leap. Groups of items on a repeat have a way
// of their own (rebuild).
func (l *lane) mayLeap() bool {
	if l.leaps.over || len(l.groups) > 0 || !l.isBold(firstLeap) {
		return false
	}
	if l.best.length > farAbove*l.bound && l.leaps.failed < inVain {
		return len(l.failed.states) >= stuck && l.leaps.used*farShare <= l.evals
	}
	return l.pool.done < leapsEnd && l.leaps.used*leapShare <= l.evals
}

// isBold says whether going that share of the way to the bound is bolder than any
// ordinary attempt.
func (l *lane) isBold(stride float64) bool {
	return stride*(l.best.length-l.bound) > boldest*l.best.length
}

// leap makes one attempt.
func (l *lane) leap() {
	l.adopt()
	if !l.isBold(l.leaps.stride) {
		l.leaps.stride = firstLeap
	}
	length := l.best.length - l.leaps.stride*(l.best.length-l.bound)
	if l.maxLength > 0 {
		length = min(length, l.maxLength)
	}
	began, kind := l.evals, startKind((l.leaps.count+l.number)%int(startKinds))
	l.leaps.count++
	if l.tryWithin(length, kind) {
		l.leaps.stride, l.leaps.failed = firstLeap, 0
	} else {
		l.leaps.stride /= 2
		l.leaps.failed++
	}
	l.leaps.used += l.evals - began
}

// tryWithin makes one attempt at a length, from a start of a kind, and keeps what it
// finds.
func (l *lane) tryWithin(length float64, kind startKind) bool {
	l.until = l.evals + max(l.pool.work, l.evals, meetEvery)/leapMost
	ok := false
	if start := l.startWithin(length, kind); start != nil && l.load(start, length) {
		ok, _ = l.separate(leapStrikes)
	}
	l.leaps.over = l.exhausted()
	l.until = 0
	if ok {
		l.keep()
	}
	return ok
}

// exhausted says whether the work granted is used up.
func (l *lane) exhausted() bool { return l.until > 0 && l.evals >= l.until }
