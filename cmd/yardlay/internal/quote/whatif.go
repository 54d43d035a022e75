package quote

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/report"
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
	Waiting []string  `json:"-"`        // and, while it goes on, of those that are still to be laid
}

// Said is what is said below the choices, a paragraph each: what cannot be made, what was
// not tried, and how they are counted.
func (found Choices) Said() []string {
	var said []string
	for _, l := range found.LeftOut {
		said = append(said, l.Name+" cannot be made: "+l.Why+".")
	}
	if len(found.Skipped) > 0 {
		said = append(said, "The run ended before it tried these: "+strings.Join(found.Skipped, ", ")+
			". A full run prices them.")
	}
	last := "Each row changes one thing, and is laid and priced as the job is. A saving below 0 costs more."
	if len(found.Choices) == 0 {
		last = "None of the choices tried moves the price."
		if len(found.Skipped)+len(found.Waiting) > 0 {
			last = "None of the choices tried so far moves the price."
		}
	}
	return append(said, last)
}

// Shown is what is saved as it is printed: "-" for nothing.
func (c Choice) Shown() string {
	if c.Saves.Minor == 0 {
		return "-"
	}
	return c.Saves.Grouped()
}

// Details says what else is to be known about a choice beside a quote.
func (c Choice) Details(q *Quote) []string {
	var all []string
	if c.Saves.Minor == 0 && q.Cost != c.Quote.Cost {
		all = append(all, fmt.Sprintf("the cost is %s, rounded to the same total", c.Quote.Cost.Grouped()))
	}
	if c.Note != "" {
		all = append(all, c.Note)
	}
	return all
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
	t := trial{o: o, ways: candidates(f), priced: map[*report.Report]*Quote{}}
	changes := make([][]job.Change, len(t.ways))
	for i, w := range t.ways {
		changes[i] = w.changes
	}
	t.o.Check = Check(o)
	co := compare.Options{Options: t.o.Options, Whole: true, Best: compare.Steps(changes), Price: t.weigh}
	if o.Tried != nil {
		co.Stands = func(r *compare.Result) {
			if q, found, err := t.choices(ctx, r); err == nil && q != nil {
				o.Tried(q, found)
			}
		}
	}
	r, err := compare.Run(ctx, f, nil, changes, co)
	if err != nil {
		return nil, noChoices(), err
	}
	return t.choices(ctx, r)
}

// trial is a comparison of ways, priced.
type trial struct {
	o      Options
	ways   []way
	priced map[*report.Report]*Quote // what is priced already
}

func noChoices() Choices {
	return Choices{Choices: []Choice{}, LeftOut: []LeftOut{}, Skipped: []string{}}
}

// choices weighs the rows of a comparison that are laid. Without the job as written there
// is no quote yet.
func (t *trial) choices(ctx context.Context, r *compare.Result) (*Quote, Choices, error) {
	found := noChoices()
	written := &r.Rows[0]
	if written.Report == nil {
		return nil, found, written.Err
	}
	q, err := t.price(ctx, written)
	if err != nil {
		return nil, found, err
	}
	for i := range r.Rows[1:] {
		row := &r.Rows[i+1]
		w := t.ways[slices.IndexFunc(t.ways, func(w way) bool { return slices.Equal(w.changes, row.Changes) })]
		switch {
		case row.PassedOver:
			continue
		case row.Skipped:
			found.Skipped = append(found.Skipped, w.name)
			continue
		case row.Report == nil && row.Why == "":
			found.Waiting = append(found.Waiting, w.name)
			continue
		case row.Report == nil:
			found.LeftOut = append(found.LeftOut, LeftOut{w.name, row.Why})
			continue
		}
		c := Choice{Name: w.name, Changes: row.Changes, Note: w.note}
		for _, more := range []string{row.Elsewhere(), row.Sewn(t.o.Unit, r.Currency), row.LaidAnew()} {
			if more != "" {
				c.Note = strings.TrimPrefix(c.Note+"; "+more, "; ")
			}
		}
		if c.Quote, err = t.price(ctx, row); err != nil {
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

// price prices a row that is laid, once.
func (t *trial) price(ctx context.Context, row *compare.Row) (*Quote, error) {
	return t.quote(ctx, row.Job, row.Report)
}

func (t *trial) quote(ctx context.Context, j *job.Job, r *report.Report) (*Quote, error) {
	if q := t.priced[r]; q != nil {
		return q, nil
	}
	q, err := OfLaid(ctx, j, r.Laid(), t.o)
	if err == nil {
		t.priced[r] = q
	}
	return q, err
}

// weigh is what the rows are weighed by: their quotes.
func (t *trial) weigh(ctx context.Context, j *job.Job, r *report.Report) (compare.Priced, error) {
	q, err := t.quote(ctx, j, r)
	if err != nil {
		return compare.Priced{}, err
	}
	return q.priced(), nil
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
// alike, the cost; of such that move it as much those that save. The greatest saving comes first.
func moving(choices []Choice) []Choice {
	size := func(m cost.Money) int64 { return max(m.Minor, -m.Minor) }
	slices.SortStableFunc(choices, func(a, b Choice) int {
		return cmp.Or(cmp.Compare(size(b.Saves), size(a.Saves)), cmp.Compare(b.Saves.Minor, a.Saves.Minor),
			cmp.Compare(size(b.Cost), size(a.Cost)))
	})
	choices = choices[:min(len(choices), mostChoices)]
	slices.SortStableFunc(choices, func(a, b Choice) int {
		return cmp.Or(cmp.Compare(b.Saves.Minor, a.Saves.Minor), cmp.Compare(b.Cost.Minor, a.Cost.Minor))
	})
	return choices
}
