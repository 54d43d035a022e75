package compare

import (
	"context"
	"errors"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/nest"
	"yardlay/shapes/say"
)

// draw makes the rows with their tasks. Those that a run which is over does not
// come to are there and say so.
func (r *Result) draw(ctx context.Context, ways [][]job.Change, o Options) error {
	refused := map[job.Change]*job.ChangeError{}
	read := map[job.Change]bool{}
	for i, way := range ways {
		row := Row{Name: "as written", Changes: append([]job.Change{}, way...), Cloths: []Cloth{}, Notes: []string{}}
		if i > 0 {
			row.Name = Name(way)
		}
		if o.Progress != nil {
			o.Progress(plan.Progress{Progress: nest.Progress{Phase: "drafting"}, Finished: i, Of: len(ways)})
		}
		within, done := plan.InTurn(ctx, len(ways)-i) // of which choosing places takes its part
		change, err := r.drawRow(within, way, &row, o)
		done()
		if err != nil {
			return err
		}
		if change != nil {
			refused[change.Change] = change
		}
		for _, c := range way {
			read[c] = read[c] || change == nil || change.Change != c
		}
		if row.Job != nil || row.Why != "" {
			r.Rows = append(r.Rows, row)
		}
	}
	for _, way := range ways {
		for _, c := range way {
			if refused[c] != nil && !read[c] {
				return refused[c]
			}
		}
	}
	return nil
}

// drawRow makes a row of a way, or notes why it cannot be cut; nothing when it is
// the job as written. The error is plan.ErrInterrupted for that itself.
func (r *Result) drawRow(ctx context.Context, way []job.Change, row *Row, o Options) (*job.ChangeError,
	error) {
	first := len(r.Rows) == 0
	if err := over(ctx); err != nil && !first {
		row.skip(err)
		return nil, nil
	}
	drawn, err := plan.Unless(ctx, func() (Row, error) {
		drawn := *row
		j, err := r.file.With(way)
		if err == nil {
			j = plan.Placed(ctx, j, o.Options)
		}
		if err == nil && (first || !j.Same(r.Rows[0].Job)) {
			drawn.Job = j
			written := &drawn
			if !first {
				written = &r.Rows[0]
			}
			drawn.placed(written, o.Unit)
			drawn.plan(written, r.Currency, o)
		}
		return drawn, err
	})
	var change *job.ChangeError
	switch {
	case errors.Is(err, plan.ErrInterrupted) && first:
		return nil, err
	case errors.Is(err, plan.ErrInterrupted):
		row.skip(errSkipped)
	case errors.As(err, &change):
		row.Why, row.Brief, row.Hint = change.What, change.What, change.Hint
	case err != nil:
		row.refuse(err)
	case drawn.Job == nil:
		r.Rows[0].Name += " (" + row.Name + ")"
	default:
		*row = drawn
	}
	return change, nil
}

// skip notes that a row is not laid since the run was over before.
func (w *Row) skip(why error) {
	w.Why, w.Brief, w.Skipped = why.Error(), why.Error(), true
}

// plan makes the tasks of a row beside the job as written, or says why it cannot be cut, or
// priced in the currency of the others.
func (w *Row) plan(written *Row, currency string, o Options) {
	var err error
	shown := w.Job.ShownIn(o.Unit)
	if shown.Currency != currency {
		w.refuse(say.Errorf("its prices are in %s, those of the job in %s: nothing is converted", shown.Currency,
			currency))
		return
	}
	if w.tasks, err = plan.Tasks(shown, max(o.Gowns, 1)); err == nil && o.Check != nil {
		err = o.Check(shown)
	}
	if err != nil {
		w.refuse(err)
		return
	}
	w.begin(written, o.Begin)
}
