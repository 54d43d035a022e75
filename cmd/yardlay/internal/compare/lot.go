package compare

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"sync"
	"sync/atomic"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/nest"
	"yardlay/shapes/say"
)

// lot is one distinct task of a comparison, laid once however many rows have it.
type lot struct {
	task   plan.Task
	pieces [sha256.Size]byte // equal where the same pieces are laid, as often, of one cloth
	row    int               // the first that has it
	laid   plan.Laid
	err    error
	other  *better // whose layout took the place of its own

	compared bool // laid as rows are compared, with less work than by itself
}

// better is a layout from another row that beat a search.
type better struct {
	row   int     // the first that has it
	alone float64 // bought length before, mm
}

// Why a lot was not laid though it could be.
var (
	errSkipped = errors.New("interrupted before it was laid")
	errLate    = errors.New("out of time before it was laid")
)

// over says why a run has ended, nil while it has not.
func over(ctx context.Context) error {
	switch {
	case ctx.Err() == nil:
		return nil
	case errors.Is(ctx.Err(), context.DeadlineExceeded):
		return errLate
	}
	return errSkipped
}

// newLot takes up a task.
func newLot(t plan.Task, row int) (*lot, error) {
	type cut struct {
		Name    string
		Count   int
		Outline any
	}
	var cuts []cut
	for _, p := range t.Problem.Pieces {
		cuts = append(cuts, cut{p.Name, p.Count, p.Outline})
	}
	text, err := json.Marshal(struct {
		Cloth string
		Cuts  []cut
	}{t.Spread.Cloth.ID, cuts})
	if err != nil {
		return nil, say.Errorf("cloth `%s`: %w", t.Spread.Cloth.ID, err)
	}
	return &lot{task: t, pieces: sha256.Sum256(text), row: row}, nil
}

// layer lays lots side by side.
type layer struct {
	options  Options
	of, done int // lots
	proofs   nest.Proofs
	telling  sync.Mutex
	standing *standing
}

// each runs do for every lot, as plan.SideBySide does. What do finds does not depend on
// how many processors there are.
func (l *layer) each(ctx context.Context, lots []*lot, do func(context.Context, *lot, plan.Options)) {
	plan.SideBySide(ctx, len(lots), l.options.Workers, func(within context.Context, i, workers int) {
		o := l.options.Options
		o.Workers, o.Progress, o.Compare = workers, l.progress(), lots[i].row > 0
		o.Proofs = cmp.Or(l.options.Proofs, &l.proofs)
		o.Steady = o.Compare || !l.options.Whole
		do(within, lots[i], o)
	})
}

// progress passes on how the search on one lot goes; nil when nobody listens.
func (l *layer) progress() func(plan.Progress) {
	if l.options.Progress == nil {
		return nil
	}
	return func(p plan.Progress) {
		l.telling.Lock()
		defer l.telling.Unlock()
		p.Finished, p.Of = l.done, l.of
		l.options.Progress(p)
	}
}

// layAll lays every lot by itself. When the run is over those that are not begun are
// left out, but those of the job as written: there is always something to show.
func (l *layer) layAll(ctx context.Context, lots []*lot) {
	l.of = len(lots)
	l.each(ctx, lots, func(within context.Context, one *lot, o plan.Options) {
		if one.err = over(ctx); one.err != nil && one.row > 0 {
			return
		}
		one.laid, one.err = plan.Do(within, one.task, o, nil)
		one.compared = o.Compare
		l.telling.Lock()
		defer l.telling.Unlock()
		l.done++
		l.standing.lay(one)
	})
}

// share lays a lot anew, starting from the layout of another row, wherever that layout
// is allowed on the lot's cloth and less is bought with it. It ends when no lot gains.
// A layout under strict rules is allowed under freer ones, so a row with freer rules
// never buys more than one with stricter rules.
func (l *layer) share(ctx context.Context, lots []*lot) {
	adopt(lots)
	for ctx.Err() == nil {
		again, from := beaten(lots)
		var gained atomic.Int64
		l.each(ctx, again, func(within context.Context, one *lot, o plan.Options) {
			laid, err := plan.Do(within, from[one].task, o, from[one].start)
			if err == nil && laid.Buy.Precedes(one.laid.Buy) {
				if one.other != nil {
					from[one].alone = one.other.alone
				}
				one.laid, one.other = laid, &from[one].better
				gained.Add(1)
			}
		})
		if gained.Load() == 0 {
			return
		}
	}
}

// beater is a layout of another row with which a lot buys less than with its own.
type beater struct {
	better
	task  plan.Task // the lot's, its pieces shared out over the stretches as there
	start *plan.Start
}

// beaten lists the lots that buy less with a layout of another row than with their own,
// and gives for each the layout with which it buys the least.
func beaten(lots []*lot) ([]*lot, map[*lot]*beater) {
	alike := map[[sha256.Size]byte][]*lot{}
	for _, one := range lots {
		if one.err == nil {
			alike[one.pieces] = append(alike[one.pieces], one)
		}
	}
	var again []*lot
	from := map[*lot]*beater{}
	for _, one := range lots {
		if one.err != nil || one.laid.Proved() || len(one.task.Spread.Cloth.Have) > 0 || one.laid.Several() {
			continue
		}
		least := one.laid.Buy.Bought
		for _, o := range alike[one.pieces] {
			if task, bought, ok := one.with(o, least); ok {
				least = bought
				from[one] = &beater{better{row: o.row, alone: one.laid.Buy.Bought}, task, task.OpenStart(o.laid)}
			}
		}
		if from[one] != nil {
			again = append(again, one)
		}
	}
	return again, from
}

// with tries a layout of another lot on the cloth of this one: first as it lies; then
// opened out, if this cloth lies open, or else with the pieces shared out over the
// stretches as in the other. It returns the task so laid and the length bought, mm. ok
// says that this is less than least and that the judge accepts the layout.
func (l *lot) with(other *lot, least float64) (t plan.Task, bought float64, ok bool) {
	t = l.task
	if len(other.laid.Results) == 0 || other.laid.Several() { // all cut from the shelf, or from several lengths
		return t, 0, false
	}
	if bought, ok = holds(t, t.Layouts(other.laid), least); ok || t.Pinned() > 0 { // pins lie on the stretches as they are
		return t, bought, ok
	}
	if t.Lay == nest.Open {
		bought, ok = holds(t, []nest.Layout{other.laid.Opened}, least)
	} else if t, ok = l.task.Like(other.laid.Task); ok {
		bought, ok = holds(t, t.Layouts(other.laid), least)
	}
	return t, bought, ok
}

// holds returns the length bought, mm, for layouts, one for each stretch of a task. ok
// says that it is less than least and that the judge accepts every layout.
func holds(t plan.Task, layouts []nest.Layout, least float64) (bought float64, ok bool) {
	if len(layouts) != len(t.Stretches) {
		return 0, false
	}
	lengths := make([]float64, len(layouts))
	for i, one := range layouts {
		lengths[i] = one.Length
	}
	if bought = t.Bought(lengths); bought >= least {
		return 0, false
	}
	for i, one := range layouts {
		if nest.Verify(t.Stretches[i].Problem, one) != nil {
			return 0, false
		}
	}
	return bought, true
}
