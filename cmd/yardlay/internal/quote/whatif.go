package quote

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cost"
	"yardlay/shapes/say"
)

// Choice is one thing that could be made otherwise, and what that would cost.
type Choice struct {
	Name    string       `json:"name"`
	Changes []job.Change `json:"changes"` // from the job as written
	Total   cost.Money   `json:"total"`
	Saves   cost.Money   `json:"saves"`      // of the total; negative where it costs more
	Cost    cost.Money   `json:"cost_saves"` // of the cost, before profit, rounding and tax
	Note    string       `json:"note"`
	Quote   *Quote       `json:"-"`
}

// mostChoices is how many choices are told: what is weighed at a glance.
const mostChoices = 5

// Choices are what could be made otherwise.
type Choices struct {
	Choices []Choice  `json:"what_if"`  // that move the total most, the greatest saving first
	LeftOut []LeftOut `json:"left_out"` // that cannot be made
	Skipped []string  `json:"skipped"`  // the names of those that were not tried, since the run was over before
}

// LeftOut is a choice that cannot be made, and why.
type LeftOut struct {
	Name string `json:"name"`
	Why  string `json:"why"`
}

// WhatIf is Make with the choices that move the total most. Each is laid and priced
// like the job itself; distinct markers are laid once, and a better layout of one
// row serves the others too, the job as written among them.
func WhatIf(ctx context.Context, f *job.File, o Options) (*Quote, Choices, error) {
	found := Choices{Choices: []Choice{}, LeftOut: []LeftOut{}, Skipped: []string{}}
	ways := candidates(f)
	changes := make([][]job.Change, len(ways))
	for i, w := range ways {
		changes[i] = w.changes
	}
	o.Check = Check(o)
	r, err := compare.Run(ctx, f, nil, changes, compare.Options{Options: o.Options, Whole: true})
	if err != nil {
		return nil, found, err
	}
	written := &r.Rows[0]
	if written.Report == nil {
		return nil, found, written.Err
	}
	q, err := OfLaid(ctx, written.Job, written.Report.Laid(), o)
	if err != nil {
		return nil, found, err
	}
	for i := range r.Rows[1:] {
		row := &r.Rows[i+1]
		w := ways[slices.IndexFunc(ways, func(w way) bool { return slices.Equal(w.changes, row.Changes) })]
		switch {
		case row.Skipped:
			found.Skipped = append(found.Skipped, w.name)
			continue
		case row.Report == nil:
			found.LeftOut = append(found.LeftOut, LeftOut{w.name, row.Why})
			continue
		}
		c := Choice{Name: w.name, Changes: row.Changes, Note: w.note}
		if c.Quote, err = OfLaid(ctx, row.Job, row.Report.Laid(), o); err != nil {
			found.LeftOut = append(found.LeftOut, LeftOut{w.name, reason(err)})
			continue
		}
		if err := c.weigh(q); err != nil {
			return nil, found, err
		}
		if c.Saves.Minor != 0 || c.Cost.Minor != 0 {
			found.Choices = append(found.Choices, c)
		}
	}
	found.Choices = moving(found.Choices)
	return q, found, nil
}

// reason is what an error says, without its place in the file and its hint.
func reason(err error) string {
	var one *strict.Error
	var change *job.ChangeError
	switch {
	case errors.As(err, &one): // the first of several
		return one.What
	case errors.As(err, &change):
		return change.What
	}
	what, _ := say.Parts(err, nil)
	return what
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
