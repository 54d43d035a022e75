package plan

import (
	"cmp"
	"context"
	"errors"
	"math"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/nest"
	"yardlay/shapes"
)

// mostPlaced is of how many parts the place of a cut is chosen, the first ones; mostPlaceTrials and mostPlaceFinals how
// many copies are laid for them in all, by trials and by quick searches. So of a job of whatever size little is spent
// before it is laid itself, and of one with hundreds of pieces nothing (our own figures: nine skirts of eight gores,
// all open, along and across the grain, take 3 s of processor time from one cloth, 10 s from one each; four parts of a
// gown with a train, folded, beside leftovers, 16 s).
const mostPlaced, mostPlaceTrials, mostPlaceFinals = 8, 360, 150

// finalsOfPart is how many places for one cut are laid by a quick search.
const finalsOfPart = 2

// Settle has a job file leave nothing open of where parts are pieced: see Placed. A run that is interrupted
// meanwhile leaves it as it was.
func Settle(ctx context.Context, f *job.File, o Options) {
	j := Placed(ctx, f.Job(), o)
	if !errors.Is(ctx.Err(), context.Canceled) {
		f.Settle(j)
	}
}

// Placed returns a job with the places of the cuts chosen that it leaves open, part by part: those for which cloth and,
// where the job has rates of labour, sewing them costs least, then least is bought, then used, then sewn. Corners are
// cut off at one of a few steps (PieceSteps) or the widths of the cloths; where it has that chosen, pieces are cut
// across at one of a few others (LengthSteps), not at all, or as the longest bolt asks for, and in both ways. What the
// cloths ask for is kept where nothing is saved elsewhere. It is chosen for one gown, by little work that neither
// effort nor seed change, so that a job is cut alike whatever is asked of it. A context that ends leaves the best so
// far.
func Placed(ctx context.Context, j *job.Job, o Options) *job.Job {
	open := j.PlacesOpen()
	if len(open) == 0 {
		return j
	}
	ctx, done := within(ctx, 1./4)
	defer done()
	s := placing{job: j, laid: map[string]Laid{}, trials: mostPlaceTrials, finals: mostPlaceFinals, o: Options{
		Seed: 1, Workers: o.Workers, Unit: j.Unit, Memory: o.Memory, Progress: o.Progress,
		Proofs: cmp.Or(o.Proofs, new(nest.Proofs)),
		Steady: true, Compare: true, oneFold: true,
	}}
	bolts := map[string]float64{}
	for _, called := range open { // all of them first: while one is too long for its bolts nothing can be laid
		bolts[called] = boltsOf(j, called)
		s.job = s.job.PiecedAt(called, job.Place{Tried: -1, Bolts: bolts[called]})
	}
	for n, called := range open {
		var at job.Place
		if n < mostPlaced && ctx.Err() == nil {
			at = s.place(ctx, called)
		}
		at.Bolts = bolts[called]
		s.job = s.job.PiecedAt(called, at)
	}
	return s.job
}

// boltsOf is the longest that is sold of some cloth of a part that may be cut across, mm; 0 where its pieces are not
// longer.
func boltsOf(j *job.Job, called string) (most float64) {
	for _, p := range j.Parts {
		if p.Called != called || !p.Place.Across {
			continue
		}
		for _, l := range p.Layers {
			k := slices.IndexFunc(j.Cloths, func(c job.Cloth) bool { return c.ID == l.Cloth })
			if k < 0 || l.Corners == nil {
				continue
			}
			holds := longestOnBolts(j.Cloths[k])
			if holds > 0 && (most == 0 || holds < most) && longer(l, holds) {
				most = holds
			}
		}
	}
	return most
}

// longer says whether some piece of a layer is longer than so much, mm.
func longer(l job.Layer, mm float64) bool {
	whole, _ := l.Whole().Drafted()
	return slices.ContainsFunc(whole.Pieces, func(p shapes.Piece) bool {
		along, _ := p.CutSize()
		return along > mm
	})
}

// placing is the choice of places.
type placing struct {
	job            *job.Job // as chosen so far
	o              Options
	laid           map[string]Laid // by effort and key
	trials, finals int             // copies that may still be laid by them
	vain           bool            // what refused the job is none of a place
}

// place chooses that of a part.
func (s *placing) place(ctx context.Context, called string) (at job.Place) {
	i := slices.IndexFunc(s.job.Parts, func(p job.Part) bool { return p.Called == called })
	now := s.job.Parts[i]
	parts, c := OuterParts(s.job, now.Layers[0].Cloth)
	var narrower, shorter []float64
	if now.Place.Along {
		narrower = further(PieceSteps(called, parts, c, s.job.Unit), now.Layers[0].Corners.Within)
	}
	if now.Place.Across {
		shorter, at.Whole = LengthSteps(called, parts, c, s.job.Unit)
		shorter = further(shorter, now.Layers[0].Corners.Length)
	}
	if len(narrower)+len(shorter) == 0 {
		return at
	}
	written, err := s.draw(ctx, called, cut{})
	switch {
	case err == nil && !s.lay(ctx, &written, nest.Quick, &s.finals), err != nil && s.vain, ctx.Err() != nil:
		return at
	case err != nil:
		written.worth = worth{minor: math.MaxInt64, unpriced: math.Inf(1)} // any place that can be cut is better
	}
	best, tried := s.best(ctx, called, narrower, shorter, written)
	none := best.cut == (cut{})
	if s.vain = err != nil && none; s.vain {
		return at
	}
	if at.Tried = tried; none {
		return at
	}
	at.Refused = err
	at.Within, at.Length, at.Seam = best.within, best.length, best.seam-written.seam
	for k, was := range written.by {
		if less := was.Bought - best.by[k].Bought; less != 0 {
			at.Less = append(at.Less, job.Saved{Cloth: was.Cloth, Bought: less})
		}
	}
	return at
}

// further leaves of some steps those that are well below what is cut by now; 0: by nothing.
func further(steps []float64, now float64) []float64 {
	return slices.DeleteFunc(steps, func(step float64) bool { return now > 0 && step > now/(1+stepsApart) })
}

// best is the best place of a part with the one that is written, and how many are weighed beside that: steps along the
// grain, steps across it, and these with the best of those along it. What their bounds allow to be bought for less is
// laid by a trial each, the best of these quickly.
func (s *placing) best(ctx context.Context, called string, narrower, shorter []float64, written placed) (best placed,
	weighed int) {
	var tried []placed
	try := func(within, length float64) {
		weighed++
		one, err := s.draw(ctx, called, cut{within, length})
		if err != nil || ctx.Err() != nil || !s.least(ctx, one).buysLess(written.worth) {
			return
		}
		if s.lay(ctx, &one, nest.Trial, &s.trials) && s.reach(one).buysLess(written.worth) {
			tried = append(tried, one)
		}
	}
	for _, step := range narrower {
		try(step, 0)
	}
	along := slices.Clone(tried)
	for _, step := range shorter {
		try(0, step)
	}
	if len(along) > 0 {
		within := slices.MinFunc(along, placed.compare).within
		for _, step := range shorter {
			try(within, step)
		}
	}
	slices.SortStableFunc(tried, placed.compare)
	best = written
	for _, one := range tried[:min(len(tried), finalsOfPart)] {
		if ctx.Err() != nil || !s.lay(ctx, &one, nest.Quick, &s.finals) {
			continue
		}
		if one.buysLess(written.worth) && one.compare(best) < 0 {
			best = one
		}
	}
	return best, weighed
}
