package quote

import (
	"cmp"
	"context"
	"slices"

	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
)

// Choice is one thing that could be made otherwise, and what that would cost.
type Choice struct {
	Name    string           `json:"name"`
	Changes []compare.Change `json:"changes"` // from the job as written
	Total   cost.Money       `json:"total"`
	Saves   cost.Money       `json:"saves"`      // of the total; negative where it costs more
	Cost    cost.Money       `json:"cost_saves"` // of the cost, before profit, rounding and tax
	Note    string           `json:"note"`
	Quote   *Quote           `json:"-"`
}

// mostChoices is how many choices are told: what is weighed at a glance.
const mostChoices = 5

// WhatIf is Make with the choices that move the total most, the greatest saving
// first. Each is laid and priced like the job itself; distinct markers are laid
// once, and a better layout of one row serves the others too, the job as written
// among them.
func WhatIf(ctx context.Context, name string, src []byte, o Options) (*Quote, []Choice, error) {
	j, err := drawn(name, src, o)
	if err != nil {
		return nil, nil, err
	}
	ways := candidates(j, src)
	changes := make([][]job.Change, len(ways))
	for i, w := range ways {
		changes[i] = w.changes
	}
	r, err := compare.Run(ctx, name, src, nil, changes, o)
	if err != nil {
		return nil, nil, err
	}
	q, err := ofRow(ctx, j, &r.Rows[0], o)
	if err != nil {
		return nil, nil, err
	}
	choices := []Choice{}
	for i := range r.Rows[1:] {
		row := &r.Rows[i+1]
		if row.Report == nil {
			continue // a choice that cannot be cut is none
		}
		w := ways[slices.IndexFunc(ways, func(w way) bool { return w.is(row.Changes) })]
		changed, err := job.Vary(name, src, w.changes)
		if err != nil {
			return nil, nil, err
		}
		c := Choice{Name: w.name, Changes: row.Changes, Note: w.note}
		if c.Quote, err = ofRow(ctx, changed, row, o); err != nil {
			return nil, nil, err
		}
		if err := c.weigh(q); err != nil {
			return nil, nil, err
		}
		if c.Saves.Minor != 0 || c.Cost.Minor != 0 {
			choices = append(choices, c)
		}
	}
	return q, moving(choices), nil
}

// weigh works out what a choice saves.
func (c *Choice) weigh(written *Quote) (err error) {
	c.Total = c.Quote.Total
	if c.Saves, err = written.Total.Sub(c.Total); err != nil {
		return err
	}
	c.Cost, err = written.Cost.Sub(c.Quote.Cost)
	return err
}

// moving keeps the choices that move the total most, or, where it is rounded
// alike, the cost; the greatest saving first.
func moving(choices []Choice) []Choice {
	size := func(m cost.Money) int64 { return max(m.Minor, -m.Minor) }
	slices.SortStableFunc(choices, func(a, b Choice) int {
		return cmp.Or(cmp.Compare(size(b.Saves), size(a.Saves)), cmp.Compare(size(b.Cost), size(a.Cost)))
	})
	choices = choices[:min(len(choices), mostChoices)]
	slices.SortStableFunc(choices, func(a, b Choice) int {
		return cmp.Or(cmp.Compare(b.Saves.Minor, a.Saves.Minor), cmp.Compare(b.Cost.Minor, a.Cost.Minor))
	})
	return choices
}
