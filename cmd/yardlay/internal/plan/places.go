package plan

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/plane"
)

// mostPlaced is of how many parts the place of a cut is chosen, the first ones; mostPlaceTrials and mostPlaceFinals how
// many copies are laid for them in all, by trials and by quick searches. So of a job of whatever size little is spent
// before it is laid itself, and of one with hundreds of pieces nothing (our own figures: a few seconds at the most).
const mostPlaced, mostPlaceTrials, mostPlaceFinals = 8, 360, 150

// finalsOfPart is how many places for one cut are laid by a quick search.
const finalsOfPart = 2

// Settle has a job file leave nothing open of where corners are cut off: see Placed. A run that is interrupted
// meanwhile leaves it as it was.
func Settle(ctx context.Context, f *job.File, o Options) {
	j := Placed(ctx, f.Job(), o)
	if !errors.Is(ctx.Err(), context.Canceled) {
		f.Settle(j)
	}
}

// Placed returns a job with the place of each cut chosen that it leaves open, part by part: that for which cloth and,
// where the job has rates of labour, sewing on the corners cost least, then least is bought, then used, then sewn, of a
// few steps (PieceSteps) and the widths of the cloths, which are kept where nothing is saved elsewhere. It is chosen
// for one gown, by little work that neither effort nor seed change, so that a job is cut alike whatever is asked of it.
// A context that ends leaves the best so far.
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
		Steady: true, Compare: true,
	}}
	for n, called := range open {
		var at job.Place
		if n < mostPlaced && ctx.Err() == nil {
			at = s.place(ctx, called)
		}
		s.job = s.job.PiecedAt(called, at)
	}
	return s.job
}

// placing is the choice of places.
type placing struct {
	job            *job.Job // as chosen so far
	o              Options
	laid           map[string]Laid // by effort and key
	trials, finals int             // copies that may still be laid by them
}

// placed is a part with its cut at some place.
type placed struct {
	within float64 // mm
	tasks  []Task  // of its cloths
	seam   float64 // of its corners, mm
	sewing int64   // what that costs, minor units
	worth
	by []job.Saved // bought of each cloth
}

// worth is what some cloths and the sewing cost, in minor units, and what is bought and used of them, mm.
type worth struct {
	minor          int64
	bought, needed float64
}

func (w worth) and(p cost.Purchase, needed float64) worth {
	return worth{w.minor + p.Cost.Minor, w.bought + p.Bought, w.needed + needed}
}

// buysLess says whether it costs less, or the same with less cloth.
func (w worth) buysLess(than worth) bool {
	return cmp.Or(cmp.Compare(w.minor, than.minor), cmp.Compare(w.bought, than.bought)) < 0
}

// compare orders places, the best first.
func (p placed) compare(q placed) int {
	return cmp.Or(cmp.Compare(p.minor, q.minor), cmp.Compare(p.bought, q.bought), cmp.Compare(p.needed, q.needed),
		cmp.Compare(p.seam, q.seam))
}

// place chooses that of a part.
func (s *placing) place(ctx context.Context, called string) (at job.Place) {
	i := slices.IndexFunc(s.job.Parts, func(p job.Part) bool { return p.Called == called })
	parts, c := OuterParts(s.job, s.job.Parts[i].Layers[0].Cloth)
	steps := PieceSteps(called, parts, c, s.job.Unit)
	now := s.job.Parts[i].Layers[0].Corners.Within
	steps = slices.DeleteFunc(steps, func(step float64) bool { return step > now/(1+stepsApart) })
	if len(steps) == 0 {
		return at
	}
	written, ok := s.draw(ctx, called, 0)
	if !ok || !s.lay(ctx, &written, nest.Quick, &s.finals) {
		return at
	}
	best := s.best(ctx, called, steps, written)
	if at.Tried = len(steps); best.within == 0 {
		return at
	}
	at.Within, at.Seam = best.within, best.seam-written.seam
	for k, was := range written.by {
		if less := was.Bought - best.by[k].Bought; less != 0 {
			at.Less = append(at.Less, job.Saved{Cloth: was.Cloth, Bought: less})
		}
	}
	return at
}

// best is the best place of a part with the one that is written: steps whose bounds allow less to be bought are laid by
// a trial each, the best of these quickly.
func (s *placing) best(ctx context.Context, called string, steps []float64, written placed) placed {
	var tried []placed
	for _, step := range steps {
		one, ok := s.draw(ctx, called, step)
		if !ok || ctx.Err() != nil || !s.least(ctx, one).buysLess(written.worth) {
			continue
		}
		if s.lay(ctx, &one, nest.Trial, &s.trials) && s.reach(one).buysLess(written.worth) {
			tried = append(tried, one)
		}
	}
	slices.SortStableFunc(tried, placed.compare)
	best := written
	for _, one := range tried[:min(len(tried), finalsOfPart)] {
		if ctx.Err() != nil || !s.lay(ctx, &one, nest.Quick, &s.finals) {
			continue
		}
		if one.buysLess(written.worth) && one.compare(best) < 0 {
			best = one
		}
	}
	return best
}

// draw makes the tasks of the cloths of a part with its cut at a place; false where one of them cannot be cut so.
func (s *placing) draw(ctx context.Context, called string, within float64) (p placed, ok bool) {
	j := s.job.PiecedAt(called, job.Place{Within: within})
	all, err := Unless(ctx, func() ([]Task, error) { return Tasks(j, 1) })
	if err != nil {
		return p, false
	}
	p.within = within
	corners := 0
	for _, part := range j.Parts {
		for _, l := range part.Layers {
			if part.Called != called || l.Corners == nil {
				continue
			}
			made, err := l.Drafted()
			if err != nil {
				return p, false
			}
			for _, cut := range made.Parted {
				p.seam += float64(cut.Join.Times*part.Count) * plane.Length(cut.Line)
				corners += cut.Join.Times * part.Count
			}
			for _, t := range all {
				known := slices.ContainsFunc(p.tasks, func(o Task) bool { return o.Spread.Cloth.ID == t.Spread.Cloth.ID })
				if t.Spread.Cloth.ID == l.Cloth && !known {
					p.tasks = append(p.tasks, t)
				}
			}
		}
	}
	p.sewing = j.Labour.Sewing(p.seam, corners)
	return p, true
}

// lay lays the cloths of a part; false where one of them cannot be laid or bought, or has more copies than are left to
// be laid.
func (s *placing) lay(ctx context.Context, p *placed, effort nest.Effort, left *int) bool {
	o := s.o
	o.Effort = effort
	p.worth, p.by = worth{minor: p.sewing}, nil
	for _, t := range p.tasks {
		key := effort.String() + t.Key()
		l, ok := s.laid[key]
		if !ok {
			n := t.Spread.Copies()
			if n > *left {
				return false
			}
			*left -= n
			var err error
			if l, err = Do(ctx, t, o, nil); err != nil {
				return false
			}
			s.laid[key] = l
		}
		p.worth = p.and(l.Buy, l.Needed)
		p.by = append(p.by, job.Saved{Cloth: t.Spread.Cloth.ID, Bought: l.Buy.Bought})
	}
	return true
}

// least is the least that a place can come to.
func (s *placing) least(ctx context.Context, p placed) worth {
	w := worth{minor: p.sewing}
	simple, cancel := context.WithCancel(ctx)
	cancel()
	for _, t := range p.tasks {
		if t.onOneLength() {
			needed := t.leastHowever(simple, s.o.Proofs, t.Problem)
			bought, _ := t.buy(needed)
			w = w.and(bought, needed)
		}
	}
	return w
}

// reach is what a place that was tried can come to by a search, as far as can be hoped.
func (s *placing) reach(p placed) worth {
	w := worth{minor: p.sewing}
	for _, t := range p.tasks {
		if l := s.laid[nest.Trial.String()+t.Key()]; t.onOneLength() {
			w = w.and(l.reaching(), 0)
		}
	}
	return w
}

// onOneLength says whether all is cut from one length of bought cloth.
func (t Task) onOneLength() bool { return len(t.Spread.Cloth.Have) == 0 && !t.InLengths() }
