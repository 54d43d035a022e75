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

// cut is a place of the cuts of a part: nothing of it is wider or longer, mm; 0: than the cloths ask for.
type cut struct{ within, length float64 }

// placed is a part with its cuts at some place.
type placed struct {
	cut
	tasks  []Task  // of its cloths
	seam   float64 // of its cuts, mm
	sewing int64   // what that costs, minor units
	worth
	by []job.Saved // bought of each cloth
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
func (s *placing) draw(ctx context.Context, called string, at cut) (p placed, err error) {
	j := s.job.PiecedAt(called, job.Place{Within: at.within, Length: at.length})
	all, err := Unless(ctx, func() ([]Task, error) { return Tasks(j, 1) })
	if err != nil {
		return p, err
	}
	p.cut = at
	more := 0 // pieces
	for _, part := range j.Parts {
		for _, l := range part.Layers {
			if part.Called != called || l.Corners == nil {
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
	return p, nil
}

// workOnBolts is how many times a copy counts that may be cut from bolts, of which sets are tried: by a trial it takes
// 36 times as much work, by a quick search 5 times (measured on a skirt of sixteen pieces).
const workOnBolts = 3

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
			if t.InLengths() {
				n *= workOnBolts
			}
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
		p.worth = p.and(t.Spread.Cloth, l.Buy, l.Needed)
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
			w = w.and(t.Spread.Cloth, bought, needed)
		}
	}
	return w
}

// reach is what a place that was tried can come to by a search, as far as can be hoped.
func (s *placing) reach(p placed) worth {
	w := worth{minor: p.sewing}
	for _, t := range p.tasks {
		if l := s.laid[nest.Trial.String()+t.Key()]; t.onOneLength() {
			w = w.and(t.Spread.Cloth, l.reaching(), 0)
		}
	}
	return w
}

// onOneLength says whether all is cut from one length of bought cloth.
func (t Task) onOneLength() bool { return len(t.Spread.Cloth.Have) == 0 && !t.InLengths() }
