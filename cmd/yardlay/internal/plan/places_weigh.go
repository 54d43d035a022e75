package plan

import (
	"cmp"
	"context"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/plane"
)

// placed is a part with its cuts at some place.
type placed struct {
	cut
	tasks  []Task  // of its cloths
	seam   float64 // of its cuts, mm
	sewing int64   // what that costs, minor units
	worth
	reach worth       // once it is tried: what a search can make of it, as far as can be hoped
	by    []job.Saved // bought of each cloth
}

// worth is what some cloths and the sewing cost, in minor units, and what is bought and used of them, and bought of
// those that have no price, mm.
type worth struct {
	minor                    int64
	bought, needed, unpriced float64
}

func (w worth) and(c job.Cloth, p cost.Purchase, needed float64) worth {
	w = worth{w.minor + p.Cost.Minor, w.bought + p.Bought, w.needed + needed, w.unpriced}
	if !c.Priced {
		w.unpriced += p.Bought
	}
	return w
}

// buysLess says whether it costs less, or the same with less cloth, and no more is bought of what has no price: that
// costs something, too.
func (w worth) buysLess(than worth) bool {
	return w.unpriced <= than.unpriced &&
		cmp.Or(cmp.Compare(w.minor, than.minor), cmp.Compare(w.bought, than.bought)) < 0
}

// compare orders places, the best first.
func (p placed) compare(q placed) int {
	return cmp.Or(cmp.Compare(p.minor, q.minor), cmp.Compare(p.bought, q.bought), cmp.Compare(p.needed, q.needed),
		cmp.Compare(p.seam, q.seam))
}

// draw makes the tasks of the cloths of a part with its cuts at a place. The error says why one of them cannot be cut
// so.
func (s *placing) draw(ctx context.Context, one choice, at cut) (p placed, err error) {
	j := one.at(at)
	all, err := s.tasks(ctx, j)
	if err != nil {
		return p, err
	}
	p.cut = at
	more := 0 // pieces
	for _, part := range j.Parts {
		for _, l := range part.Layers {
			if part.Called != one.called || l.Corners == nil {
				continue
			}
			made, err := l.Drafted()
			if err != nil {
				return p, err
			}
			for _, parted := range made.Parted {
				p.seam += float64(parted.Join.Times*part.Count) * plane.Length(parted.Line)
				more += parted.Join.Times * part.Count
			}
			for _, t := range all {
				known := slices.ContainsFunc(p.tasks, func(o Task) bool { return o.Spread.Cloth.ID == t.Spread.Cloth.ID })
				if t.Spread.Cloth.ID == l.Cloth && !known {
					p.tasks = append(p.tasks, t)
				}
			}
		}
	}
	p.sewing = j.Labour.Sewing(p.seam, more)
	p.reach.minor = p.sewing
	return p, nil
}

// workOnBolts and workOnShelf are how many times a cloth counts that may be cut from bolts, of which sets are tried, or
// beside leftovers (measured on skirts of sixteen to forty pieces: a search takes 3 to 10 times as much and 3 times as
// much, a trial as much to 36 times and 5 times).
const workOnBolts, workOnShelf = 15, 4

// weight is what laying a cloth counts: the square of its copies, for beside many others a place takes longer to weigh
// and tells less.
func (t Task) weight() int {
	n := t.Spread.Copies() * t.Spread.Copies()
	switch {
	case t.InLengths():
		return n * workOnBolts
	case !t.onOneLength():
		return n * workOnShelf
	}
	return n
}

// affords says whether enough is left to lay another place beside the one that is written, on each of its cloths.
func (s *placing) affords(written placed) bool {
	for _, t := range written.tasks {
		if t.weight() > s.trials || t.weight() > s.finals {
			return false
		}
	}
	return true
}

// lay lays the cloths of a part; false where one of them cannot be laid or bought, or weighs more than is left. What is
// cut from one length is searched with the simplest bounds: better ones take two to four times as long as the search,
// and the laying of the place that is chosen proves them.
func (s *placing) lay(ctx context.Context, p *placed, effort nest.Effort, left *int) bool {
	p.worth, p.by = worth{minor: p.sewing}, nil
	for _, t := range p.tasks {
		o := s.o
		if o.Effort = effort; t.onOneLength() {
			o.Effort, o.work = nest.Trial, effort.Work()
		}
		key := effort.String() + t.unpriced().Key()
		if !s.counted[key] {
			if t.weight() > *left {
				return false
			}
			*left -= t.weight()
			s.counted[key] = true
		}
		l, err := s.o.Weighed.lay(ctx, key, t, o)
		if err != nil {
			return false
		}
		p.worth = p.and(t.Spread.Cloth, l.Buy, l.Needed)
		p.by = append(p.by, job.Saved{Cloth: t.Spread.Cloth.ID, Bought: l.Buy.Bought})
		if effort == nest.Trial && t.onOneLength() {
			p.reach = p.reach.and(t.Spread.Cloth, l.reaching(), 0)
		}
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
			w = w.and(t.Spread.Cloth, bought, needed)
		}
	}
	return w
}

// onOneLength says whether all is cut from one length of bought cloth.
func (t Task) onOneLength() bool { return len(t.Spread.Cloth.Have) == 0 && !t.InLengths() }
