package search

// budget is what each lane may do. Whenever the exploring of a budget is done it is
// doubled, up to a limit, as long as that pays: when its later half still shortened the
// layout by a share that is worth it, or when a little less would be cheaper. Where
// nothing was gained of late, the doubled budget goes to a search that begins anew: it
// ends in another basin, while this one has shown what it holds.
//
// On corset panels, gores of several bodies and bodices with sleeves four times the
// work shortens what still gained by 0.3 to 3 %; what stood still for half of the
// exploring gains little from more (benchmarks/README.md, gown cloths).
type budget struct {
	work int64 // evaluations for each lane; 0: no limit
	grow Growth

	doubled int       // how often
	lengths []float64 // of the best layout of the present search, at each meeting of the lanes
}

// Growth says how far a budget may grow. The zero value lets it not.
type Growth struct {
	Gaining int64 // evaluations for each lane, at the most, while it goes on to gain
	Near    int64 // and while Cheaper holds
	// Cheaper says whether a layout shorter by a share would cost less; nil: all do
	// that are a good deal shorter.
	Cheaper func(length, share float64) bool
}

const (
	// exploreShare is the part of the budget spent on exploring; the rest
	// compresses the best layout found. Compressing pays with many items (most
	// attempts succeed on shirts) and rarely with few (albano).
	exploreShare = 0.75

	worthGrowing = 0.002 // share of the length
	withinGrowth = 0.05  // more than growing gains where little was gained of late
	nearby       = 0.04  // what the first growing gains now and then, the next half of that, and so on
)

// used returns the share of the budget that so many evaluations are.
func (b *budget) used(evals int64) float64 { return float64(evals) / float64(b.work) }

// verdict is what to do next.
type verdict uint8

const (
	goOn verdict = iota
	beginAnew
	conclude // compress the best
)

// met notes the length of the best layout of the present search at a meeting after so
// many evaluations, and says what to do next; best is that of all searches. Lanes meet
// after equal work.
func (b *budget) met(evals int64, length, best float64) verdict {
	b.lengths = append(b.lengths, length)
	if b.used(evals) < exploreShare {
		return goOn
	}
	gained := b.lengths[len(b.lengths)/2]/length - 1
	most := b.mayGrowTo(gained, best)
	if b.work >= most {
		b.grow = Growth{}
		return conclude
	}
	b.work, b.doubled = min(2*b.work, most), b.doubled+1
	if gained >= worthGrowing {
		return goOn
	}
	b.lengths = nil
	return beginAnew
}

// mayGrowTo returns how far the budget may grow; gained is the share of the length that
// the later half of the exploring gained.
func (b *budget) mayGrowTo(gained, best float64) int64 {
	switch cheaper := b.grow.Cheaper; {
	case cheaper != nil && cheaper(best, nearby/float64(int(1)<<b.doubled)):
		return b.grow.Near
	case gained >= worthGrowing && (cheaper == nil || cheaper(best, max(withinGrowth, 2*gained))):
		return b.grow.Gaining
	}
	return 0
}
