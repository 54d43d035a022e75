package search

// budget is what each lane may do. Whenever the exploring of a budget is done it is
// doubled, up to a limit, unless no layout that may yet be found would be cheaper.
// Where the later half of the exploring gained next to nothing, the doubled budget goes
// to a search that begins anew: it ends in another basin, while this one has shown what
// it holds.
//
// On gown cloths more work shortens layouts by 0 to 5 %, and what gained nothing of late
// can hardly be told from what still does: a bodice three times stood still and was 1.8 %
// above what more work found. Eight times brings gown cloths within 1 % of what ten times
// and other seeds find; four times left three of 73 above it (benchmarks/README.md, gown
// cloths).
type budget struct {
	work int64 // evaluations for each lane; 0: no limit
	grow Growth

	lengths []float64 // of the best layout of the present search, at each meeting of the lanes
}

// Growth says how far a budget may grow. The zero value lets it not.
type Growth struct {
	Most int64 // evaluations for each lane
	// Cheaper says whether a layout shorter by a share would cost less; nil: all do.
	Cheaper func(length, share float64) bool
}

const (
	// exploreShare is the part of the budget spent on exploring; the rest
	// compresses the best layout found. Compressing pays with many items (most
	// attempts succeed on shirts) and rarely with few (albano).
	exploreShare = 0.75

	standsStill = 0.002 // share of the length that counts as no gain
	withinReach = 0.1   // more than growing gains
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
	most := b.mayGrowTo(best)
	if b.work >= most {
		b.grow = Growth{}
		return conclude
	}
	b.work = min(2*b.work, most)
	if gained >= standsStill {
		return goOn
	}
	b.lengths = nil
	return beginAnew
}

func (b *budget) mayGrowTo(best float64) int64 {
	if !b.grow.Pays(best) {
		return 0
	}
	return b.grow.Most
}

// Pays says whether growing may gain what would cost less than a layout of a length.
func (g Growth) Pays(length float64) bool { return g.Cheaper == nil || g.Cheaper(length, withinReach) }
