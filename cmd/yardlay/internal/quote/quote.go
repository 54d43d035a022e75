// Package quote prices a job: what is bought where for the laid cloths, notions,
// labour and what leads from cost to price. Money is cost.Money throughout.
package quote

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Options steer how the cloths are laid.
type Options struct {
	plan.Options
	Today  time.Time // the date of a page that says how long it is valid; zero: none
	Own    *Own      // by which planned hours are taken; nil: they stand as planned
	GoesOn bool      // what is laid is still being laid shorter: it was not cut short
	// Tried is told of what WhatIf has found so far; nil: nobody listens.
	Tried func(*Quote, Choices)
}

// Quote is what a job costs and why. Lengths in JSON are in mm, money in minor
// units of its currency.
type Quote struct {
	Title string `json:"title"`
	cost.Quote
	Orders []Order  `json:"orders"` // what is bought, by supplier
	Shelf  []Owned  `json:"shelf"`  // what is there already
	Work   *Work    `json:"work"`   // what the hours follow from; null where they are given
	Notes  []string `json:"notes"`
	// Places says where parts are pieced whose job leaves that open.
	Places []string `json:"places"`
	// NotIncluded names the cloths that have no price.
	NotIncluded []string `json:"not_included"`

	Cautions []string     `json:"-"`
	Unit     measure.Unit `json:"-"` // to show lengths in
	Page     job.Page     `json:"page"`

	sewn     Work                         // whatever the hours follow from
	per      func(id string) measure.Unit // that a cloth is sold by
	fittings int
	garments []string
}

// Order is what is bought from one supplier.
type Order struct {
	Supplier string     `json:"supplier"` // "" for a counter without a name
	Items    []Item     `json:"items"`
	Goods    cost.Money `json:"goods"` // the sum of the items
	Tax      cost.Money `json:"tax"`
	Shipping cost.Money `json:"shipping"`
	Total    cost.Money `json:"total"`
}

// Item is one thing to buy.
type Item struct {
	ID           string     `json:"id,omitempty"` // of a cloth
	Name         string     `json:"name"`
	Kind         cost.Kind  `json:"kind"`
	Width        float64    `json:"width,omitempty"` // of a cloth, mm
	NeededLength float64    `json:"needed_length,omitempty"`
	BoughtLength float64    `json:"bought_length,omitempty"`
	NeededCount  int        `json:"needed_count,omitempty"`
	BoughtCount  int        `json:"bought_count,omitempty"`
	Spare        string     `json:"spare,omitempty"` // "5 %", or a number of pieces
	Quantity     string     `json:"quantity"`        // in the counter's own unit: "5 3/4 yd (5.26 m)"
	Price        string     `json:"price"`           // of one of them: "10.90/yd"
	Leftover     float64    `json:"leftover,omitempty"`
	Reason       string     `json:"reason,omitempty"` // why more is bought than is needed, where that is cheaper
	Cost         cost.Money `json:"cost"`             // before tax and shipping
	For          []string   `json:"for,omitempty"`    // the gowns of several that it is for

	words string // what is bought, and why, where there is anything to tell
}

// Owned is what is used from the shelf, with what it is counted at.
type Owned struct {
	ID     string     `json:"id,omitempty"` // of a cloth
	Name   string     `json:"name"`
	What   string     `json:"what,omitempty"` // the name of a leftover
	Length float64    `json:"length,omitempty"`
	Count  int        `json:"count,omitempty"`
	Value  cost.Money `json:"value"`
	For    []string   `json:"for,omitempty"` // the gowns of several that it is for

	at string // in words, what it is counted at; "" for nothing
}

// Make lays a job and prices it. Errors about the job are a strict.Errors.
func Make(ctx context.Context, j *job.Job, o Options) (*Quote, error) {
	o.Check = Check(o)
	laid, err := plan.Lay(ctx, j, o.Options)
	if err != nil {
		return nil, err
	}
	return OfLaid(ctx, j, laid, o)
}

// Check is a plan.Options.Check: it says what keeps a job from being priced however it
// is laid, since its notions or hours cannot be had.
func Check(o Options) func(*job.Job) error {
	return func(j *job.Job) error { return newMaker(j, o).count() }
}

func newMaker(j *job.Job, o Options) *maker {
	return &maker{job: j.ShownIn(o.Unit), options: o, gowns: max(o.Gowns, 1)}
}

// OfLaid prices the laid cloths of j.
func OfLaid(ctx context.Context, j *job.Job, laid []plan.Laid, o Options) (*Quote, error) {
	m := newMaker(j, o)
	m.laid = laid
	q, err := m.make(ctx)
	if err != nil {
		return nil, err
	}
	var spreads []plan.Spread
	for _, l := range laid {
		spreads = append(spreads, l.Task.Spread)
	}
	q.Cautions = report.Cautions(spreads)
	return q, nil
}

// Weigh returns what a comparison is weighed by: the total of the quote of each row.
// A job that counts cloth at one counter alone is not quoted.
func Weigh(o Options) compare.Pricing {
	return func(ctx context.Context, j *job.Job, r *report.Report) (compare.Priced, error) {
		if !countsMore(j) {
			cuts, err := cutsOf(j, max(o.Gowns, 1))
			w := workOf(cuts)
			return compare.Priced{Seam: w.Seam, Pieces: w.Pieces}, err
		}
		q, err := OfLaid(ctx, j, r.Laid(), o)
		if err != nil {
			return compare.Priced{}, err
		}
		return q.priced(), nil
	}
}

// priced is what a comparison weighs and tells of a quote.
func (q *Quote) priced() compare.Priced {
	return compare.Priced{
		Price: q.Total, More: true, Seam: q.sewn.Seam, Pieces: q.sewn.Pieces, Labour: q.Labour, Rated: q.Work != nil,
	}
}

// countsMore says whether a gown costs more than its cloth at one counter: the job
// has suppliers to choose from, notions, labour or terms.
func countsMore(j *job.Job) bool {
	t := j.Terms
	return len(j.Notions) > 0 || j.Labour.ByRates || j.Labour.Hours > 0 || j.Labour.Fittings > 0 ||
		t.Overhead != 0 || t.Tax != 0 || t.Pricing != cost.AtCost || t.RoundTo.Minor != 0 ||
		slices.ContainsFunc(j.Cloths, func(c job.Cloth) bool {
			return len(c.Offers) > 1 || len(c.Offers) == 1 && c.Offers[0].Supplier != ""
		})
}

// maker makes one quote.
type maker struct {
	job     *job.Job
	options Options
	gowns   int
	cuts    []cut
	notions []bought
	hours   cost.Labour
	planned cost.Decimal // hours before they are taken by the record; 0 where they are not
	work    *Work        // that the hours follow from; nil where they are given
	laid    []plan.Laid
	many    bool                 // of many gowns: of what can be ordered the cheapest found is taken
	tried   map[string]plan.Laid // for the offers of other suppliers, by the task's key
}

// count takes from the drafts what does not depend on how they are laid: notions and hours.
func (m *maker) count() (err error) {
	if m.cuts, err = cutsOf(m.job, m.gowns); err != nil {
		return err
	}
	if m.notions, err = m.buyNotions(); err != nil {
		return err
	}
	if m.hours, m.work, err = m.labour(); err != nil {
		return say.Errorf("labour: %w", err)
	}
	return m.byRecord()
}

// make prices what is laid.
func (m *maker) make(ctx context.Context) (*Quote, error) {
	if err := m.count(); err != nil {
		return nil, err
	}
	bought, err := m.settle(ctx)
	if err != nil {
		return nil, err
	}
	q := &Quote{Title: m.job.Title, Orders: bought.list(), Unit: m.options.Unit, Page: m.job.Terms.Page,
		Notes: m.notes(), per: bought.per, fittings: m.hours.Fittings}
	q.NotIncluded, q.garments, q.Places = m.notIncluded(), m.garments(), report.Places(m.job, m.options.Unit)
	if q.Page.Date == "" && q.Page.Valid != "" && !m.options.Today.IsZero() {
		q.Page.Date = m.options.Today.Format("2 January 2006")
	}
	if q.Shelf, err = m.shelf(bought); err != nil {
		return nil, err
	}
	lines := bought.lines()
	for _, o := range q.Shelf {
		lines = append(lines, o.line(m.options.Unit))
	}
	terms := m.job.Terms.Terms
	terms.Gowns = m.gowns
	q.Work, q.sewn = m.work, workOf(m.cuts)
	if q.Quote, err = terms.Quote(lines, m.hours); errors.Is(err, cost.ErrRoundedAway) {
		return nil, say.Errorf("the quote: %w", err).Hint("a smaller round_to, or round = \"up\"")
	} else if err != nil {
		return nil, say.Errorf("the quote: %w", err)
	}
	if m.planned > 0 {
		q.Notes = append(q.Notes, fmt.Sprintf("%s So the %v planned hours count as %v h.", m.options.Own.Words, m.planned,
			m.hours.Hours))
	}
	q.Notes = append(q.Notes, bought.notes...)
	if q.Profit.Minor < 0 {
		q.Notes = append(q.Notes,
			fmt.Sprintf("Rounding leaves the price %s below the cost.",
				cost.Money{Minor: -q.Profit.Minor, Currency: q.Currency}))
	}
	for _, order := range q.Orders {
		for _, i := range order.Items {
			if i.words != "" {
				q.Notes = append(q.Notes, i.Name+": "+i.words)
			}
		}
	}
	return q, nil
}

// notes says what is out of the ordinary with what was laid.
func (m *maker) notes() []string {
	notes := []string{}
	for _, l := range m.laid {
		c := l.Task.Spread.Cloth
		if !c.Priced {
			notes = append(notes, c.Title+" has no price and is not in the quote.")
		}
	}
	for _, l := range m.laid {
		if !m.options.GoesOn && slices.ContainsFunc(l.Results,
			func(r nest.Result) bool { return r.Status == nest.Stopped || r.Status == nest.OutOfTime }) {
			return append(notes, "The search was ended early: the layouts hold, but a full run may take less cloth "+
				"and cost less.")
		}
	}
	return notes
}

// ForClient leaves out what is the maker's own: the client reads which garments are
// made, of which cloth, and what is not in the price.
func (q *Quote) ForClient() ClientQuote {
	return ClientQuote{
		Title: q.Title, ClientQuote: q.Quote.ForClient(), Garments: q.garments, NotIncluded: q.NotIncluded,
		Fittings: q.fittings, Cautions: q.Cautions[:max(0, len(q.Cautions)-1)], Page: q.Page,
	}
}

// ClientQuote is a quote as the client sees it.
type ClientQuote struct {
	Title string `json:"title"`
	cost.ClientQuote
	Garments    []string `json:"garments"`
	NotIncluded []string `json:"not_included"` // cloths without a price
	Fittings    int      `json:"fittings"`
	Cautions    []string `json:"cautions"` // to who wears it: all but that on cutting, which comes last
	Page        job.Page `json:"page"`
}

// garments names the parts that are made, each with its outer cloth.
func (m *maker) garments() []string {
	list := []string{}
	for _, p := range m.job.Parts {
		what := p.Name
		if n := p.Count * m.gowns; n > 1 {
			what = fmt.Sprintf("%d x %s", n, what)
		}
		k := slices.IndexFunc(m.job.Cloths,
			func(c job.Cloth) bool { return len(p.Layers) > 0 && c.ID == p.Layers[0].Cloth })
		if k >= 0 {
			what += " in " + m.job.Cloths[k].Title
		}
		list = append(list, what)
	}
	return list
}

// notIncluded names the cloths that are cut from and have no price.
func (m *maker) notIncluded() []string {
	list := []string{}
	for _, l := range m.laid {
		if c := l.Task.Spread.Cloth; !c.Priced {
			list = append(list, c.Title)
		}
	}
	return list
}
