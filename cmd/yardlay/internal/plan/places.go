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
// much is laid for them in all, by trials and by searches, as tasks weigh. So of a job of whatever size little is spent
// before it is laid itself, and of one with hundreds of pieces nothing (our own figures: a skirt of eight gores, open
// along and across the grain, takes 2.5 s of processor time; nine from one cloth, of which the first is weighed, 3 s;
// nine from one each, of which three are, 11 s; four from a fold beside leftovers 7 s).
const mostPlaced, mostPlaceTrials, mostPlaceFinals = 8, 50_000, 15_000

// finalsOfPart is how many places for one cut are laid by a search: of seventeen skirts, each at all of its fifteen
// places, two searches miss the cheapest one for three of them, four for one, five and six for none.
const finalsOfPart = 5

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
// across at one of a few others (LengthSteps), not at all, or as the longest bolt asks for, and in both ways, each step
// with each. What the cloths ask for is kept where nothing is saved elsewhere. It is chosen for one gown, by little
// work that neither effort nor seed change, so that a job is cut alike whatever is asked of it. A context that ends
// leaves the best so far, and the places say so.
func Placed(ctx context.Context, j *job.Job, o Options) *job.Job {
	open := j.PlacesOpen()
	if len(open) == 0 {
		return j
	}
	ctx, done := within(ctx, 1./4)
	defer done()
	s := placing{
		asked: j, open: open, at: map[string]job.Place{}, counted: map[string]bool{}, trials: mostPlaceTrials,
		finals: mostPlaceFinals,
		o: Options{
			Seed: 1, Workers: o.Workers, Unit: j.Unit, Memory: o.Memory, Progress: o.Progress,
			Proofs: cmp.Or(o.Proofs, new(nest.Proofs)), Weighed: cmp.Or(o.Weighed, new(Weighed)),
			Steady: true, Compare: true, oneFold: true,
		},
	}
	for _, called := range open { // all of them first: while one is too long for its bolts nothing can be laid
		s.at[called] = job.Place{Tried: -1, Bolts: boltsOf(j, called)}
	}
	s.standIn(ctx)
	for n, called := range open {
		at := s.at[called]
		if n < mostPlaced {
			at = s.place(ctx, called)
		}
		at.Tried = max(at.Tried, 0)
		s.at[called] = at
	}
	return s.pieced("")
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
	asked          *job.Job             // with them open
	open           []string             // parts
	at             map[string]job.Place // of each of them, as chosen so far
	o              Options
	counted        map[string]bool // layings that are counted
	trials, finals int             // that may still be laid by them, as tasks weigh
	vain           bool            // what refused the job is none of a place
}

// pieced returns the job with the open parts, but for one, where they are pieced so far.
func (s *placing) pieced(but string) *job.Job {
	j := s.asked
	for _, called := range s.open {
		at := s.at[called]
		if called == but {
			at = job.Place{Tried: -1, Bolts: at.Bolts}
		}
		j = j.PiecedAt(called, at)
	}
	return j
}

// place chooses that of a part.
func (s *placing) place(ctx context.Context, called string) (at job.Place) {
	at = s.at[called]
	one := s.choice(called)
	at.Whole = one.whole
	if len(one.cuts) == 0 {
		return at
	}
	defer func() { at.Ended = ctx.Err() != nil }()
	written, err := s.draw(ctx, one, cut{})
	if err == nil { // whether or not it stood in for that
		at.Within, at.Length, at.Refused = 0, 0, nil
	}
	switch {
	case err == nil && (!s.affords(written) || !s.lay(ctx, &written, nest.Quick, &s.finals)), err != nil && s.vain,
		ctx.Err() != nil:
		return at
	case err != nil:
		written.worth = worth{minor: math.MaxInt64, unpriced: math.Inf(1)} // any place that can be cut is better
	}
	best, tried := s.best(ctx, one, written)
	none := best.cut == (cut{})
	if s.vain = err != nil && none && at.Refused == nil; err != nil && none {
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

// best is the best place of a part with the one that is written, and how many are weighed beside that. What their
// bounds allow to be bought for less is laid by a trial each, the best of these by a search.
func (s *placing) best(ctx context.Context, one choice, written placed) (best placed, weighed int) {
	var tried []placed
	for _, at := range one.cuts {
		p, err := s.draw(ctx, one, at)
		if ctx.Err() != nil {
			break
		}
		if err == nil && s.least(ctx, p).buysLess(written.worth) {
			if !s.lay(ctx, &p, nest.Trial, &s.trials) {
				continue
			}
			if p.reach.buysLess(written.worth) {
				tried = append(tried, p)
			}
		}
		weighed++
	}
	slices.SortStableFunc(tried, placed.compare)
	best = written
	for _, p := range tried[:min(len(tried), finalsOfPart)] {
		if p.reach.minor > best.minor || ctx.Err() != nil {
			continue
		}
		if !s.lay(ctx, &p, nest.Quick, &s.finals) {
			weighed-- // for it might have saved
			continue
		}
		if p.buysLess(written.worth) && p.compare(best) < 0 {
			best = p
		}
	}
	return best, weighed
}
